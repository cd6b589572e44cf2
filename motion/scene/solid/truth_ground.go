package solid

import (
	"math"
	"slices"

	"holdfast/motion/scene"
	"holdfast/motion/scene/capture"
)

// contacts adds the runs of frames on which a foot shows one stand.
func (a *acting) contacts(t *Truth, index int) {
	type entry struct {
		contact scene.Contact
		stand   Stand
	}
	var list []entry
	for side := range 2 {
		for f := 0; f < len(a.at); f++ {
			k := a.standing(side, f)
			if k < 0 {
				continue
			}
			start := f
			for f+1 < len(a.at) && a.standing(side, f+1) == k {
				f++
			}
			c, s := a.contact(index, &a.rec.Stands[k], start, f)
			list = append(list, entry{c, s})
		}
	}
	slices.SortStableFunc(list, func(a, b entry) int { return a.contact.Start - b.contact.Start })
	for _, e := range list {
		t.Contacts, t.Stands = append(t.Contacts, e.contact), append(t.Stands, e.stand)
	}
}

// spot is the middle of a sole, on the ground.
func (a *acting) spot(side, frame int) Vec {
	p := a.poses[frame][capture.Heel.On(side)].Toward(a.poses[frame][capture.Ball.On(side)], 0.5)
	p.Y = a.world.level(p.X)
	return p
}

// slip is how far a standing foot goes over the ground between two frames: what
// the figure travels beyond the recording, in which standing feet stand.
func (a *acting) slip(start, end int) Vec {
	d := a.toWorld(a.extraAt(a.at[end]).Sub(a.extraAt(a.at[start])))
	d.Y = a.world.Slope * d.X
	return d
}

func (a *acting) contact(index int, s *capture.Stand, start, end int) (scene.Contact, Stand) {
	rate := a.sc.Rate.Float()
	last := float64(a.sc.Frames - 1)
	from, to := (s.From-a.Start)*rate, (s.To-a.Start)*rate
	spot, slip := a.spot(s.Side, start), a.slip(start, end)
	v, height := &a.views[start], a.height(start)
	p, _ := v.project(spot)
	q, _ := v.project(spot.Add(slip))
	stand := Stand{Side: s.Side, Slip: slip, SlipShare: slip.Norm() / capture.Height, DX: q.X - p.X, DY: q.Y - p.Y,
		Whole: [2]bool{s.Whole[0] && from >= 0, s.Whole[1] && to <= last}, Uncertainty: s.Doubt * rate, Plate: s.Plate}
	c := scene.Contact{Figure: index, Foot: a.nearness(s.Side), Start: start, End: end,
		From: max(0, from), To: min(last, to), X: p.X, Y: p.Y,
		SlipPx: stand.DX, SlipShare: stand.DX / height, Seen: true}
	c.Slide = math.Abs(c.SlipShare) >= scene.SlideShare
	for f := start; f <= end; f++ {
		p, _ := a.views[f].project(spot.Add(a.slip(start, f)))
		c.Path = append(c.Path, p)
		c.Seen = c.Seen && a.inPicture(s.Side, f)
	}
	return c, stand
}

// nearness says whether the foot's hip is the nearer one to the camera, over all
// frames: seen from the front the hips take turns, and a foot keeps its name.
func (a *acting) nearness(side int) scene.Side {
	nearer := 0.0
	for f := range a.at {
		_, own := a.views[f].project(a.poses[f][capture.Hip.On(side)])
		_, other := a.views[f].project(a.poses[f][capture.Hip.On(1-side)])
		nearer += other - own
	}
	if nearer > 0 || nearer == 0 && side == 0 {
		return scene.Near
	}
	return scene.Far
}

func (a *acting) inPicture(side, frame int) bool {
	for _, j := range []capture.Joint{capture.Heel, capture.Toe} {
		p, ahead := a.views[frame].project(a.poses[frame][j.On(side)])
		if ahead < nearest || p.X < 0 || p.Y < 0 || p.X > float64(a.sc.Width) || p.Y > float64(a.sc.Height) {
			return false
		}
	}
	return true
}

// stepApart is the least way from one foot's spot to the other's that makes a
// step: feet side by side are a hip's width apart, 0.1 to 0.2 heights.
const stepApart = 0.1 // figure heights along the way it faces

// steps adds contacts that come down ahead of or behind the other foot.
func (a *acting) steps(t *Truth, index, first int) {
	for i := first + 1; i < len(t.Contacts); i++ {
		c, s := &t.Contacts[i], &t.Stands[i]
		for k := i - 1; k >= first; k-- {
			if t.Stands[k].Side == s.Side {
				continue
			}
			other := t.Contacts[k]
			d := a.spot(s.Side, c.Start).Sub(a.spot(t.Stands[k].Side, min(c.Start, other.End)))
			along := d.Dot(a.poses[c.Start].Facing()) / capture.Height
			if c.Start > 0 && math.Abs(along) >= stepApart {
				t.Steps = append(t.Steps, Step{index, s.Side, c.Start, math.Abs(along)})
			}
			break
		}
	}
}

// A flight is shorter than shortestFlight only where a rule that finds stands
// has gaps, and lower than lowestFlight only there.
const (
	shortestFlight = 0.08 // seconds
	lowestFlight   = 0.02 // metres
)

// flights adds the runs of frames on which neither foot stands, where take-off
// and landing are both in the clip.
func (a *acting) flights(t *Truth, index int) {
	n := len(a.at)
	for f := 0; f < n; f++ {
		if !a.aloft(f) {
			continue
		}
		start := f
		for f+1 < n && a.aloft(f+1) {
			f++
		}
		if start > 0 && f+1 < n {
			a.flight(t, index, start, f)
		}
	}
}

func (a *acting) aloft(frame int) bool {
	return a.standing(capture.Left, frame) < 0 && a.standing(capture.Right, frame) < 0
}

func (a *acting) flight(t *Truth, index, start, end int) {
	takeoff, land := math.Inf(-1), math.Inf(1)
	for _, s := range a.rec.Stands {
		if s.To < a.at[start] {
			takeoff = max(takeoff, s.To)
		}
		if s.From > a.at[end] {
			land = min(land, s.From)
		}
	}
	ground, air := a.rise(takeoff, land)
	if land-takeoff < shortestFlight || air.LowestRise < lowestFlight {
		return
	}
	rate := a.sc.Rate.Float()
	mid := (start + end) / 2
	v, height := &a.views[mid], a.height(mid)
	p, _ := v.project(ground)
	q, _ := v.project(ground.Add(Vec{Y: air.CentreRise}))
	from, _ := v.project(a.pose(takeoff)[capture.Pelvis])
	to, _ := v.project(a.pose(land)[capture.Pelvis])
	t.Flights = append(t.Flights, scene.Flight{Figure: index, Start: start, End: end,
		Takeoff: (takeoff - a.Start) * rate, Land: (land - a.Start) * rate,
		RisePx: p.Y - q.Y, RiseShare: (p.Y - q.Y) / height, TravelPx: to.X - from.X})
	t.Airs = append(t.Airs, air)
}

// rise looks through the recording from take-off to landing. It returns the
// centre of mass at take-off.
func (a *acting) rise(takeoff, land float64) (centre Vec, air Air) {
	p := a.pose(takeoff)
	centre = p.Centre()
	const probes = 64
	for k := range probes + 1 {
		p := a.pose(takeoff + (land-takeoff)*float64(k)/probes)
		c := p.Centre()
		air.CentreRise = max(air.CentreRise, c.Y-centre.Y)
		lowest := math.Inf(1)
		for side := range 2 {
			for _, j := range []capture.Joint{capture.Heel, capture.Ball, capture.Toe} {
				s := p[j.On(side)]
				lowest = min(lowest, s.Y-a.world.level(s.X))
			}
		}
		air.LowestRise = max(air.LowestRise, lowest)
	}
	return centre, air
}
