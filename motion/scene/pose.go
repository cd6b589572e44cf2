package scene

// An Arm is the pose of one arm in degrees. At zero it hangs straight down;
// positive values raise it forwards, bend the elbow and the wrist forwards.
type Arm struct{ Shoulder, Elbow, Wrist float64 }

// A Foot moves one foot away from where it stands, in figure heights and
// degrees: Forward along the ground, Lift off it, Roll onto the toe (positive)
// or the heel.
type Foot struct{ Forward, Lift, Roll float64 }

// A Pose is what a figure's body does. The zero Pose stands at ease, head
// turned half forwards. Forwards is where the figure faces.
type Pose struct {
	Shift, Crouch     float64 // of the hips, in figure heights: forwards, down
	Lean, Tilt        float64 // of trunk and head, degrees, forwards
	Turn              float64 // of the head: -1 to the back, 0 half forwards, 1 in profile
	Nod               float64 // of the face on it: -1 up, 1 down
	Gaze              float64 // of the eyes in the face: -1 to the back, 1 forwards
	Near, Far         Arm     // the arm on the side of the camera, and the other
	NearFoot, FarFoot Foot
}

const poseValues = 19

func (p *Pose) values() [poseValues]*float64 {
	return [poseValues]*float64{
		&p.Shift, &p.Crouch, &p.Lean, &p.Tilt, &p.Turn, &p.Nod, &p.Gaze,
		&p.Near.Shoulder, &p.Near.Elbow, &p.Near.Wrist, &p.Far.Shoulder, &p.Far.Elbow, &p.Far.Wrist,
		&p.NearFoot.Forward, &p.NearFoot.Lift, &p.NearFoot.Roll, &p.FarFoot.Forward, &p.FarFoot.Lift, &p.FarFoot.Roll,
	}
}

// mix goes from p to q as u goes from 0 to 1, exactly p and q at the ends.
func mix(p, q Pose, u float64) Pose {
	if u == 1 {
		return q
	}
	to := q.values()
	for i, v := range p.values() {
		*v += (*to[i] - *v) * u
	}
	return p
}

// A Key is a pose kept from frame From to frame To, both included; To zero or
// before From means From. Ease is the way it is reached from the key before.
type Key struct {
	From, To float64
	Pose     Pose
	Ease     Ease
}

func (k Key) to() float64 { return max(k.From, k.To) }

// poseAt returns the pose at time t, in frames. Keys are in order of time; the
// first holds from the start of the shot, the last to its end.
func poseAt(keys []Key, t float64) Pose {
	if len(keys) == 0 {
		return Pose{}
	}
	i := 0
	for i+1 < len(keys) && keys[i+1].From <= t {
		i++
	}
	k := keys[i]
	if t <= k.to() || i+1 == len(keys) {
		return k.Pose
	}
	next := keys[i+1]
	return mix(k.Pose, next.Pose, next.Ease.at((t-k.to())/(next.From-k.to())))
}

// steppedPose returns the pose of the last key reached at t: poses pop.
func steppedPose(keys []Key, t float64) Pose {
	p := Pose{}
	for i, k := range keys {
		if i == 0 || k.From <= t {
			p = k.Pose
		}
	}
	return p
}
