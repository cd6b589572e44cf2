package scene

import "math"

// A ramp adds DX to a place between two instants.
type ramp struct {
	from, to, dx float64
	ease         Ease
}

func (r ramp) at(t float64) float64 {
	if t >= r.to {
		return r.dx
	}
	return r.dx * r.ease.at((t-r.from)/(r.to-r.from))
}

func sumRamps(list []ramp, t float64) float64 {
	x := 0.0
	for _, r := range list {
		if t > r.from {
			x += r.at(t)
		}
	}
	return x
}

// A roll turns a standing foot about toe or heel for some frames.
type roll struct{ degrees, frames float64 }

// A spot is one stand of one foot: at x from instant from to instant to, both
// included. Slips move it meanwhile. Rolls say how it comes down (onto the
// heel, negative degrees) and how it leaves (over the toe). Rise is set when
// the foot got here by a flight of gravity rather than by a step.
type spot struct {
	from, to, x float64
	slips       []ramp
	in, out     roll
	rise        float64 // flight before this spot: top of it, stage units; 0 for a step
	hop         int     // index of the hop that led here plus one; 0 for none
}

func (s spot) at(t float64) float64 { return s.x + sumRamps(s.slips, t) }

// A footState is one foot at one instant, in the figure's own coordinates:
// where the ankle's foot of the perpendicular would be on a flat foot, how far
// the sole is off the ground, and how far it is rolled.
type footState struct {
	x, lift float64 // stage units
	roll    float64 // degrees
	spot    int     // index of the spot it stands on, or of the next one
	stands  bool
}

// A footPath is every spot of one foot in order of time; the first reaches back
// to the start and the last to the end of the shot.
type footPath []spot

// stepLift is how high a step lifts the foot, against its length.
const stepLift = 0.13

func (p footPath) at(t float64) footState {
	i := 0
	for i+1 < len(p) && p[i].to < t {
		i++
	}
	s := p[i]
	if t >= s.from {
		return footState{x: s.at(t), roll: s.rollAt(t), spot: i, stands: true}
	}
	before := p[i-1]
	u := (t - before.to) / (s.from - before.to)
	x0 := before.at(before.to)
	f := footState{spot: i, x: lerp(x0, s.x, u)}
	if s.rise > 0 {
		f.lift = s.rise * 4 * u * (1 - u)
		return f
	}
	f.x = lerp(x0, s.x, EaseInOut.at(u))
	f.lift = stepLift * math.Abs(s.x-x0) * math.Pow(math.Sin(math.Pi*u), 2)
	f.roll = lerp(before.out.degrees, s.in.degrees, EaseInOut.at(u))
	return f
}

// rollAt is the roll of a foot that stands.
func (s spot) rollAt(t float64) float64 {
	if s.in.frames > 0 && t < s.from+s.in.frames {
		return s.in.degrees * (1 - EaseOut.at((t-s.from)/s.in.frames))
	}
	if s.out.frames > 0 && t > s.to-s.out.frames {
		return s.out.degrees * EaseIn.at(1-(s.to-t)/s.out.frames)
	}
	return 0
}
