package figure

// A figure that stands still for most of a stretch is part of the median. When
// it leaves, what differs from the plate is the bare ground where it stood: a
// ghost. A ghost has its outline in the plate, a figure in the frame.

// ghostRatio is how many times steeper the plate must be than the frame, along
// the outline of a piece, for the piece to be a ghost.
const ghostRatio = 1.25

// lift removes ghosts from the plate: where a piece of a sampled frame is one,
// the frame shows the true background, which goes onto the canvas.
func (p *Plate) lift(layers []*Layer, f *finder) error {
	back, err := NewLayer(p.world.size.X, p.world.size.Y)
	if err != nil {
		return err
	}
	defer back.Close()
	for _, t := range pick(len(layers), plateSamples) {
		if err := p.liftFrame(layers[t], back, t, f); err != nil {
			return err
		}
	}
	return nil
}

// liftFrame removes the ghosts that frame t shows; canvas is scratch.
func (p *Plate) liftFrame(frame, canvas *Layer, t int, f *finder) error {
	if err := f.silhouette(p, frame, t); err != nil {
		return err
	}
	lifted := false
	patch := f.patch
	copy(patch.Pix, frame.Pix)
	for i := range f.mask.Pix {
		patch.Pix[i*channels+channelSeen] = 0
	}
	for _, c := range f.found {
		inFrame, inPlate, err := f.outline(c, frame, p.view)
		if err != nil {
			return err
		}
		if inPlate < ghostRatio*inFrame {
			continue
		}
		lifted = true
		if err := f.labels.each(c, frame.W, func(i int) { patch.Pix[i*channels+channelSeen] = 255 }); err != nil {
			return err
		}
	}
	if lifted {
		p.world.toCanvas(canvas, patch, t)
		p.mend(canvas)
	}
	return nil
}

// mend takes over what patch sees.
func (p *Plate) mend(patch *Layer) {
	for i := 0; i < len(patch.Pix); i += channels {
		if patch.Pix[i+channelSeen] == 255 {
			copy(p.canvas.Pix[i:i+channels], patch.Pix[i:i+channels])
		}
	}
}

// outline returns the mean slope of luma across the rim of a piece in the
// frame and in the plate.
func (f *finder) outline(c component, frame, plate *Layer) (inFrame, inPlate float64, err error) {
	w, h, n := frame.W, frame.H, 0
	mask := f.mask.Pix
	err = f.labels.each(c, w, func(i int) {
		x, y := i%w, i/w
		if x < 2 || y < 2 || x >= w-2 || y >= h-2 {
			return
		}
		for _, d := range [4]int{-1, 1, -w, w} {
			if mask[i+d] == 0 { // from one pixel inside to one outside
				inFrame += rise(frame, i-d, i+2*d)
				inPlate += rise(plate, i-d, i+2*d)
				n++
			}
		}
	})
	if n > 0 {
		inFrame, inPlate = inFrame/float64(n), inPlate/float64(n)
	}
	return inFrame, inPlate, err
}

// rise is the difference between two pixels over all channels, levels.
func rise(l *Layer, i, j int) float64 {
	sum := 0
	for c := range channelSeen {
		d := int(l.Pix[i*channels+c]) - int(l.Pix[j*channels+c])
		sum += max(d, -d)
	}
	return float64(sum)
}
