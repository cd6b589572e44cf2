package scene

import "math"

// A Ball falls, bounces and runs out. Times are frames of its shot, lengths
// stage units. Between impacts it obeys gravity alone.
type Ball struct {
	Name        string
	Radius      float64
	X, Ground   float64 // where its middle starts across; height of the ground
	Drop        float64 // height of its lowest point over the ground at first
	Start       float64 // instant of its release
	Speed       float64 // across, stage units a frame, from Start on
	Gravity     float64 // stage units a frame squared; 0 means a drop of 120 lasts half a second
	Restitution float64 // speed after an impact over speed before it, 0..1
	Bounces     int     // impacts after which it lies still; 0 means 5
	Exposure    []Stretch
	Look        Look
	Shadow      float64
}

// A bouncer is a Ball made ready.
type bouncer struct {
	Ball
	shapes  []shape
	impacts []float64 // instants, frames of the shot
}

func newBouncer(b Ball, rate float64) *bouncer {
	if b.Radius == 0 {
		b.Radius = 20
	}
	if b.Bounces == 0 {
		b.Bounces = 5
	}
	if b.Gravity == 0 {
		b.Gravity = 2 * 120 / (rate * rate / 4)
	}
	r := &bouncer{Ball: b, shapes: []shape{newShape(ball, ellipse(0, 0, b.Radius, b.Radius, 48))}}
	t := b.Start + math.Sqrt(2*b.Drop/b.Gravity)
	flight := 2 * (t - b.Start)
	for range b.Bounces {
		r.impacts = append(r.impacts, t)
		flight *= b.Restitution
		t += flight
	}
	return r
}

func (b *bouncer) pieces() []shape { return b.shapes }
func (b *bouncer) height() float64 { return 2 * b.Radius }

// over is the height of the ball's lowest point over the ground at t.
func (b *bouncer) over(t float64) float64 {
	if t <= b.Start {
		return b.Drop
	}
	if fall := t - b.Start; t <= b.impacts[0] {
		return b.Drop - b.Gravity*fall*fall/2
	}
	for i := 1; i < len(b.impacts); i++ {
		if t <= b.impacts[i] {
			u := t - b.impacts[i-1]
			return b.Gravity / 2 * u * (b.impacts[i] - b.impacts[i-1] - u)
		}
	}
	return 0
}

// rest is the instant of the last impact, on which the ball comes to lie.
func (b *bouncer) rest() float64 { return b.impacts[len(b.impacts)-1] }

// travel is how far the ball has gone across at t.
func (b *bouncer) travel(t float64) float64 {
	if t < b.Start {
		return 0
	}
	return b.Speed * (math.Min(t, b.rest()) - b.Start)
}

func (b *bouncer) place(t float64, _ bool, dst []affine) {
	across := b.travel(t)
	dst[0] = shift(b.X+across, b.Ground-b.Radius-b.over(t)).mul(rotate(across / b.Radius))
}
