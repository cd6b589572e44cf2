package scene

import (
	"fmt"
	"math"
	"sort"
)

// A Walk takes steps. Feet stay exactly where they stand unless Slide says
// otherwise. The last step sets the feet side by side.
type Walk struct {
	Start  float64 // frame on which the first foot leaves the ground
	Steps  int
	Length float64 // figure heights a step, negative walks backwards; 0 means 0.3
	Frames float64 // frames a step; 0 means half a second, which is a march at two steps a second
	Slide  float64 // figure heights that every standing foot travels, positive forwards
	OnStep int     // the one step, from 1, that slides; 0 means all
}

// A Hop leaves the ground with both feet at once and comes back.
type Hop struct {
	Takeoff float64 // instant in frames, may be a fraction
	Air     float64 // frames in the air
	Travel  float64 // figure heights, positive forwards
	Rise    float64 // figure heights; 0 means what gravity gives a figure of 1.7 m in that time
}

// A Slip lets standing feet travel.
type Slip struct {
	From, To float64
	Share    float64 // figure heights, positive forwards
	Feet     Side    // which; the zero value is both
}

// A Side says near, far or both.
type Side int

// The sides.
const (
	Both Side = iota
	Near
	Far
)

// Gravity is the standard acceleration of free fall in m/s^2 (ISO 80000-3).
const Gravity = 9.80665

// figureMetres is the height that a figure stands for.
const figureMetres = 1.7

// FallRise returns how high a hop of air seconds rises, in figure heights:
// g*t^2/8, half the time going up and half coming down.
func FallRise(air float64) float64 { return Gravity * air * air / 8 / figureMetres }

const (
	swingShare = 0.8 // of a step's time the foot is in the air: 40 % of a stride of two steps, the published share of walking
	stance     = 0.045
)

// A plan is where feet and hips go over the shot, in stage units along the
// figure's own x.
type plan struct {
	feet [2]footPath // near, far
	hips []ramp
	hops []Hop
}

// planFeet lays out walks and hops in order of time for a figure of height h.
func planFeet(h, rate float64, walks []Walk, hops []Hop, slips []Slip) (plan, error) {
	var p plan
	for i, x := range []float64{-stance * h, stance * h} {
		p.feet[i] = footPath{{from: math.Inf(-1), to: math.Inf(1), x: x}}
	}
	type event struct {
		at float64
		do func()
	}
	var events []event
	free := math.Inf(-1)
	for _, w := range walks {
		w := w.withDefaults(rate)
		events = append(events, event{w.Start, func() { p.walk(w, h); free = w.end() }})
	}
	for _, hop := range hops {
		if hop.Rise == 0 {
			hop.Rise = FallRise(hop.Air / rate)
		}
		events = append(events, event{hop.Takeoff, func() { p.hop(hop, h); free = hop.Takeoff + hop.Air }})
	}
	for _, s := range slips {
		events = append(events, event{s.From, func() { p.slip(s, h); free = s.To }})
	}
	sort.SliceStable(events, func(i, j int) bool { return events[i].at < events[j].at })
	for _, e := range events {
		if e.at < free {
			return p, fmt.Errorf("walk, hop or slip at frame %g begins before the one ahead of it ends at %g", e.at, free)
		}
		e.do()
	}
	return p, nil
}

func (w Walk) withDefaults(rate float64) Walk {
	if w.Length == 0 {
		w.Length = 0.3
	}
	if w.Frames == 0 {
		w.Frames = rate / 2
	}
	return w
}

// end is when the last foot has come down flat.
func (w Walk) end() float64 {
	return w.Start + (swingShare+float64(w.Steps-1)+heelRoll)*w.Frames
}

// Rolls of a walking foot in degrees, and how long they take in steps.
const (
	heelStrike, heelRoll = -16, 0.16
	toeOff, toeRoll      = 30, 0.35
)

func (p *plan) walk(w Walk, h float64) {
	s, dir := w.Frames, math.Copysign(1, w.Length)
	for k := range w.Steps {
		side := k % 2
		land := instant(w.Start + swingShare*s + float64(k)*s)
		path := &p.feet[side]
		last := &(*path)[len(*path)-1]
		other := p.feet[1-side][len(p.feet[1-side])-1]
		lift := instant(land - swingShare*s)
		last.to, last.out = lift, roll{dir * toeOff, toeRoll * s}
		x0 := last.at(lift)
		ahead := w.Length * h
		if k == w.Steps-1 {
			ahead = 0 // beside the other foot
		}
		x1 := other.at(land) + ahead + float64(2*side-1)*2*stance*h
		next := spot{from: land, to: math.Inf(1), x: x1, in: roll{dir * heelStrike, heelRoll * s}}
		if w.slides(k) {
			stand := (2 - swingShare) * s
			next.slips = append(next.slips, ramp{land, instant(land + stand), w.Slide * h, Linear})
			p.lead(land+stand/2, s, w.Slide*h)
		}
		*path = append(*path, next)
		p.lead(land-swingShare*s/2, s, x1-x0)
	}
}

// instant rounds a time to a millionth of a frame, so that a foot that lifts on
// a whole frame is not put before it by rounding.
func instant(t float64) float64 { return math.Round(t*1e6) / 1e6 }

// slides reports whether the foot put down by step k, from 0, travels while it
// stands; the last two steps of a walk come to rest and do not.
func (w Walk) slides(k int) bool {
	return w.Slide != 0 && k < w.Steps-2 && (w.OnStep == 0 || w.OnStep == k+1)
}

// lead moves the hips by half of what one foot travels, spread over two steps:
// windows of half a cosine that overlap by half add up to an even speed.
func (p *plan) lead(middle, step, dx float64) {
	p.hips = append(p.hips, ramp{middle - step, middle + step, dx / 2, EaseInOut})
}

func (p *plan) hop(hop Hop, h float64) {
	dx := hop.Travel * h
	for i := range p.feet {
		last := &p.feet[i][len(p.feet[i])-1]
		last.to = hop.Takeoff
		p.feet[i] = append(p.feet[i], spot{
			from: hop.Takeoff + hop.Air, to: math.Inf(1), x: last.at(hop.Takeoff) + dx,
			rise: hop.Rise * h, hop: len(p.hops) + 1,
		})
	}
	p.hips = append(p.hips, ramp{hop.Takeoff, hop.Takeoff + hop.Air, dx, Linear})
	p.hops = append(p.hops, hop)
}

func (p *plan) slip(s Slip, h float64) {
	r := ramp{s.From, s.To, s.Share * h, EaseInOut}
	for i, side := range []Side{Near, Far} {
		if s.Feet == side || s.Feet == Both {
			last := &p.feet[i][len(p.feet[i])-1]
			last.slips = append(last.slips, r)
			p.hips = append(p.hips, ramp{r.from, r.to, r.dx / 2, r.ease})
		}
	}
}
