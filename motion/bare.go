package motion

import "holdfast/motion/figure"

// bareShare is how much of the height of a figure's box what is no shadow must take up
// for the rest to be one: legs that are darker than what is behind them, by one ratio,
// look like shadows.
const bareShare = 0.93

// bare are the boxes of figure k of a stretch without the shadows it casts, one for each
// of its boxes: what is left of a box where that is nearly as high, else all of it.
func bare(found *figure.Found, k int) []figure.Box {
	f := &found.Figures[k]
	list := make([]figure.Box, len(f.Boxes))
	for i, b := range f.Boxes {
		list[i] = b
		t := f.Start + i
		if b.Empty() || t >= len(found.Bodies) || f.Rooted {
			continue
		}
		if in := found.Bodies[t].Inside(b); float64(in.H()) >= bareShare*float64(b.H()) {
			list[i] = in
		}
	}
	return list
}
