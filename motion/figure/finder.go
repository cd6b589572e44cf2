package figure

import "holdfast/motion/travel"

// A finder holds the memory for finding silhouettes in frames of one size.
type finder struct {
	diff, scratch []float32
	mask          *Mask
	patch         *Layer
	labels        *labeller
	found         []component // pieces of the last silhouette
	noise         float64     // standard deviation of a pixel in the last frame, levels
	gain, bias    float64     // of the last frame's light against the plate's
	marks         *Mask       // what looks like shadow
	shades        *labeller   // its pieces
	grid          *travel.Map
	hidden        []Region // cells before which something passes, by frame; nil says none
}

func newFinder(w, h int) (*finder, error) {
	mask, err := newMask(w, h)
	if err != nil {
		return nil, err
	}
	marks, err := newMask(w, h)
	if err != nil {
		mask.close()
		return nil, err
	}
	patch, err := NewLayer(w, h)
	if err != nil {
		mask.close()
		marks.close()
		return nil, err
	}
	return &finder{
		diff: make([]float32, w*h), scratch: make([]float32, 0, w*h/noiseStride+1),
		mask: mask, marks: marks, patch: patch, labels: newLabeller(), shades: newLabeller(),
	}, nil
}

func (f *finder) close() {
	f.mask.close()
	f.marks.close()
	f.patch.Close()
	f.labels.close()
	f.shades.close()
}

// silhouette sets f.mask and f.found to what differs from the plate in frame t.
func (f *finder) silhouette(p *Plate, frame *Layer, t int) error {
	p.world.fromCanvas(p.view, p.canvas, t)
	if f.hidden != nil {
		f.hide(p.view, f.hidden[t])
	}
	f.gain, f.bias = light(frame, p.view)
	p.differ(f.diff, frame, f.gain, f.bias)
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

// hide leaves nothing to be seen of a view in the given cells, and those beside
// them.
func (f *finder) hide(view *Layer, r Region) {
	if r.Size() == 0 {
		return
	}
	r = r.Grown()
	x0, y0 := f.grid.Bounds(0)
	for i := range view.W * view.H {
		// The picture's border, which has no cells, goes with those beside it.
		col := min((max(0, i%view.W*Shrink-x0))/travel.CellSide, r.Cols-1)
		row := min((max(0, i/view.W*Shrink-y0))/travel.CellSide, r.Rows-1)
		if r.Cells[row*r.Cols+col] {
			view.Pix[i*channels+channelSeen] = 0
		}
	}
}
