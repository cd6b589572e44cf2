package solid

import (
	"fmt"
	"math"

	"holdfast/motion/scene/capture"
)

// A Figure is a body that moves as a recording does.
type Figure struct {
	Name      string
	Recording string  // its name in the Library
	Start     float64 // seconds into the recording
	At        Vec     // where the middle of its way over the ground lies
	Turn      float64 // degrees from facing right to facing the wall's other side, where a camera stands
	Look      Look
	// Travel is the figure's way over the ground against that of its steps: with
	// any but 1 its feet slide; 0 means 1. Plant keeps that to one stand, the
	// first in the shot being 1, while the other foot is off the ground; 0 means
	// all the time.
	Travel float64
	Plant  int
	// On is how many frames each drawing stays up; 0 means 1.
	On int
}

// A mover is a figure made ready.
type mover struct {
	Figure
	rec    *capture.Recording
	world  *World
	origin Vec       // of the recording
	s, c   float64   // sine and cosine of its turn
	extra  []Vec     // metres beyond the recording's travel, by sample, in the recording
	treads []float64 // height of the stairs under each stand of the recording
}

// newMover makes a figure ready for a shot of so many seconds.
func newMover(f Figure, rec *capture.Recording, w *World, seconds float64) (*mover, error) {
	if f.Start < 0 || f.Start >= rec.Seconds() {
		return nil, fmt.Errorf("starts at %g of %g seconds", f.Start, rec.Seconds())
	}
	m := &mover{Figure: f, rec: rec, world: w}
	if m.Travel == 0 {
		m.Travel = 1
	}
	m.reckonExtra(seconds)
	var facing Vec
	low, high := Vec{X: math.Inf(1), Z: math.Inf(1)}, Vec{X: math.Inf(-1), Z: math.Inf(-1)}
	const probes = 50
	for k := range probes + 1 {
		t := f.Start + seconds*float64(k)/probes
		p := rec.At(t)
		facing = facing.Add(p.Facing())
		at := p[capture.Pelvis].Add(m.extraAt(t))
		low, high = Vec{X: min(low.X, at.X), Z: min(low.Z, at.Z)}, Vec{X: max(high.X, at.X), Z: max(high.Z, at.Z)}
	}
	m.origin = low.Toward(high, 0.5)
	m.s, m.c = math.Sincos(f.Turn*math.Pi/180 - math.Atan2(facing.Z, facing.X))
	m.reckonTreads()
	return m, nil
}

// reckonExtra adds up what the root travels more than in the recording.
func (m *mover) reckonExtra(seconds float64) {
	m.extra = make([]Vec, len(m.rec.Poses))
	sliding := m.slidingStand(seconds)
	for i := 1; i < len(m.extra); i++ {
		d := m.rec.Poses[i][capture.Pelvis].Sub(m.rec.Poses[i-1][capture.Pelvis]).Flat()
		k := m.Travel - 1
		if m.Plant > 0 && !m.alone(sliding, (float64(i)-0.5)/m.rec.Rate) {
			k = 0
		}
		m.extra[i] = m.extra[i-1].Add(d.Times(k))
	}
}

// slidingStand returns the index of the stand that alone slides, or -1.
func (m *mover) slidingStand(seconds float64) int {
	n := 0
	for i, s := range m.rec.Stands {
		if s.To >= m.Start && s.From <= m.Start+seconds {
			if n++; n == m.Plant {
				return i
			}
		}
	}
	return -1
}

// alone reports whether stand i is the only one at an instant.
func (m *mover) alone(i int, seconds float64) bool {
	for k, s := range m.rec.Stands {
		if on := s.From <= seconds && seconds <= s.To; on != (k == i) {
			return false
		}
	}
	return i >= 0
}

// extraAt is the extra travel at an instant of the recording.
func (m *mover) extraAt(seconds float64) Vec {
	at := max(0, min(seconds*m.rec.Rate, float64(len(m.extra)-1)))
	i := min(int(at), len(m.extra)-2)
	return m.extra[i].Toward(m.extra[i+1], at-float64(i))
}

// toWorld turns a way over the recording's ground into one over the world's.
func (m *mover) toWorld(v Vec) Vec { return Vec{X: m.c*v.X - m.s*v.Z, Y: v.Y, Z: m.s*v.X + m.c*v.Z} }

// shownAt is the instant of the recording whose drawing is up at an instant of
// the shot.
func (m *mover) shownAt(seconds, rate float64) float64 {
	if m.On > 1 {
		frame := math.Floor(seconds*rate + 0.5)
		seconds = math.Floor(frame/float64(m.On)) * float64(m.On) / rate
	}
	return m.Start + seconds
}

// pose is the body in the world at an instant of the recording.
func (m *mover) pose(seconds float64) capture.Pose {
	p := m.flat(seconds)
	for j := range p {
		p[j] = m.world.lay(p[j])
	}
	if m.world.Stairs.Steps > 0 {
		m.climb(&p, seconds)
	}
	return p
}

// flat is the body at an instant of the recording as it would be in a level
// world.
func (m *mover) flat(seconds float64) capture.Pose {
	p := m.rec.At(seconds)
	shift := m.extraAt(seconds).Sub(m.origin)
	for j := range p {
		p[j] = m.toWorld(p[j].Add(shift)).Add(m.At)
	}
	return p
}
