package scene

import "math"

// A stage is the whole cast of a shot at one frame.
type stage struct {
	places [][]affine // by actor and piece, to the world
	undo   [][]affine // inverses of places
	boxes  [][]box    // of the pieces, in the world
	seen   [][]bool   // by actor: samples, then corners, piece by piece
	view   affine     // world to picture
	scale  float64    // pixels a stage unit
	source int        // drawn frame
}

// stageAt places the cast of sh at drawn frame n and finds which of its points
// are seen: within the picture and not behind a piece drawn later.
func (sc *Scene) stageAt(sh *shot, n int) *stage {
	t := float64(n - sh.start)
	v := sc.viewOf(sh, t)
	s := &stage{view: v.onto(sc.Width, sc.Height), scale: v.scale, source: n}
	for i := range sh.cast {
		a := &sh.cast[i]
		places := make([]affine, len(a.pieces()))
		a.placeAt(t, places)
		undo, boxes := make([]affine, len(places)), make([]box, len(places))
		for j, m := range places {
			undo[j], boxes[j] = m.inverse(), bounds(m, a.pieces()[j].outline)
		}
		s.places, s.undo, s.boxes = append(s.places, places), append(s.undo, undo), append(s.boxes, boxes)
	}
	picture := box{0, 0, float64(sc.Width), float64(sc.Height)}
	for i := range sh.cast {
		var seen []bool
		for j, piece := range sh.cast[i].pieces() {
			for _, list := range [][]Point{piece.samples, piece.outline} {
				for _, p := range list {
					w := s.places[i][j].at(p)
					seen = append(seen, picture.has(s.view.at(w)) && !s.hidden(sh, i, j, w))
				}
			}
		}
		s.seen = append(s.seen, seen)
	}
	return s
}

// hidden reports whether w, on piece j of actor i, lies behind another piece.
func (s *stage) hidden(sh *shot, i, j int, w Point) bool {
	for a := i; a < len(sh.cast); a++ {
		first := 0
		if a == i {
			first = j + 1
		}
		for k := first; k < len(s.places[a]); k++ {
			if s.boxes[a][k].has(w) && sh.cast[a].pieces()[k].contains(s.undo[a][k].at(w)) {
				return true
			}
		}
	}
	return false
}

// travel compares actor i on two stages: the largest travel of any point seen
// on either and the mean over the area seen on the later one, in pixels at the
// later one's zoom. A rigid piece travels farthest at a corner, since travel
// is a convex function of the place.
func travel(a *actor, i int, before, now *stage) (most, mean float64) {
	at, area := 0, 0.0
	for j, piece := range a.pieces() {
		m, o := now.places[i][j], before.places[i][j]
		share := piece.area * m.det() / float64(len(piece.samples))
		for k := range len(piece.samples) + len(piece.outline) {
			isSample := k < len(piece.samples)
			seenNow, seen := now.seen[i][at+k], now.seen[i][at+k] || before.seen[i][at+k]
			if !seen {
				continue
			}
			var p Point
			if isSample {
				p = piece.samples[k]
			} else {
				p = piece.outline[k-len(piece.samples)]
			}
			d := m.at(p).sub(o.at(p)).norm()
			most = math.Max(most, d)
			if isSample && seenNow {
				mean, area = mean+share*d, area+share
			}
		}
		at += len(piece.samples) + len(piece.outline)
	}
	if area > 0 {
		mean /= area
	}
	return most * now.scale, mean * now.scale
}

// outlined is the box around actor i in the picture and beyond it.
func (s *stage) outlined(a *actor, i int) box {
	b := nothing
	for j, piece := range a.pieces() {
		m := s.view.mul(s.places[i][j])
		for _, p := range piece.outline {
			b = b.with(m.at(p))
		}
	}
	return b
}

// within is the part of b within a picture of w by h.
func (b box) within(w, h int) Box {
	c := Box{math.Max(0, b.x0), math.Max(0, b.y0), math.Min(float64(w), b.x1), math.Min(float64(h), b.y1)}
	if c.X1 <= c.X0 || c.Y1 <= c.Y0 {
		return Box{}
	}
	return c
}

// reckonCast adds the figures of one shot with all that happens to them.
func (sc *Scene) reckonCast(t *Truth, sh *shot) {
	start, end := sc.shownRange(sh.from, sh.to)
	figures := make([]FigureTruth, len(sh.cast))
	boxes := make([][]Box, len(sh.cast))
	outlines := make([][]box, len(sh.cast))
	first := len(t.Figures)
	var before *stage
	for f := start; f <= end; f++ {
		now := before
		if n := sc.spec.Conform.source(f); before == nil || n != before.source {
			now = sc.stageAt(sh, n)
		}
		for i := range sh.cast {
			a, ft := &sh.cast[i], &figures[i]
			most, mean := 0.0, 0.0
			if before != nil {
				most, mean = travel(a, i, before, now)
			}
			ft.Height = append(ft.Height, a.height()*now.scale)
			ft.Max, ft.Mean = append(ft.Max, most), append(ft.Mean, mean)
			b := now.outlined(a, i)
			outlines[i], boxes[i] = append(outlines[i], b), append(boxes[i], b.within(sc.Width, sc.Height))
			ft.at = append(ft.at, now.anchor(a, i))
		}
		before = now
	}
	for i := range sh.cast {
		ft := &figures[i]
		ft.Box = boxes[i]
		if !ft.trim(start) {
			continue
		}
		a := &sh.cast[i]
		ft.Name, ft.stands = a.name, a.height()
		ft.passages(start, outlines[i], float64(sc.Width), float64(sc.Height))
		_, ft.Ball = a.performer.(*bouncer)
		for ft.Shot = 0; t.Shots[ft.Shot].End < ft.Start; ft.Shot++ {
		}
		sc.reckonExposure(ft, sh, a)
		ft.Beats = sc.beats(ft, sh, a)
		t.Figures = append(t.Figures, *ft)
		sc.reckonGround(t, len(t.Figures)-1, sh, a)
	}
	t.reckonApproaches(first, sc.Rate.Float())
}

// trim cuts the series down to the frames on which the figure is in the
// picture, the first of the series being frame start; false when there are none.
func (ft *FigureTruth) trim(start int) bool {
	first, last := -1, -1
	for i, b := range ft.Box {
		if b != (Box{}) {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	if first < 0 {
		return false
	}
	ft.Start, ft.End = start+first, start+last
	ft.Height, ft.Box = ft.Height[first:last+1], ft.Box[first:last+1]
	ft.Max, ft.Mean = ft.Max[first:last+1], ft.Mean[first:last+1]
	ft.at = ft.at[first : last+1]
	ft.Max[0], ft.Mean[0] = 0, 0
	return true
}
