package figure

import (
	"slices"

	"holdfast/motion/camera"
	"holdfast/motion/travel"
)

// A Mark is a box around a figure in one frame, shown by hand; working pixels.
type Mark struct {
	Frame int
	Box   Box
}

// FindShown tells the figures that are shown, and no others. Where the plate tells
// them all from the ground, that is what they are; else each is cut out of the
// frame that shows it by its colours, and from there followed both ways: flow takes
// its silhouette to the next frame, where its rim is cut anew. Boxes that lie on one
// figure are one. Otherwise it is as Find.
func FindShown(layers []*Layer, path []camera.Similarity, maps []*travel.Map, rate float64, marks []Mark) (*Found, error) {
	return tell(layers, path, maps, rate, func(s *search, p *Plate, found *Found) (*Found, error) {
		if s.crowd() || !s.choose(found, marks) {
			return s.byHand(p, layers, marks)
		}
		return found, nil
	})
}

// choose leaves of the figures those that marks show, and reports whether that is
// one for every mark.
func (s *search) choose(found *Found, marks []Mark) bool {
	shown := make([]bool, len(found.Figures))
	for _, m := range marks {
		i := slices.IndexFunc(found.Figures, func(f Figure) bool {
			return !f.Rooted && f.At(m.Frame).same(m.Box) // of what is rooted the plate holds a part
		})
		if i < 0 {
			return false
		}
		shown[i] = true
	}
	var figures []Figure
	for i, f := range found.Figures {
		if shown[i] {
			figures = append(figures, f)
		}
	}
	found.Figures = figures
	found.Regions = s.regions(figures)
	return true
}

// sameBox is how much of two boxes together both must cover to be of one figure:
// half, as is usual where boxes are held against each other (M. Everingham and
// others, "The PASCAL Visual Object Classes (VOC) Challenge", 2010).
const sameBox = 0.5

func (b Box) same(c Box) bool {
	both := b.Overlap(c)
	return both > 0 && float64(both) >= sameBox*float64(b.W()*b.H()+c.W()*c.H()-both)
}

// byHand cuts out the figures that are shown.
func (s *search) byHand(p *Plate, layers []*Layer, marks []Mark) (*Found, error) {
	figures, err := cutOut(layers, p.world, s.bodies, marks)
	if err != nil {
		return nil, err
	}
	found := &Found{Method: ByHand}
	s.bodies = make([]Silhouette, len(layers))
	for t, l := range layers {
		s.bodies[t] = newSilhouette(l.W, l.H)
	}
	for _, f := range figures {
		found.Figures = append(found.Figures, f.figure(p.world))
		f.addTo(s.bodies)
	}
	if err := s.lie(); err != nil {
		return nil, err
	}
	found.Regions = s.regions(found.Figures)
	found.Bodies, found.Silhouettes = s.bodies, s.silhouettes
	return found, nil
}

// lie takes the bodies for all that is figure.
func (s *search) lie() error {
	s.silhouettes = slices.Clone(s.bodies)
	for t := range s.bodies {
		m, err := newMask(s.bodies[t].W, s.bodies[t].H)
		if err != nil {
			return err
		}
		s.bodies[t].each(func(x, y int) { m.Pix[y*m.W+x] = 255 })
		s.areas[t] = cellAreas(m, s.grid)
		s.covers[t] = cover(s.areas[t], s.grid, []Box{{0, 0, m.W, m.H}})
		m.close()
	}
	return nil
}
