package feet

import (
	"math"
	"slices"
)

const (
	// usualSole is the length of a foot in figure heights: R. Drillis, R. Contini,
	// "Body Segment Parameters", 1966 (from memory).
	usualSole = 0.152
	// soleLeast is in how many drawings a lump must stand for its width to tell
	// how long a foot is.
	soleLeast = 4
	// soleQuantile picks a foot's length from the widths of its lump, which is
	// shorter while the foot rolls.
	soleQuantile = 0.75
	// solePlaces is at how many places lumps must stand for their median width to
	// be one foot's: at fewer they may always hold two.
	solePlaces = 4
	// soleStands is the most that a lump goes across, figure heights a second, for its
	// width to be preferred to that of what goes faster: of a leg whose foot is not told
	// from the ground the ankle goes as the shin turns.
	soleStands = 0.06
	// wideSole is from how many soles on a lump may hold two feet.
	wideSole = 1.25
)

// measureSole finds how long the figure's feet are: lumps whose ends both stand
// are as wide as a foot, or two.
func (w *walker) measureSole() {
	w.sole = usualSole
	soles, places := w.soles(func(heel *spot) bool {
		across, _ := w.usual(heel)
		return math.Abs(across) <= soleStands
	})
	if len(soles) < solePlaces {
		soles, places = w.soles(func(*spot) bool { return true })
	}
	if len(soles) == 0 {
		return
	}
	slices.Sort(places)
	n, last := 0, math.Inf(-1)
	for _, x := range places {
		if x-last > w.sole*w.height {
			n, last = n+1, x
		}
	}
	if width := median(soles); n >= solePlaces || width < w.sole {
		w.sole = width
	}
}

// soles are the widths, and the places, of the lumps of some heels that stand for long.
func (w *walker) soles(of func(heel *spot) bool) (widths, places []float64) {
	for heel, list := range w.widths() {
		if len(list) >= soleLeast && of(heel) {
			slices.Sort(list)
			widths = append(widths, list[int(soleQuantile*float64(len(list)-1))])
			places = append(places, heel.at[0].x)
		}
	}
	return widths, places
}

// widths are those of the lumps whose ends both stand, by the left one.
func (w *walker) widths() map[*spot][]float64 {
	list := map[*spot][]float64{}
	for i, ends := range w.ends {
		for k := 0; k+1 < len(ends); k += 2 {
			l, r := w.at(ends[k], i), w.at(ends[k+1], i)
			if l != nil && r != nil {
				list[l] = append(list[l], ends[k].lump.width()/w.tall(i))
			}
		}
	}
	return list
}

// inner are the ends inside lumps that may hold two feet, by drawing.
func (w *walker) inner() [][]end {
	list := make([][]end, len(w.ends))
	for i, ends := range w.ends {
		for k := 0; k+1 < len(ends); k += 2 {
			if l := ends[k].lump; l.width() > wideSole*w.soleAt(i) {
				list[i] = append(list[i],
					end{place{float64(l.x0) + w.soleAt(i), float64(l.yl)}, false, l},
					end{place{float64(l.x1) - w.soleAt(i), float64(l.yr)}, true, l})
			}
		}
	}
	return list
}
