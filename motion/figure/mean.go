package figure

import (
	"slices"

	"holdfast/motion/camera"
)

// travels sets the mean travel of all figures, and that of the part that went
// farthest, frame by frame.
func (s *search) travels(found *Found, layers []*Layer, path []camera.Similarity) error {
	own := s.ownAreas(found)
	n := len(s.ways)
	found.Mean, found.Pace, found.Top = make([]float64, n), make([]float64, n), make([]float64, n)
	return share(n, func() (hand, error) {
		w, err := newWalker(layers, path)
		return &traveller{w, s, found, own}, err
	})
}

// A traveller measures how far the figures went on the way to one frame or another.
type traveller struct {
	*walker
	s     *search
	found *Found
	own   []float64 // area of the figures by frame, layer pixels
}

func (r *traveller) frame(t int) error {
	sum, err := r.s.way(r.walker, r.found, t)
	r.found.Mean[t], r.found.Pace[t] = sum.sum*Shrink/r.own[t], sum.pace()*Shrink
	r.found.Top[t] = r.s.ways[t].top * Shrink
	return err
}

// way returns how far the figures went on the way to frame t, layer pixels summed
// over their pixels. A figure that leaves its place is followed pixel by pixel. Of
// a rooted one silhouettes show but the moving parts with their rims, which count
// for more the thinner the part: there cells are nearer the truth.
func (s *search) way(w *walker, found *Found, t int) (gone, error) {
	if t == 0 || s.maps[t] == nil {
		return gone{}, nil
	}
	if found.Method == ByMotion || found.rooted() {
		area := 0.0
		for i, lost := range s.ways[t].cells {
			if lost && found.Regions[t-1].Cells[i] {
				area += s.share(found, t, i)
			}
		}
		return s.flowed(found, t).plus(s.ways[t].over(area)), nil
	}
	return s.went(w, found, t)
}

// rooted reports whether any of the figures never leaves its place.
func (f *Found) rooted() bool {
	return slices.ContainsFunc(f.Figures, func(g Figure) bool { return g.Rooted })
}

// flowed is the travel that flow tells on the way to frame t, over the layer pixels
// of the figures.
func (s *search) flowed(found *Found, t int) (sum gone) {
	m := s.maps[t]
	lost := s.ways[t].cells
	// A step shows where things were as well as where they went.
	for i, in := range found.Regions[t-1].Cells {
		if in && (lost == nil || !lost[i]) {
			sum.add(float64(m.Travel[i])/Shrink, s.share(found, t, i))
		}
	}
	return sum
}

// share is the area, in layer pixels, of the figure in a cell between frames
// t-1 and t.
func (s *search) share(found *Found, t, cell int) float64 {
	if found.Method == ByMotion {
		return cellArea
	}
	if a := float64(s.areas[t-1][cell]) + float64(s.areas[t][cell]); a > 0 {
		return a / 2
	}
	// A figure that stirs where the plate shows it differs from nothing.
	return cellArea / 2
}

// ownAreas returns the area of the figures in each frame, layer pixels, at least
// 1. Of a rooted figure a frame shows only what differs from the plate, more or
// less of it from pose to pose, so the median stands for all frames.
func (s *search) ownAreas(found *Found) []float64 {
	steady := found.rooted()
	var list []float64
	for t, r := range found.Regions {
		sum := 0.0
		for i, in := range r.Cells {
			if in && found.Method == ByMotion {
				sum += cellArea
			} else if in {
				sum += float64(s.areas[t][i])
			}
		}
		list = append(list, max(1, sum))
	}
	if steady {
		sorted := slices.Sorted(slices.Values(list))
		for t := range list {
			list[t] = sorted[len(sorted)/2]
		}
	}
	return list
}
