package feet

import (
	"slices"

	"holdfast/motion/figure"
)

// A walker follows the soles of one figure.
type walker struct {
	s       *Stretch
	f       *figure.Figure
	height  float64   // pixels, as a rule
	heights []float64 // pixels, one a frame of the figure; none where the rule holds
	sole    float64   // length of a foot, figure heights
	draws   []drawing
	ends    [][]end // of each drawing
	spots   []*spot
	ground  map[groundKey]place
}

// An end is the left or right end of a lump.
type end struct {
	place
	left bool
	lump lump
}

func (s *Stretch) walker(f *figure.Figure) *walker {
	return &walker{s: s, f: f, height: f.HeightPx, ground: map[groundKey]place{}}
}

// look takes the drawings of the figure and the ends of its lumps in each.
func (w *walker) look() {
	w.draws = w.s.drawings(w.f.Start, w.f.End())
	w.measureHeights()
	for _, d := range w.draws {
		var ends []end
		for _, l := range w.lumps(d.start) {
			ends = append(ends,
				end{place{float64(l.x0), float64(l.yl)}, true, l},
				end{place{float64(l.x1), float64(l.yr)}, false, l})
		}
		w.ends = append(w.ends, ends)
	}
}

// lumps are those of the figure in frame t; none where it goes on below the picture:
// what is lowest there is no foot.
func (w *walker) lumps(t int) []lump {
	list := lumps(&w.s.Bodies[t], w.f.At(t), w.tallIn(t))
	if slices.ContainsFunc(list, func(l lump) bool { return l.y >= w.s.bottom()-figure.Shrink }) {
		return nil
	}
	if w.s.Line != nil {
		list = slices.DeleteFunc(list, func(l lump) bool {
			return !w.s.onLine(t, float64(l.x0+l.x1)/2, float64(l.y), w.tallIn(t))
		})
	}
	return list
}
