package capture

import "math"

// plant takes out what a standing foot creeps, and by how much it floats over
// the ground or sinks into it: recorded feet do so by one to ten centimetres,
// from markers on soft skin and from bones of other lengths. Each standing foot
// is moved against its own creep and onto the ground; in between, what is left
// over is made up for in the air. Knees follow.
func (r *Recording) plant(side int) {
	shift := make([]Vec, len(r.Poses))
	end := -1 // last sample of the stand before
	for k := range r.Stands {
		s := &r.Stands[k]
		if s.Side != side {
			continue
		}
		first, last := r.samples(s)
		first = max(first, end)
		r.hold(shift[first:max(first, last)+1], side, first)
		bridgeShift(shift, end, first)
		end = max(first, last)
	}
	if end >= 0 {
		for i := end + 1; i < len(shift); i++ {
			shift[i] = shift[end]
		}
	}
	for i := range r.Poses {
		r.Poses[i].ShiftFoot(side, shift[i])
	}
}

// hold sets shift, which begins at sample first, against the foot's creep, so
// that its middle keeps its place, and puts the lowest point of the sole on the
// ground.
func (r *Recording) hold(shift []Vec, side, first int) {
	shift[0] = Vec{}
	for i := 1; i < len(shift); i++ {
		shift[i] = shift[i-1].Sub(r.slowest(side, first+i-1))
	}
	middle := shift[len(shift)/2]
	for i := range shift {
		shift[i] = shift[i].Sub(middle)
		shift[i].Y = -r.Poses[first+i].soleLevel(side)
	}
}

// bridgeShift leads from the shift at sample from to that at sample to, slowly
// at both ends; from below 0 keeps that at to.
func bridgeShift(shift []Vec, from, to int) {
	for i := max(0, from+1); i < to; i++ {
		if from < 0 {
			shift[i] = shift[to]
			continue
		}
		u := float64(i-from) / float64(to-from)
		shift[i] = shift[from].Toward(shift[to], u*u*(3-2*u))
	}
}

// ShiftFoot moves a foot and bends the leg so that it reaches: thigh and shank
// keep their lengths and the plane in which the knee bends. A leg too short for
// it is stretched.
func (p *Pose) ShiftFoot(side int, by Vec) {
	hip, knee, ankle := p[Hip.On(side)], p[Knee.On(side)], p[Ankle.On(side)]
	thigh, shank := knee.Sub(hip).Norm(), ankle.Sub(knee).Norm()
	for _, j := range []Joint{Ankle, Heel, Ball, Toe} {
		p[j.On(side)] = p[j.On(side)].Add(by)
	}
	way := ankle.Add(by).Sub(hip)
	far, along := way.Norm(), way.Unit()
	if far == 0 {
		return
	}
	if far >= thigh+shank {
		p[Knee.On(side)] = hip.Add(way.Times(thigh / (thigh + shank)))
		return
	}
	// Law of cosines: how far along the way the knee lies.
	x := (far*far + thigh*thigh - shank*shank) / (2 * far)
	out := math.Sqrt(max(0, thigh*thigh-x*x))
	p[Knee.On(side)] = hip.Add(along.Times(x)).Add(knee.Sub(hip).Across(along).Unit().Times(out))
}
