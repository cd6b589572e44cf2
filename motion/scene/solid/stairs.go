package solid

import (
	"math"

	"holdfast/motion/scene/capture"
)

// Stairs go up to the right, as wide as the world is deep. The zero value is
// none.
type Stairs struct {
	First     float64 // where the first riser stands, metres to the right
	Run, Rise float64 // depth and height of a step, metres
	Steps     int
}

// tread returns on which step a place lies, 0 before the first.
func (s *Stairs) tread(x float64) int {
	if s.Steps == 0 || x < s.First {
		return 0
	}
	return min(s.Steps, 1+int((x-s.First)/s.Run))
}

// level is the height of the step at a place.
func (s *Stairs) level(x float64) float64 { return float64(s.tread(x)) * s.Rise }

// ramp is the height of the even way through the middles of the treads, along
// which bodies rise.
func (s *Stairs) ramp(x float64) float64 {
	if s.Steps == 0 {
		return 0
	}
	return s.Rise * max(0, min(float64(s.Steps), (x-s.First)/s.Run+0.5))
}

// meet returns how far along d, from o, the stairs are first met: a tread from
// above or a riser from its front; none is infinity.
func (s *Stairs) meet(o, d Vec) float64 {
	nearest := math.Inf(1)
	for k := range s.Steps + 1 {
		if far := (float64(k)*s.Rise - o.Y) / d.Y; d.Y < 0 && far > 0 && far < nearest && s.tread(o.X+far*d.X) == k {
			nearest = far
		}
		if far := (s.First + float64(k-1)*s.Run - o.X) / d.X; k > 0 && d.X > 0 && far > 0 && far < nearest {
			if y := o.Y + far*d.Y; y >= float64(k-1)*s.Rise && y <= float64(k)*s.Rise {
				nearest = far
			}
		}
	}
	return nearest
}

// How treads and risers differ to the eye: a riser gets less light, the front
// edge of a tread is worn bright.
const (
	riserLight = 0.72
	edgeLight  = 1.25
	edgeWidth  = 0.04 // metres
)

// light is how much of the ground's light a place on the stairs has, which a
// pixel of the given size in metres shows.
func (s *Stairs) light(p Vec, size float64) float32 {
	if s.Steps == 0 {
		return 1
	}
	if p.Y < s.level(p.X+1e-6)-1e-6 {
		return riserLight
	}
	if k := s.tread(p.X); k > 0 {
		from := p.X - (s.First + float64(k-1)*s.Run)
		u := max(0, min(1, 0.5+(edgeWidth-from)/max(size, edgeWidth/4)))
		return float32(1 + (edgeLight-1)*u)
	}
	return 1
}

// climbed is the share of a step's time in the air by which the foot has come
// to the height of its next tread: before it passes over that tread's edge.
const climbed = 0.6

// climb puts the feet of a body that follows the ramp onto the treads.
func (m *mover) climb(p *capture.Pose, seconds float64) {
	for side := range 2 {
		ankle := p[capture.Ankle.On(side)]
		up := m.treadUnder(side, seconds) - m.world.Stairs.ramp(ankle.X)
		// The foot itself does not lean with the ramp.
		for _, j := range []capture.Joint{capture.Heel, capture.Ball, capture.Toe} {
			foot := &p[j.On(side)]
			foot.Y -= m.world.Stairs.ramp(foot.X) - m.world.Stairs.ramp(ankle.X)
		}
		p.ShiftFoot(side, Vec{Y: up})
	}
}

// treadUnder is the height that a foot has at an instant because of the stairs:
// that of the tread it stands on, and in the air one that leads to the next.
func (m *mover) treadUnder(side int, seconds float64) float64 {
	before, after := -1, -1
	for k, s := range m.rec.Stands {
		if s.Side != side {
			continue
		}
		if s.From <= seconds {
			before = k
		} else if after < 0 {
			after = k
		}
	}
	switch {
	case before < 0 && after < 0:
		return 0
	case before < 0:
		return m.treads[after]
	case after < 0 || seconds <= m.rec.Stands[before].To:
		return m.treads[before]
	}
	from, to := m.rec.Stands[before].To, m.rec.Stands[after].From
	u := ease(min(1, (seconds-from)/(to-from)/climbed))
	return m.treads[before] + (m.treads[after]-m.treads[before])*u
}

// reckonTreads finds the height of the tread of every stand.
func (m *mover) reckonTreads() {
	for _, s := range m.rec.Stands {
		p := m.flat((s.From + s.To) / 2)
		spot := p[capture.Heel.On(s.Side)].Toward(p[capture.Ball.On(s.Side)], 0.5)
		m.treads = append(m.treads, m.world.Stairs.level(spot.X))
	}
}
