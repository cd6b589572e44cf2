package figure

import "slices"

// A figure is rooted where it never leaves its place. The plate then holds most
// of it, and only the parts that move are told apart.

const (
	// rootedWidths is how many of its own widths a figure's ground may be wide
	// for it to be rooted: arms swing within it, a walk leaves it.
	rootedWidths = 1.8
	// rootedHeights is the same for its height: what bounces leaves it, and its
	// size is its own and not that of its ground.
	rootedHeights = 1.8
	// rootedGap is the gap, as a share of the larger figure's size, across which
	// rooted pieces are one figure: the plate swallows what does not move
	// between the parts that do.
	rootedGap = 0.25
)

// joinRooted makes one figure of rooted pieces that lie close together on the ground,
// whatever the camera does.
func joinRooted(figures []Figure) []Figure {
	for i := 0; i < len(figures); i++ {
		for j := i + 1; j < len(figures); j++ {
			a, b := figures[i].ground.scale(Shrink), figures[j].ground.scale(Shrink)
			if !figures[i].Rooted || !figures[j].Rooted || !a.beside(b, rootedGap) {
				continue
			}
			figures[i] = figures[i].with(figures[j])
			figures = slices.Delete(figures, j, j+1)
			i, j = -1, len(figures) // the larger figure may reach farther
		}
	}
	return figures
}

// with returns f and g as one rooted figure.
func (f Figure) with(g Figure) Figure {
	out := Figure{Rooted: true, ground: f.ground.Union(g.ground), Travel: f.Travel + g.Travel}
	out.Start = min(f.Start, g.Start)
	for t := out.Start; t <= max(f.End(), g.End()); t++ {
		out.Boxes = append(out.Boxes, f.At(t).Union(g.At(t)))
	}
	out.HeightPx = max(f.HeightPx, g.HeightPx, float64(out.Union().H()))
	return out
}

// settle sets whether f is rooted, its height, its ground, and its boxes to
// working pixels.
func (f *Figure) settle(wd *world) {
	var widths, heights []int
	var scales []float64
	for k, b := range f.Boxes {
		if b.Empty() {
			continue
		}
		widths, heights = append(widths, b.W()), append(heights, b.H())
		scales = append(scales, wd.scale(f.Start+k))
		f.ground = f.ground.Union(wd.boxOnCanvas(b, f.Start+k))
		f.Boxes[k] = b.scale(Shrink)
	}
	slices.Sort(widths)
	slices.Sort(heights)
	slices.Sort(scales)
	f.Rooted = float64(f.ground.W()) <= rootedWidths*float64(widths[len(widths)-1])
	f.bounces = float64(f.ground.H()) > rootedHeights*float64(heights[len(heights)-1])
	f.HeightPx = float64(Shrink * heights[len(heights)/2])
	if f.Rooted && !f.bounces {
		// Each frame shows but a part of it, at the size it then has.
		f.HeightPx = float64(Shrink*f.ground.H()) * scales[len(scales)/2]
	}
}
