package scene

import (
	"fmt"
	"math"
)

// A Figure stands, acts, walks and hops on two legs. Times are frames of its
// shot. Body and head follow Keys; the feet follow Walks, Hops and Slips, which
// must not overlap, plus what the keys' Foot values add.
type Figure struct {
	Name     string
	Build    Build
	X        float64 // where the middle of its feet stands at first, stage units
	Ground   float64 // height of the ground there, stage units below the origin
	Left     bool    // faces left rather than right
	Keys     []Key
	Walks    []Walk
	Hops     []Hop
	Slips    []Slip
	Breaths  []Breath
	Exposure []Stretch
	Look     Look
	Shadow   float64 // darkness of the soft shadow at its feet, 0..1; 0 means none
}

// A Breath keeps a held pose alive: trunk and arms sway by sines that come and
// go gently within From..To.
type Breath struct {
	From, To float64
	Period   float64 // frames of one breath; 0 means three seconds
	Lean     float64 // degrees to either side
}

// A body is a Figure made ready: its pieces and the plan of its feet.
type body struct {
	Figure
	rate   float64
	shapes []shape
	plan   plan
}

func newBody(f Figure, rate float64) (*body, error) {
	f.Build = f.Build.withDefaults()
	p, err := planFeet(f.Build.Height, rate, f.Walks, f.Hops, f.Slips)
	if err != nil {
		return nil, err
	}
	for i, k := range f.Keys {
		if i > 0 && k.From <= f.Keys[i-1].to() {
			return nil, fmt.Errorf("key at frame %g comes before the one ahead of it ends at %g", k.From, f.Keys[i-1].to())
		}
	}
	list := bodyParts(f.Build)
	return &body{Figure: f, rate: rate, shapes: list[:], plan: p}, nil
}

func (b *body) pieces() []shape { return b.shapes }

// height is that of the figure standing, in stage units.
func (b *body) height() float64 { return b.Build.Height }

// world maps the figure's own coordinates (x forwards from where its feet
// stood at first, y down from the ground) to the world.
func (b *body) world() affine {
	forwards := 1.0
	if b.Left {
		forwards = -1
	}
	return shift(b.X, b.Ground).mul(scale(forwards, 1))
}

// pose is what the body does at t; on stepped stretches poses pop.
func (b *body) pose(t float64, stepped bool) Pose {
	if stepped {
		return steppedPose(b.Keys, t)
	}
	p := poseAt(b.Keys, t)
	for _, br := range b.Breaths {
		s := br.swing(t, b.rate)
		p.Lean += s
		p.Near.Shoulder += 1.5 * s
		p.Far.Shoulder += 1.2 * s
		p.Tilt -= 0.6 * s
	}
	return p
}

// swing is the breath in degrees at t.
func (br Breath) swing(t, rate float64) float64 {
	if t <= br.From || t >= br.To {
		return 0
	}
	period := br.Period
	if period == 0 {
		period = 3 * rate
	}
	// The first and last half second come and go.
	fade := math.Min(1, math.Min(t-br.From, br.To-t)/(rate/2))
	return br.Lean * EaseInOut.at(fade) * math.Sin(2*math.Pi*(t-br.From)/period)
}

// footAt is one foot (0 near, 1 far) at t, with what the pose adds.
func (b *body) footAt(side int, p Pose, t float64) footState {
	f := b.plan.feet[side].at(t)
	add := p.NearFoot
	if side == 1 {
		add = p.FarFoot
	}
	f.x += add.Forward * b.Build.Height
	f.lift += add.Lift * b.Build.Height
	f.roll += add.Roll
	f.stands = f.stands && add.Lift == 0
	return f
}

// crouch is how far hops bend the knees at t, in stage units: down before the
// take-off, straight at it, down again after the landing.
func (b *body) crouch(t float64) float64 {
	frame := b.rate / 24 // the timings below are for 24 frames a second
	depth := 0.0
	for _, hop := range b.plan.hops {
		deep := b.Build.Height * math.Min(0.1, 0.05+0.3*hop.Rise)
		land := hop.Takeoff + hop.Air
		before, after := (hop.Takeoff-t)/frame, (t-land)/frame
		switch {
		case before > 10 || after > 11:
		case before > 3:
			depth += deep * EaseInOut.at((10-before)/7)
		case before > 0:
			depth += deep * (1 - EaseIn.at((3-before)/3))
		case after < 0:
		case after < 3:
			depth += 0.8 * deep * EaseOut.at(after/3)
		default:
			depth += 0.8 * deep * (1 - EaseInOut.at((after-3)/8))
		}
	}
	return depth
}
