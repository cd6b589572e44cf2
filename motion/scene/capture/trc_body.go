package capture

import (
	"errors"
	"fmt"
	"math"
)

// bodyMarkers are those of pelvis and legs that a body is made of; R. and L.
// come before those of the legs.
var (
	pelvisMarkers = []string{"R.ASIS", "L.ASIS", "R.PSIS", "L.PSIS"}
	legMarkers    = []string{"GTR", "Knee", "Knee.Medial", "Ankle", "Ankle.Medial", "Heel", "MT1", "MT2", "MT5"}
)

// Body makes a recording of the markers; its stands are the given ones. What
// the markers do not cover is schematic: trunk and head upright over the
// pelvis, arms that swing against the legs.
func (m *Markers) Body(stands []Stand) (*Recording, error) {
	r := &Recording{Rate: m.Rate}
	for i, f := range m.Frames {
		f, err := rightHanded(f)
		if err != nil {
			return nil, fmt.Errorf("trc: frame %d: %w", i, err)
		}
		r.Poses = append(r.Poses, legs(f))
	}
	if h := r.Poses[0].height(); !(h > 0) || math.IsInf(h, 0) {
		return nil, errors.New("trc: the legs have no length")
	}
	r.levelFeet()
	r.settle()
	for i := range r.Poses {
		r.Poses[i].addTrunk()
	}
	r.byPlates(stands)
	return r, nil
}

// rightHanded returns the markers with z turned round where the body is its
// own mirror image: some files have y up in a left-handed frame.
func rightHanded(f map[string]Vec) (map[string]Vec, error) {
	for _, name := range pelvisMarkers {
		if _, ok := f[name]; !ok {
			return nil, fmt.Errorf("no marker %s", name)
		}
	}
	for _, name := range legMarkers {
		for _, side := range []string{"L.", "R."} {
			if _, ok := f[side+name]; !ok {
				return nil, fmt.Errorf("no marker %s", side+name)
			}
		}
	}
	toRight := f["R.ASIS"].Sub(f["L.ASIS"])
	ahead := mean(f["R.ASIS"], f["L.ASIS"]).Sub(mean(f["R.PSIS"], f["L.PSIS"]))
	if toRight.Cross(ahead).Y > 0 {
		return f, nil
	}
	turned := make(map[string]Vec, len(f))
	for name, v := range f {
		v.Z = -v.Z
		turned[name] = v
	}
	return turned, nil
}

// hipInside is how far the hip's middle lies from the marker over the great
// trochanter towards the other side's, a share of the way: hips are about half
// as far apart as the trochanters (from memory).
const hipInside = 0.25

// legs places pelvis and legs.
func legs(f map[string]Vec) Pose {
	var p Pose
	for side, s := range []string{"L.", "R."} {
		other := []string{"R.", "L."}[side]
		p[Hip.On(side)] = f[s+"GTR"].Toward(f[other+"GTR"], hipInside)
		p[Knee.On(side)] = mean(f[s+"Knee"], f[s+"Knee.Medial"])
		p[Ankle.On(side)] = mean(f[s+"Ankle"], f[s+"Ankle.Medial"])
		p[Heel.On(side)] = f[s+"Heel"]
		p[Ball.On(side)] = mean(f[s+"MT1"], f[s+"MT2"], f[s+"MT5"])
	}
	p[Pelvis] = mean(p[Hip], p[Hip.On(Right)])
	p.addToes()
	return p
}

// toesAhead is how far the toes reach before the ball of the foot, in shares of
// the way from the heel to there.
const toesAhead = 0.3

// addToes puts the tips of the toes ahead of the ball, along the foot.
func (p *Pose) addToes() {
	for side := range 2 {
		ball := p[Ball.On(side)]
		p[Toe.On(side)] = ball.Add(ball.Sub(p[Heel.On(side)]).Times(toesAhead))
	}
}

// Schematic trunk and arms in shares of the standing height, after Drillis &
// Contini 1966: hips at 0.530, shoulders at 0.818 and 0.129 to either side,
// upper arm 0.186, forearm 0.146.
const (
	chestOver    = 0.19
	neckOver     = 0.31
	crownOver    = 0.47
	shoulderOver = 0.818 - 0.530
	shoulderOut  = 0.115
	upperArm     = 0.186
	forearm      = 0.146
	armSwing     = 0.6  // of the other side's thigh
	elbowBend    = 0.35 // radians
)

// addTrunk adds what markers of pelvis and legs do not give, for a body scaled
// to Height.
func (p *Pose) addTrunk() {
	up, ahead := Vec{Y: 1}, p.Facing()
	over := func(share float64) Vec { return p[Pelvis].Add(up.Times(share * Height)) }
	p[Chest], p[Neck], p[Crown] = over(chestOver), over(neckOver), over(crownOver)
	right := ahead.Cross(up)
	for side := range 2 {
		out := right.Times(float64(2*side-1) * shoulderOut * Height)
		shoulder := over(shoulderOver).Add(out)
		thigh := p[Knee.On(1-side)].Sub(p[Hip.On(1-side)]).Unit()
		swing := armSwing * math.Asin(max(-1, min(1, thigh.Dot(ahead))))
		along := func(angle float64) Vec { return ahead.Times(math.Sin(angle)).Sub(up.Times(math.Cos(angle))) }
		elbow := shoulder.Add(along(swing).Times(upperArm * Height))
		p[Shoulder.On(side)], p[Elbow.On(side)] = shoulder, elbow
		p[Hand.On(side)] = elbow.Add(along(swing + elbowBend).Times(forearm * Height))
	}
}
