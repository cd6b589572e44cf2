package figure

import "holdfast/motion/travel"

// leastMoves is in how many frames a cell must travel, borne out by its
// neighbours, to belong to a figure found by motion alone.
const leastMoves = 2

// byMotion takes for figure whatever moves against the camera, all of it one.
func (s *search) byMotion() *Found {
	found := &Found{Method: ByMotion}
	moves := make([]int, s.grid.Cols*s.grid.Rows)
	sum := 0.0
	for _, m := range s.maps {
		if m == nil {
			continue
		}
		for i := range moves {
			if v := m.Supported(i); v > 0 {
				moves[i]++
				sum += v
			}
		}
	}
	region := newRegion(s.grid)
	var box Box
	for i, n := range moves {
		if n >= leastMoves {
			region.Cells[i] = true
			x, y := s.grid.Bounds(i)
			box = box.Union(Box{x, y, x + travel.CellSide, y + travel.CellSide})
		}
	}
	for range s.covers {
		found.Regions = append(found.Regions, region)
	}
	if box.Empty() {
		return found
	}
	f := Figure{Rooted: true, HeightPx: float64(box.H()), Travel: sum}
	for range s.covers {
		f.Boxes = append(f.Boxes, box)
	}
	found.Figures = append(found.Figures, f)
	return found
}
