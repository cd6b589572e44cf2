package picture

import "holdfast/motion/rank"

// noiseStride is the distance in pixels between the places where noise is
// looked at: a few thousand of them tell it to a few hundredths.
const noiseStride = 5

// Noise estimates the standard deviation of the grain in p's luma, in levels:
// J. Immerkær, "Fast Noise Variance Estimation", 1996, with the median in place
// of the mean, so that outlines do not count as grain.
func (p *Picture) Noise() float64 {
	if p.W < 3 || p.H < 3 {
		return 0
	}
	p.scratch = p.scratch[:0]
	for y := 1; y < p.H-1; y += noiseStride {
		for x := 1; x < p.W-1; x += noiseStride {
			i := y*p.W + x
			at := func(d int) int { return int(p.Y[i+d]) }
			l := at(-p.W-1) - 2*at(-p.W) + at(-p.W+1) -
				2*at(-1) + 4*at(0) - 2*at(1) +
				at(p.W-1) - 2*at(p.W) + at(p.W+1)
			p.scratch = append(p.scratch, max(l, -l))
		}
	}
	// The filter multiplies white noise by 6; 0.6745 takes the median of its
	// size to its deviation.
	return float64(rank.Median(p.scratch)) / (6 * 0.6745)
}
