package figure

// A finder holds the memory for finding silhouettes in frames of one size.
type finder struct {
	diff, scratch []float32
	mask          *Mask
	patch         *Layer
	labels        *labeller
	found         []component // pieces of the last silhouette
	noise         float64     // standard deviation of a pixel in the last frame, levels
}

func newFinder(w, h int) (*finder, error) {
	mask, err := newMask(w, h)
	if err != nil {
		return nil, err
	}
	patch, err := NewLayer(w, h)
	if err != nil {
		mask.close()
		return nil, err
	}
	return &finder{
		diff: make([]float32, w*h), scratch: make([]float32, 0, w*h/noiseStride+1),
		mask: mask, patch: patch, labels: newLabeller(),
	}, nil
}

func (f *finder) close() {
	f.mask.close()
	f.patch.Close()
	f.labels.close()
}

// silhouette sets f.mask and f.found to what differs from the plate in frame t.
func (f *finder) silhouette(p *Plate, frame *Layer, t int) error {
	p.world.fromCanvas(p.view, p.canvas, t)
	p.differ(f.diff, frame)
	limit := level(f.diff, f.scratch)
	f.noise = float64(limit) / figureNoise
	f.mask.threshold(f.diff, limit)
	f.found = f.labels.components(f.found[:0], f.mask)
	return nil
}

// shape is what the mask marks of the pieces found.
func (f *finder) shape() Silhouette {
	s := newSilhouette(f.mask.W, f.mask.H)
	for _, c := range f.found {
		s.put(f.mask, c.box)
	}
	return s
}
