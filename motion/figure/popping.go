package figure

import (
	"math"
	"slices"

	"holdfast/motion/camera"
	"holdfast/motion/travel"
)

const (
	// popSeconds is for how long what pops may be off: a drawing on twos, at 24
	// frames a second.
	popSeconds = 2.0 / 24
	// popReach is how many frames before and after a pop it must stand out from.
	popReach = 2
	// popFactor is how much farther than those the jumps there and back go at
	// least; nothing that moves by itself speeds up so much for one drawing and
	// slows down again at once.
	popFactor = 2.0
	// popBack is how much of the change may be left when it is over.
	popBack = 0.7
	// popLevels is how much, in levels over the noise, a cell must differ to be
	// changed: coding alone leaves about one.
	popLevels = 2.0
)

// A Pop is a jump of the figures that is undone a drawing later.
type Pop struct {
	Start, End int     // the frames that show it
	Jump       float64 // travel there or back, the lesser, working pixels
	Around     float64 // the largest travel of a step nearby
	Left       float64 // how much of the change is left after it, against what it was: 0 to popBack
}

// Pops finds what jumps by limit pixels or more and comes back in a stretch. went is
// how far the part that goes farthest went on the way to each frame, rate how many
// frames a second has; the others are those of Passing.
func Pops(layers []*Layer, path []camera.Similarity, maps []*travel.Map, regions []Region, went []float64, limit, rate float64) []Pop {
	p := passer{layers: layers, path: path, maps: maps}
	most := max(1, int(math.Round(popSeconds*rate)))
	var list []Pop
	for t := 1; t < len(went); t++ {
		for n := 1; n <= most && t+n < len(went); n++ {
			pop := Pop{Start: t, End: t + n - 1, Jump: min(went[t], went[t+n])}
			pop.Around = around(went, t, n)
			if pop.Jump == 0 || pop.Jump < limit || pop.Jump < popFactor*pop.Around || maps[t] == nil || maps[t+n] == nil {
				continue
			}
			near := Region{regions[t].Cols, regions[t].Rows, slices.Clone(regions[t].Cells)}
			near.Add(regions[t-1])
			near.Add(regions[t+n])
			if pop.Left = p.left(t, n, near); pop.Left <= popBack {
				list = append(list, pop)
				t += n
				break
			}
		}
	}
	return list
}

// around is the largest step nearby of what jumps on the way to frame t and back
// on the way to frame t+n, those in between included.
func around(went []float64, t, n int) float64 {
	most := 0.0
	for i := max(1, t-popReach); i <= min(len(went)-1, t+n+popReach); i++ {
		if i != t && i != t+n {
			most = max(most, went[i])
		}
	}
	return most
}

// left is how much of what a pop changes in r differs between the frames before
// and after it, against how much it does between those and the pop itself; what
// noise differs by is taken off both.
func (p *passer) left(t, n int, r Region) float64 {
	before, after := t-1, t+n
	noise := max(p.maps[t].Noise, p.maps[after].Noise)
	var cells []int
	for i, in := range r.Cells {
		if in && p.changed(before, t, []int{i}) > sameNoise*noise+popLevels {
			cells = append(cells, i)
		}
	}
	if len(cells) == 0 {
		return math.Inf(1)
	}
	gone := min(p.changed(before, t, cells), p.changed(after-1, after, cells)) - noise
	if gone <= 0 {
		return math.Inf(1)
	}
	return max(0, p.changed(before, after, cells)-noise) / gone
}

// changed is the mean difference in luma of some cells between two frames,
// levels, the camera taken out. Cells that leave the picture count for nothing;
// it is infinite where none is left.
func (p *passer) changed(from, to int, cells []int) float64 {
	way := shrunk(p.path[from].Inverse().Then(p.path[to]))
	sum, n := 0.0, 0.0
	for _, i := range cells {
		x, y := p.maps[to].Bounds(i)
		if d := difference(p.layers[from], p.layers[to], way, x/Shrink, y/Shrink); !math.IsInf(d, 1) {
			sum, n = sum+d, n+1
		}
	}
	if n == 0 {
		return math.Inf(1)
	}
	return sum / n
}
