// Package capture reads recorded human motion (BVH, joint rotations as of
// DeepMimic, TRC markers) into poses of one kind of body, and says when its
// feet stand on the ground. Text comes in, metres and seconds go out.
package capture

import (
	"math"
	"slices"
)

// Height is the standing height in metres to which all bodies are scaled, by
// their own bones.
const Height = 1.7

// A Recording is a body in motion, on level ground at height 0.
type Recording struct {
	Rate   float64 // poses a second
	Poses  []Pose
	Stands []Stand // by instant of touching down
	Rule   string  // what says when feet stand
}

// Seconds returns the instant of the last pose.
func (r *Recording) Seconds() float64 { return float64(len(r.Poses)-1) / r.Rate }

// At returns the pose at an instant in seconds; outside the recording its first
// or last one. Between poses each point goes along a cubic (Catmull and Rom
// 1974) through four of them.
func (r *Recording) At(seconds float64) Pose {
	at := max(0, min(seconds*r.Rate, float64(len(r.Poses)-1)))
	i := min(int(at), max(0, len(r.Poses)-2))
	u := at - float64(i)
	if u == 0 {
		return r.Poses[i]
	}
	pick := func(k int) *Pose { return &r.Poses[max(0, min(k, len(r.Poses)-1))] }
	a, b, c, d := pick(i-1), pick(i), pick(i+1), pick(i+2)
	ka, kb := u*(-0.5+u*(1-0.5*u)), 1+u*u*(-2.5+1.5*u)
	kc, kd := u*(0.5+u*(2-1.5*u)), u*u*(-0.5+0.5*u)
	var p Pose
	for j := range p {
		p[j] = a[j].Times(ka).Add(b[j].Times(kb)).Add(c[j].Times(kc)).Add(d[j].Times(kd))
	}
	return p
}

// levelShare is the share of poses that may reach below the ground: a few
// stray samples must not lift the body off it.
const levelShare = 0.05

// settle scales the body to Height and puts the ground at its lowest level.
func (r *Recording) settle() {
	heights, levels := make([]float64, len(r.Poses)), make([]float64, len(r.Poses))
	for i := range r.Poses {
		heights[i], levels[i] = r.Poses[i].height(), r.Poses[i].Lowest()
	}
	scale := Height / quantile(heights, 0.5)
	level := quantile(levels, levelShare)
	for i := range r.Poses {
		for j, v := range r.Poses[i] {
			v.Y -= level
			r.Poses[i][j] = v.Times(scale)
		}
	}
}

// quantile returns the value below which the given share of the list lies.
func quantile(list []float64, share float64) float64 {
	s := slices.Clone(list)
	slices.Sort(s)
	return s[int(math.Round(share*float64(len(s)-1)))]
}
