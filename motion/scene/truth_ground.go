package scene

import "math"

// reckonGround adds contacts and flights of a figure, impacts of a ball.
func (sc *Scene) reckonGround(t *Truth, index int, sh *shot, a *actor) {
	switch p := a.performer.(type) {
	case *bouncer:
		t.Impacts = append(t.Impacts, sc.impacts(index, sh, p)...)
	case *body:
		first, last := sc.shownRange(sh.from, sh.to)
		stands := make([][2]footState, last-first+1)
		for i := range stands {
			stands[i] = sc.feetAt(sh, a, p, first+i)
		}
		for side := range 2 {
			t.Contacts = append(t.Contacts, sc.contacts(index, sh, p, side, first, stands)...)
		}
		t.Flights = append(t.Flights, sc.flights(index, sh, p, first, stands)...)
	}
}

// feetAt is both feet in the drawing that is up on shown frame f.
func (sc *Scene) feetAt(sh *shot, a *actor, b *body, f int) [2]footState {
	t, _, stepped := drawingAt(a.exposure, float64(sc.spec.Conform.source(f)-sh.start))
	pose := b.pose(t, stepped)
	return [2]footState{b.footAt(0, pose, t), b.footAt(1, pose, t)}
}

// contacts are the runs of frames on which a foot stands on one spot. A pose
// that lifts the foot off it and puts it back makes two of one spot; between
// them the instants are those of the frames.
func (sc *Scene) contacts(index int, sh *shot, b *body, side, first int, stands [][2]footState) []Contact {
	var list []Contact
	for i := 0; i < len(stands); i++ {
		f := stands[i][side]
		if !f.stands {
			continue
		}
		j := i
		for j+1 < len(stands) && stands[j+1][side].stands && stands[j+1][side].spot == f.spot {
			j++
		}
		c := sc.contact(index, sh, b, side, first+i, first+j, stands[i:j+1])
		if onSpot(stands[:i], side, f.spot) {
			c.From = float64(c.Start)
		}
		if onSpot(stands[j+1:], side, f.spot) {
			c.To = float64(c.End)
		}
		list = append(list, c)
		i = j
	}
	return list
}

// onSpot reports whether a foot stands on a spot in any of the drawings.
func onSpot(stands [][2]footState, side, spot int) bool {
	for _, s := range stands {
		if s[side].stands && s[side].spot == spot {
			return true
		}
	}
	return false
}

func (sc *Scene) contact(index int, sh *shot, b *body, side, start, end int, stands [][2]footState) Contact {
	from, to := stands[0][side], stands[len(stands)-1][side]
	ground := (nearGround - 2*nearGround*float64(side)) * b.Build.Height
	w := b.world()
	v := sc.viewOf(sh, float64(sc.spec.Conform.source(start)-sh.start))
	p := v.onto(sc.Width, sc.Height).at(w.at(Point{from.x, ground}))
	slip := w.a * (to.x - from.x)
	spot := b.plan.feet[side][from.spot]
	c := Contact{
		Figure: index, Foot: Side(side + 1), Start: start, End: end, X: p.X, Y: p.Y,
		From:   math.Max(sc.shownInstant(sh, spot.from), sc.shownInstant(sh, float64(sh.from-sh.start))),
		To:     math.Min(sc.shownInstant(sh, spot.to), sc.shownInstant(sh, float64(sh.to-sh.start))),
		SlipPx: slip * v.scale, SlipShare: slip / b.Build.Height, Seen: true,
	}
	c.Slide = math.Abs(c.SlipShare) >= SlideShare
	for i, s := range stands {
		v := sc.viewOf(sh, float64(sc.spec.Conform.source(start+i)-sh.start))
		p := v.onto(sc.Width, sc.Height).at(w.at(Point{s[side].x, ground}))
		c.Path = append(c.Path, p)
		c.Seen = c.Seen && p.X >= 0 && p.Y >= 0 && p.X <= float64(sc.Width) && p.Y <= float64(sc.Height)
	}
	return c
}

// flights are the runs of frames on which neither foot stands.
func (sc *Scene) flights(index int, sh *shot, b *body, first int, stands [][2]footState) []Flight {
	var list []Flight
	for i := 0; i < len(stands); i++ {
		if stands[i][0].stands || stands[i][1].stands {
			continue
		}
		j := i
		for j+1 < len(stands) && !stands[j+1][0].stands && !stands[j+1][1].stands && stands[j+1][0].spot == stands[i][0].spot {
			j++
		}
		path := b.plan.feet[0]
		spot := path[stands[i][0].spot]
		if spot.hop == 0 {
			i = j
			continue
		}
		before := path[stands[i][0].spot-1]
		v := sc.viewOf(sh, float64(sc.spec.Conform.source(first+i)-sh.start))
		list = append(list, Flight{
			Figure: index, Start: first + i, End: first + j,
			Takeoff: sc.shownInstant(sh, before.to), Land: sc.shownInstant(sh, spot.from),
			RisePx: spot.rise * v.scale, RiseShare: spot.rise / b.Build.Height,
			TravelPx: b.world().a * (spot.x - before.at(before.to)) * v.scale,
		})
		i = j
	}
	return list
}

// impacts are the bounces of a ball that fall within its shot.
func (sc *Scene) impacts(index int, sh *shot, b *bouncer) []Impact {
	var list []Impact
	for i, t := range b.impacts {
		if t < float64(sh.from-sh.start) {
			continue
		} else if t > float64(sh.to-sh.start) {
			break
		}
		last := i == len(b.impacts)-1
		p := sc.viewOf(sh, t).onto(sc.Width, sc.Height).at(Point{b.X + b.travel(t), b.Ground})
		im := Impact{Figure: index, Frame: sc.shownInstant(sh, t), X: p.X, Y: p.Y, Restitution: b.Restitution, Last: last}
		if last {
			im.Restitution = 0
		}
		list = append(list, im)
	}
	return list
}
