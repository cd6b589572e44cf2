package poses

import (
	"math"
	"slices"
)

const (
	// seenShare is the share of a hold's frames on which the silhouette must be there.
	seenShare = 0.5
	// longLeast is how long a silhouette must be against its breadth, as the roots of
	// its moments go, for its lean to be told: what is as wide as tall leans nowhere.
	longLeast = 1.25
	// alignCells is how far silhouettes are moved, in cells to each side, to find where
	// they lie on each other best: an arm stretched out moves the middle by as much.
	alignCells = 3
	// backMost is the most that a pose that comes back may be unlike the earlier one.
	backMost = 0.12
)

// A Pose is what is held over some frames.
type Pose struct {
	Lean          float64 // degrees from upright of the principal axis, positive with its top to the right; NaN where it has none
	Width, Height float64 // figure heights
	grid          *grid
}

// Of returns the pose over the frames of a hold; ok is false where its silhouette is
// not there.
func Of(frames []Shape) (p Pose, ok bool) {
	var width, height, xx, yy, xy []float64
	var grids []*grid
	for _, s := range frames {
		if s.Pixels > 0 {
			width, height = append(width, s.Width), append(height, s.Height)
			xx, yy, xy = append(xx, s.xx), append(yy, s.yy), append(xy, s.xy)
			grids = append(grids, s.grid)
		}
	}
	if len(grids) == 0 || float64(len(grids)) < seenShare*float64(len(frames)) {
		return Pose{}, false
	}
	return Pose{lean(median(xx), median(yy), median(xy)), median(width), median(height), vote(grids)}, true
}

// lean is the angle of the principal axis of second moments: M.-K. Hu, "Visual pattern
// recognition by moment invariants", 1962.
func lean(xx, yy, xy float64) float64 {
	mean, half := (xx+yy)/2, math.Hypot((xx-yy)/2, xy)
	if mean+half < longLeast*longLeast*(mean-half) {
		return math.NaN()
	}
	// y goes down, so what leans to the right has x fall as y grows.
	return 0.5 * math.Atan2(-2*xy, yy-xx) * 180 / math.Pi
}

// vote is what most of the grids hold.
func vote(grids []*grid) *grid {
	var count [side * side]int
	for _, g := range grids {
		for row, word := range g {
			for col := 0; word != 0; col, word = col+1, word>>1 {
				count[row*side+col] += int(word & 1)
			}
		}
	}
	out := new(grid)
	for i, n := range count {
		if 2*n >= len(grids) {
			out[i/side] |= 1 << (i % side)
		}
	}
	return out
}

// Unlike is how far two poses differ: one minus intersection over union of their
// silhouettes, laid on each other as well as they lie; 0 for the same.
func Unlike(a, b Pose) float64 {
	best := 0.0
	for dy := -alignCells; dy <= alignCells; dy++ {
		for dx := -alignCells; dx <= alignCells; dx++ {
			moved := b.grid.shifted(dx, dy)
			best = max(best, a.grid.overlap(&moved))
		}
	}
	return 1 - best
}

// Farthest is the most by which a pose differs from any of some silhouettes, as Unlike
// has it; NaN where none is there.
func Farthest(p Pose, frames []Shape) float64 {
	most := -1.0
	for _, s := range frames {
		if s.Pixels > 0 {
			most = max(most, Unlike(p, Pose{grid: s.grid}))
		}
	}
	if most < 0 {
		return math.NaN()
	}
	return most
}

// Back returns which of some earlier poses the pose is once more, the most alike; -1
// where it is new.
func (p Pose) Back(earlier []Pose) int {
	best, least := -1, backMost
	for i, e := range earlier {
		if u := Unlike(p, e); u <= least {
			best, least = i, u
		}
	}
	return best
}

func median(v []float64) float64 {
	v = slices.Sorted(slices.Values(v))
	return (v[(len(v)-1)/2] + v[len(v)/2]) / 2
}

// Settings returns the thresholds in force, for the sheet.
func Settings() map[string]any {
	return map[string]any{
		"pose_cells_a_height": cells,
		"pose_seen_share":     seenShare,
		"pose_long_least":     longLeast,
		"pose_align_cells":    alignCells,
		"pose_back_most":      backMost,
	}
}
