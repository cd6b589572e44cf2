package figure

import (
	"slices"

	"golang.org/x/sync/errgroup"

	"holdfast/motion/camera"
	"holdfast/motion/travel"
)

const (
	// crowded is the share of the picture above which what differs from the
	// plate is no figure but a background that moves.
	crowded = 0.6
	// livelyShare is the least travel a figure must gather against the
	// liveliest of the stretch; less is a curtain, a shadow, a screen.
	livelyShare = 0.1
	// leastTravel is the mean travel, in pixels over the figure's cells and
	// frames, under which nothing is taken to have moved at all.
	leastTravel = 0.01
)

// Found is what Find saw in a stretch of frames.
type Found struct {
	Method  Method
	Figures []Figure
	Regions []Region // for each frame, the cells that belong to any figure
	// Mean is the mean travel that led to each frame over the area of the
	// figures, and Top that of the part that went farthest where flow lost it,
	// in working pixels.
	Mean, Top []float64
	// Pace is the mean travel of what moves, each pixel with the weight of its own
	// travel, in working pixels.
	Pace []float64
	// Bodies marks, for each frame, what is figure and no shadow, with what stands
	// of figures that never leave their place; none by motion.
	Bodies []Silhouette
	// Silhouettes marks, for each frame, all that differs from the plate, shadows
	// too; none by motion.
	Silhouettes []Silhouette
	// Hidden says of each frame whether something passing before the lens hides
	// most of what the figures did on the step to it.
	Hidden []bool
	// Own is what each of Figures did by itself.
	Own []Own
}

// A Figure is one track with its size.
type Figure struct {
	Track
	HeightPx float64
	Rooted   bool    // never leaves its place
	Whole    bool    // rooted, and its boxes hold what stands of it as well
	Travel   float64 // gathered over all frames, pixels times cells
	ground   Box     // of all its boxes, canvas pixels
	touches  Box     // the same with what stands of it, if it is rooted
	bounces  bool    // goes up and down by more than its height
}

// Height is the height, in working pixels, that travel in the stretch is
// measured by: the tallest figure's. Several rooted figures count together, as
// they may be parts of one that the plate holds; a lone one that is known whole,
// or bounces, has its own size. 0 says no figure.
func (f *Found) Height() float64 {
	tallest := 0.0
	var parts Box
	n, known := 0, true
	for i := range f.Figures {
		g := &f.Figures[i]
		tallest = max(tallest, g.HeightPx)
		if g.Rooted {
			parts = parts.Union(g.Union())
			n, known = n+1, known && (g.Whole || g.bounces)
		}
	}
	if n == 1 && known {
		return tallest
	}
	return max(tallest, float64(parts.H()))
}

// Find tells the figures of a stretch of frames of one shot. path is as in
// NewPlate; maps[t] is the travel that led to frame t, nil where unknown.
// The rate is in frames a second.
func Find(layers []*Layer, path []camera.Similarity, maps []*travel.Map, rate float64) (*Found, error) {
	return tell(layers, path, maps, rate, func(s *search, _ *Plate, found *Found) (*Found, error) {
		if s.crowd() || len(found.Figures) == 0 {
			return s.byMotion(), nil
		}
		return found, nil
	})
}

// tell finds the figures that the plate tells, lets take choose of them or find
// others, and measures how far those travel.
func tell(layers []*Layer, path []camera.Similarity, maps []*travel.Map, rate float64,
	take func(s *search, p *Plate, found *Found) (*Found, error)) (*Found, error) {
	p, err := NewPlate(layers, path)
	if err != nil {
		return nil, err
	}
	defer p.Close()
	s := &search{rate: rate, maps: maps, link: newLinker(p.world)}
	if err := s.look(p, layers, path); err != nil {
		return nil, err
	}
	found, err := s.byPlate(p)
	if err != nil {
		return nil, err
	}
	if found, err = take(s, p, found); err != nil {
		return nil, err
	}
	if err := s.travels(found, layers, path); err != nil {
		return nil, err
	}
	found.Hidden = hiddenSteps(s.hidden, found.Regions)
	if len(s.grid.Travel) > 0 {
		found.Own = s.own(found)
	}
	return found, nil
}

// search holds what one Find gathers.
type search struct {
	rate        float64
	maps        []*travel.Map
	link        linker
	covers      []Region // of each frame's silhouette
	shares      []float64
	areas       [][]uint8 // of the silhouette in each cell, layer pixels, by frame
	ways        []way     // of what flow lost from frame to frame
	grid        *travel.Map
	silhouettes []Silhouette // all that differs from the plate
	bodies      []Silhouette // the same without shadows
	hidden      []Region     // cells before which something passes, by frame
}

// look takes the silhouettes of all frames.
func (s *search) look(p *Plate, layers []*Layer, path []camera.Similarity) error {
	for _, m := range s.maps {
		if m != nil {
			s.grid = m
		}
	}
	if s.grid == nil {
		s.grid = &travel.Map{}
	}
	f, err := newFinder(layers[0].W, layers[0].H)
	if err != nil {
		return err
	}
	defer f.close()
	f.grid = s.grid
	if err := s.settle(layers, path); err != nil {
		return err
	}
	f.hidden = s.hidden
	if err := p.lift(layers, f); err != nil {
		return err
	}
	s.ways = make([]way, len(layers))
	var group errgroup.Group
	group.Go(func() error {
		return share(len(layers), func() (hand, error) {
			h, err := newShifter(layers, path)
			return &carriage{h, s}, err
		})
	})
	group.Go(func() error { return s.silhouette(p, layers, f) })
	return group.Wait()
}

// silhouette takes the silhouettes of all frames, which follow on each other.
func (s *search) silhouette(p *Plate, layers []*Layer, f *finder) error {
	for t, l := range layers {
		if err := f.silhouette(p, l, t); err != nil {
			return err
		}
		s.take(t, f)
		if err := f.dropShadow(p, l); err != nil {
			return err
		}
		s.bodies = append(s.bodies, f.shape())
	}
	return nil
}

// A carriage measures how far went what flow lost on the way to one frame or
// another.
type carriage struct {
	*shifter
	s *search
}

func (c *carriage) frame(t int) error {
	c.s.ways[t] = c.work(t, c.s.maps[t])
	return nil
}

// settle leaves no travel where something passes before the lens or one picture
// dissolves into another.
func (s *search) settle(layers []*Layer, path []camera.Similarity) error {
	s.hidden = make([]Region, len(layers))
	if s.grid.Cols*s.grid.Rows == 0 {
		return nil
	}
	seen := make([]tones, len(layers))
	for t, l := range layers {
		seen[t] = seen[t].set(l, s.grid)
	}
	p, err := newPasses(layers, path, s.grid, seen, s.rate)
	if err != nil {
		return err
	}
	defer p.close()
	s.hidden = p.find()
	for t, m := range s.maps {
		if t == 0 || m == nil {
			continue
		}
		still(m, s.hidden[t-1].Grown().Cells)
		still(m, s.hidden[t].Grown().Cells)
	}
	b := blends{layers: layers, path: path, grid: s.grid, seen: seen}
	b.settle(s.maps)
	return nil
}

// take notes the silhouette of frame t.
func (s *search) take(t int, f *finder) {
	var boxes []Box
	area := 0
	for _, c := range f.found {
		boxes = append(boxes, c.box)
		area += c.area
	}
	areas := cellAreas(f.mask, s.grid)
	s.areas = append(s.areas, areas)
	s.covers = append(s.covers, cover(areas, s.grid, boxes))
	s.silhouettes = append(s.silhouettes, f.shape())
	s.shares = append(s.shares, float64(area)/float64(f.mask.W*f.mask.H))
	s.link.add(t, join(boxes, s.link.gap))
}

// crowd reports whether most of the picture moves for most of the time.
func (s *search) crowd() bool {
	shares := slices.Clone(s.shares)
	slices.Sort(shares)
	return shares[len(shares)/2] > crowded
}

// travel returns what the cells of frame t-1's silhouette inside b, layer
// pixels, travelled on the way to frame t.
func (s *search) travel(t int, b Box) (sum float64, cells int) {
	m := s.maps[t]
	if m == nil || t == 0 {
		return 0, 0
	}
	for i, in := range s.covers[t-1].Cells {
		if !in {
			continue
		}
		x, y := m.Bounds(i)
		if !b.near(x/Shrink+cellSide/2, y/Shrink+cellSide/2) {
			continue
		}
		sum += m.Supported(i)
		cells++
	}
	return sum, cells
}

// byPlate keeps the tracks that live and gives each its size and place.
func (s *search) byPlate(p *Plate) (*Found, error) {
	found := &Found{Method: ByPlate}
	most := 0.0
	s.link.uncross(s.rate)
	for _, t := range s.link.tracks {
		f := Figure{Track: *t}
		cells := 0
		for k, b := range t.Boxes {
			if !b.Empty() {
				sum, n := s.travel(t.Start+k, b)
				f.Travel += sum
				cells += n
			}
		}
		if cells == 0 || f.Travel/float64(cells) < leastTravel {
			continue
		}
		most = max(most, f.Travel)
		found.Figures = append(found.Figures, f)
	}
	found.Figures = slices.DeleteFunc(found.Figures, func(f Figure) bool { return f.Travel < livelyShare*most })
	for i := range found.Figures {
		found.Figures[i].settle(p.world)
	}
	var err error
	if found.Figures, err = joinBodies(p, s.silhouettes, joinRooted(found.Figures)); err != nil {
		return nil, err
	}
	// What stands is not in the regions: it does not travel.
	found.Regions = s.regions(found.Figures)
	found.Figures, err = s.completeRooted(p, found.Figures)
	// As they come into sight; of those that come together the liveliest first.
	slices.SortStableFunc(found.Figures, func(a, b Figure) int { return a.Start - b.Start })
	found.Bodies, found.Silhouettes = s.bodies, s.silhouettes
	return found, err
}

// regions returns the cells of all figures frame by frame. A rooted figure is
// in the plate where it rests, so all it ever touched is its own.
func (s *search) regions(figures []Figure) []Region {
	regions := make([]Region, len(s.covers))
	rooted := newRegion(s.grid)
	for t := range s.covers {
		regions[t] = newRegion(s.grid)
		for i := range figures {
			f := &figures[i]
			b := f.At(t)
			if b.Empty() {
				continue
			}
			part := s.within(t, b)
			regions[t].Add(part)
			if f.Rooted {
				rooted.Add(part)
			}
		}
	}
	for t := range regions {
		regions[t].Add(rooted)
		regions[t] = regions[t].Grown()
	}
	return regions
}

// within returns the silhouette cells of frame t inside b, working pixels.
func (s *search) within(t int, b Box) Region {
	r := newRegion(s.grid)
	for i, in := range s.covers[t].Cells {
		if !in {
			continue
		}
		x, y := s.grid.Bounds(i)
		r.Cells[i] = b.near(x+travel.CellSide/2, y+travel.CellSide/2)
	}
	return r
}
