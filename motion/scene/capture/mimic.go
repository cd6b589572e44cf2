package capture

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
)

// A Rotations is a motion file of DeepMimic (Peng et al. 2018): joint rotations
// of the character that its library calls humanoid3d.
type Rotations struct {
	Loop   bool
	Frames [][]float64 // seconds, root position, then rotations; frameValues each
}

// frameValues is what a frame holds: its length in seconds, three for the
// root's place, four for each of nine joints' quaternion (root, chest, neck,
// hips, ankles, shoulders), one angle for each of four knees and elbows.
const frameValues = 1 + 3 + 9*4 + 4

// maxMotionBytes bounds a motion file; real ones have a tenth of a megabyte.
const maxMotionBytes = 16 << 20

// ReadRotations reads a motion file.
func ReadRotations(r io.Reader) (*Rotations, error) {
	var file struct {
		Loop   string
		Frames [][]float64
	}
	if err := json.NewDecoder(io.LimitReader(r, maxMotionBytes)).Decode(&file); err != nil {
		return nil, fmt.Errorf("rotations: %w", err)
	}
	if len(file.Frames) < 2 {
		return nil, fmt.Errorf("rotations: %d frames", len(file.Frames))
	}
	for i, f := range file.Frames {
		if len(f) != frameValues {
			return nil, fmt.Errorf("rotations: frame %d has %d values, not %d", i, len(f), frameValues)
		}
	}
	if d := file.Frames[0][0]; !(d > 0) || d > 1 {
		return nil, fmt.Errorf("rotations: %g seconds between frames", d)
	}
	return &Rotations{Loop: file.Loop == "wrap", Frames: file.Frames}, nil
}

// Bones of humanoid3d in metres, from its character file: x ahead, y up, z to
// the right.
var (
	mimicChest    = Vec{0, 0.236151, 0}
	mimicNeck     = Vec{0, 0.223894, 0}
	mimicCrown    = Vec{0, 0.2775, 0} // top of the ball that is its head
	mimicHip      = Vec{0, 0, 0.084887}
	mimicThigh    = Vec{0, -0.421546, 0}
	mimicShank    = Vec{0, -0.409870, 0}
	mimicHeel     = Vec{0.045 - 0.177/2, -0.05, 0} // of the box that is its foot
	mimicToe      = Vec{0.045 + 0.177/2, -0.05, 0}
	mimicShoulder = Vec{-0.02405, 0.24350, 0.18311}
	mimicUpperArm = Vec{0, -0.274788, 0}
	mimicForearm  = Vec{0, -0.258947, 0}
)

// ballAhead is where the ball of a foot lies between heel and toe.
const ballAhead = 0.7

// Body makes a recording of the motion, cycles times over where it loops: each
// cycle goes on from the last pose of the one before, which is its first.
func (m *Rotations) Body(cycles int) (*Recording, error) {
	if cycles < 1 || cycles > 1 && !m.Loop {
		return nil, fmt.Errorf("rotations: %d cycles", cycles)
	}
	one := make([]Pose, len(m.Frames))
	for i, f := range m.Frames {
		one[i] = mimicPose(f)
		if h := one[i].height(); !(h > 0) || math.IsInf(h, 0) {
			return nil, errors.New("rotations: numbers too large")
		}
	}
	r := &Recording{Rate: 1 / m.Frames[0][0], Poses: one}
	for range cycles - 1 {
		r.Poses = goOn(r.Poses, one, max(1, int(seam*r.Rate)))
	}
	r.settle()
	r.stand()
	return r, nil
}

// seam is the time over which the last pose of a cycle passes into the next
// cycle: first and last poses differ by up to a quarter of a metre.
const seam = 0.2 // seconds

// goOn appends all poses of next but its first, turned to face as the last pose
// of list does and moved so that its lower foot stands where that of the last
// pose does. What differs elsewhere is made up for over n poses.
func goOn(list, next []Pose, n int) []Pose {
	end, start := list[len(list)-1], &next[0]
	from, to := start.Facing(), end.Facing()
	turned := about('Y', math.Atan2(from.Z, from.X)-math.Atan2(to.Z, to.X))
	foot := Ball.On(end.lowerFoot())
	shift := end[foot].Sub(turned.at(start[foot])).Flat()
	var apart Pose
	for j := range apart {
		apart[j] = end[j].Sub(turned.at(start[j]).Add(shift))
	}
	for i, p := range next[1:] {
		left := max(0, 1-float64(i+1)/float64(n))
		left *= left * (3 - 2*left)
		for j := range p {
			p[j] = turned.at(p[j]).Add(shift).Add(apart[j].Times(left))
		}
		list = append(list, p)
	}
	return list
}

// mimicPose places the body of one frame.
func mimicPose(f []float64) Pose {
	values := f[4:]
	take := func() turn {
		q := values[:4]
		values = values[4:]
		return ofQuaternion(q[0], q[1], q[2], q[3])
	}
	angle := func() turn {
		a := values[0]
		values = values[1:]
		return about('Z', a)
	}
	var p Pose
	root := take()
	chest := root.then(take())
	neck := chest.then(take())
	p[Pelvis] = Vec{f[1], f[2], f[3]}
	p[Chest] = p[Pelvis].Add(root.at(mimicChest))
	p[Neck] = p[Chest].Add(chest.at(mimicNeck))
	p[Crown] = p[Neck].Add(neck.at(mimicCrown))
	for _, side := range []int{Right, Left} { // the file's order
		hip := root.then(take())
		knee := hip.then(angle())
		p.leg(side, root, hip, knee, knee.then(take()))
		shoulder := chest.then(take())
		p.arm(side, chest, shoulder, shoulder.then(angle()))
	}
	return p
}

// mirrored is v on the given side of the body.
func mirrored(v Vec, side int) Vec {
	if side == Left {
		v.Z = -v.Z
	}
	return v
}

func (p *Pose) leg(side int, root, hip, knee, ankle turn) {
	a := p[Pelvis].Add(root.at(mirrored(mimicHip, side)))
	b := a.Add(hip.at(mimicThigh))
	c := b.Add(knee.at(mimicShank))
	p[Hip.On(side)], p[Knee.On(side)], p[Ankle.On(side)] = a, b, c
	p[Heel.On(side)], p[Toe.On(side)] = c.Add(ankle.at(mimicHeel)), c.Add(ankle.at(mimicToe))
	p[Ball.On(side)] = p[Heel.On(side)].Toward(p[Toe.On(side)], ballAhead)
}

func (p *Pose) arm(side int, chest, shoulder, elbow turn) {
	a := p[Chest].Add(chest.at(mirrored(mimicShoulder, side)))
	b := a.Add(shoulder.at(mimicUpperArm))
	p[Shoulder.On(side)], p[Elbow.On(side)], p[Hand.On(side)] = a, b, b.Add(elbow.at(mimicForearm))
}
