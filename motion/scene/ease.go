package scene

import "math"

// An Ease is the way a pose is reached from the one before it.
type Ease int

// The eases. Their curves are common practice; Overshoot is the "back" curve
// with the customary constant 1.70158 (from memory), which passes the pose by
// a tenth and comes back.
const (
	EaseInOut Ease = iota // slow, fast, slow: half a cosine
	Linear
	EaseIn    // slow, then fast: leaves gently and stops dead
	EaseOut   // fast, then slow: starts at once and settles
	Overshoot // passes the pose and comes back to it
)

// at maps 0..1 to 0..1; arguments outside are clamped.
func (e Ease) at(u float64) float64 {
	u = clamp01(u)
	switch e {
	case Linear:
		return u
	case EaseIn:
		return 1 - math.Cos(math.Pi/2*u)
	case EaseOut:
		return math.Sin(math.Pi / 2 * u)
	case Overshoot:
		const s = 1.70158
		v := u - 1
		return 1 + (s+1)*v*v*v + s*v*v
	default:
		return (1 - math.Cos(math.Pi*u)) / 2
	}
}
