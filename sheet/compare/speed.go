package compare

import (
	"cmp"
	"math"
	"slices"
)

// Bounds and prices of the speed of a pass against its reference.
const (
	slowest = 0.6 // a pass at another speed is still the same acting within these
	fastest = 1.7

	// speedPrice is what another speed costs: one and a half of the changes that
	// it saves, so that a single hold made longer is never called a speed.
	speedPrice  = 1.5
	changePrice = 0.5 // of each place where the pass gets later or earlier
	offsetPrice = 0.5 // of a first beat that comes later or earlier: most passes begin with their reference

	driftFrames = 1.25 // of 24 a second: boundaries that differ by so much are in step
	voteWidth   = 0.01 // speeds that differ by less are one
	votesTried  = 12   // the speeds tried, those with the most votes
	voteReach   = 5    // beats over which times are held against each other
)

// A fit is how two lines lie against each other at one speed.
type fit struct {
	scale
	steps  []step
	price  float64
	offset float64 // frames of the pass by which it comes later at first
}

// natural is the stretch of two lines that run at the same speed.
func natural(ref, pass *line) float64 { return pass.rate / ref.rate }

// bestFit lines two lines up at the speed at which the least has changed.
func bestFit(ref, pass *line) *fit {
	best := newFit(ref, pass, natural(ref, pass))
	for _, stretch := range stretches(ref, pass) {
		f := newFit(ref, pass, stretch)
		if r := f.refined(); r != stretch {
			if g := newFit(ref, pass, r); g.price <= f.price {
				f = g
			}
		}
		if !f.sameSpeed() && f.total() < best.total() {
			best = f
		}
	}
	return best
}

// sameSpeed reports whether the pass runs at the speed of the reference.
func (f *fit) sameSpeed() bool {
	return math.Abs(f.stretch/natural(f.reference, f.pass)-1) <= voteWidth
}

// total is the price with that of another speed.
func (f *fit) total() float64 {
	if f.sameSpeed() {
		return f.price
	}
	return f.price + speedPrice
}

func newFit(ref, pass *line, stretch float64) *fit {
	f := &fit{scale: scale{ref, pass, stretch, pass.rate / 24, nil}}
	f.steps, f.price = f.align()
	drifts := f.drifts()
	changes := segments(drifts, 2*driftFrames*f.frame)
	if len(changes) > 0 {
		first := slices.Sorted(slices.Values(drifts[:changes[0]]))
		f.offset = first[len(first)/2]
	} else if k, c := f.curveOffset(); c >= relatedCurves {
		f.offset = float64(k) // no boundary says when
	}
	f.price += changePrice * float64(max(0, len(changes)-1))
	if math.Abs(f.offset) > 2*driftFrames*f.frame {
		f.price += offsetPrice
	}
	return f
}

// A bound is the frame between two beats that both clips show.
type bound struct{ ref, pass float64 }

// bounds returns the bounds that were lined up, in order.
func (f *fit) bounds() (list []bound) {
	for _, s := range f.steps {
		if s.nr == 0 || s.np == 0 || s.fate == swapped {
			continue
		}
		if s.r > 0 && s.p > 0 {
			list = append(list, bound{f.reference.beats[s.r].from, f.pass.beats[s.p].from})
		}
		if r, p := s.r+s.nr, s.p+s.np; r < len(f.reference.beats) && p < len(f.pass.beats) {
			list = append(list, bound{f.reference.beats[r-1].to, f.pass.beats[p-1].to})
		}
	}
	return list
}

// drifts are how many frames later than in the reference each bound comes.
func (f *fit) drifts() []float64 {
	var list []float64
	for _, b := range f.bounds() {
		list = append(list, b.pass-f.stretch*b.ref)
	}
	return list
}

// segments parts a list into the fewest stretches in each of which the values
// lie within width of each other, and returns where each ends.
func segments(list []float64, width float64) (ends []int) {
	for i := 0; i < len(list); {
		lo, hi := list[i], list[i]
		j := i + 1
		for ; j < len(list) && max(hi, list[j])-min(lo, list[j]) <= width; j++ {
			lo, hi = min(lo, list[j]), max(hi, list[j])
		}
		ends = append(ends, j)
		i = j
	}
	return ends
}

// refined is the stretch of the times over which both clips are in step: over
// several beats together, as the ends of one are only known within a frame.
func (f *fit) refined() float64 {
	bounds := f.bounds()
	reference, pass, from := 0.0, 0.0, 0
	for _, to := range segments(f.drifts(), 2*driftFrames*f.frame) {
		reference += bounds[to-1].ref - bounds[from].ref
		pass += bounds[to-1].pass - bounds[from].pass
		from = to
	}
	if reference == 0 {
		return f.stretch
	}
	return min(max(pass/reference, natural(f.reference, f.pass)/fastest), natural(f.reference, f.pass)/slowest)
}

// stretches are the speeds for which the times between like boundaries speak
// most, and frame for frame where the rates differ.
func stretches(ref, pass *line) []float64 {
	same := natural(ref, pass)
	bins := map[int]float64{}
	for i := 1; i < len(ref.beats); i++ {
		for j := 1; j < len(pass.beats); j++ {
			if ref.beats[i].Kind != pass.beats[j].Kind {
				continue
			}
			for k := 2; k <= voteReach && i+k < len(ref.beats) && j+k < len(pass.beats); k++ {
				r := ref.beats[i+k].from - ref.beats[i].from
				p := pass.beats[j+k].from - pass.beats[j].from
				if v := p / r / same; v >= 1/fastest && v <= 1/slowest {
					// The longer the time, the surer the speed.
					bins[int(math.Round(math.Log(v)/voteWidth))] += math.Sqrt(r / ref.rate)
				}
			}
		}
	}
	list := peaks(bins)
	for i, v := range list {
		list[i] = same * math.Exp(v*voteWidth)
	}
	if same != 1 {
		list = append(list, 1)
	}
	return list
}

// peaks returns the fullest bins, each with its neighbours.
func peaks(bins map[int]float64) (list []float64) {
	type vote struct {
		bin    int
		weight float64
	}
	var votes []vote
	for b := range bins {
		votes = append(votes, vote{b, bins[b] + bins[b-1] + bins[b+1]})
	}
	slices.SortFunc(votes, func(a, b vote) int {
		return cmp.Or(cmp.Compare(b.weight, a.weight), cmp.Compare(a.bin, b.bin))
	})
	for _, v := range votes[:min(len(votes), votesTried)] {
		list = append(list, float64(v.bin))
	}
	return list
}
