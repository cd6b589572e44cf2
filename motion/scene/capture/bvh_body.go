package capture

import (
	"errors"
	"fmt"
	"math"
)

// bones name the joints of a pose in the two ways that the BVH files of
// mocap.cs.cmu.edu are written; the first name that a file has counts, since
// LeftShoulder is the collar where there is a LeftArm.
var bones = []struct {
	joint       Joint
	left, right []string
}{
	{Hip, []string{"LeftUpLeg", "LeftHip"}, []string{"RightUpLeg", "RightHip"}},
	{Knee, []string{"LeftLeg", "LeftKnee"}, []string{"RightLeg", "RightKnee"}},
	{Ankle, []string{"LeftFoot", "LeftAnkle"}, []string{"RightFoot", "RightAnkle"}},
	{Ball, []string{"LeftToeBase", "LeftToe"}, []string{"RightToeBase", "RightToe"}},
	{Toe, []string{"LeftToeBase end", "LeftToe end"}, []string{"RightToeBase end", "RightToe end"}},
	{Shoulder, []string{"LeftArm", "LeftShoulder"}, []string{"RightArm", "RightShoulder"}},
	{Elbow, []string{"LeftForeArm", "LeftElbow"}, []string{"RightForeArm", "RightElbow"}},
	{Hand, []string{"LeftFingerBase", "LFingers"}, []string{"RightFingerBase", "RFingers"}},
	{Chest, []string{"Spine1", "Chest2"}, nil},
	{Neck, []string{"Neck1", "Neck"}, nil},
	{Crown, []string{"Head end"}, nil},
}

// Body makes a recording of the hierarchy's frames from frame first on. The
// files start with a pose that is none of the motion's, arms out.
func (h *Hierarchy) Body(first int) (*Recording, error) {
	if first < 0 || first >= len(h.Frames) {
		return nil, fmt.Errorf("bvh: no frame %d of %d", first, len(h.Frames))
	}
	index, err := h.bones()
	if err != nil {
		return nil, err
	}
	feet := [2]foot{h.foot(index, Left), h.foot(index, Right)}
	r := &Recording{Rate: 1 / h.Interval}
	for _, frame := range h.Frames[first:] {
		at, turned := h.place(frame)
		var p Pose
		for j, i := range index {
			if i >= 0 {
				p[j] = at[i]
			}
		}
		p[Pelvis] = mean(p[Hip], p[Hip.On(Right)])
		for side, f := range feet {
			f.lay(&p, side, turned[index[Ankle.On(side)]])
		}
		r.Poses = append(r.Poses, p)
	}
	if h := r.Poses[0].height(); !(h > 0) || math.IsInf(h, 0) {
		return nil, errors.New("bvh: the legs have no length")
	}
	r.levelFeet()
	r.settle()
	r.stand()
	return r, nil
}

// bones returns the node of each joint, -1 where a pose has it from elsewhere.
func (h *Hierarchy) bones() (index [Joints]int, err error) {
	for j := range index {
		index[j] = -1
	}
	for _, b := range bones {
		for side, names := range [][]string{b.left, b.right} {
			if names == nil {
				continue
			}
			i := h.node(names...)
			if i < 0 {
				return index, fmt.Errorf("bvh: no joint %s", names[0])
			}
			index[b.joint.On(side)] = i
		}
	}
	return index, nil
}

// Where the sole lies, in shares of the standing height: the ankle's height
// after Drillis & Contini 1966; the heel behind the ankle makes their length of
// the foot, 0.152, of what these skeletons have before it.
const (
	ankleHeight = 0.039
	heelBehind  = 0.035
)

// A foot says where soles lie that a skeleton does not have, in the frame of
// the ankle.
type foot struct{ heel, ball Vec }

// foot reckons the sole from the skeleton at rest: down is along the shank,
// which the skeleton splays while the standing leg is upright.
func (h *Hierarchy) foot(index [Joints]int, side int) foot {
	ankle, toes := h.Nodes[index[Ankle.On(side)]], h.Nodes[index[Ball.On(side)]]
	down := ankle.Offset.Unit()
	ahead := toes.Offset.Across(down)
	stature := (h.Nodes[index[Knee.On(side)]].Offset.Norm() + ankle.Offset.Norm()) / legShare
	sole := down.Times(ankleHeight * stature)
	return foot{heel: sole.Sub(ahead.Unit().Times(heelBehind * stature)), ball: sole.Add(ahead)}
}

// lay puts heel, ball and toe of a pose on the sole; the toes bend as the joint
// in the ball does.
func (f foot) lay(p *Pose, side int, turned turn) {
	ankle := p[Ankle.On(side)]
	toes := p[Toe.On(side)].Sub(p[Ball.On(side)])
	p[Heel.On(side)] = ankle.Add(turned.at(f.heel))
	p[Ball.On(side)] = ankle.Add(turned.at(f.ball))
	p[Toe.On(side)] = p[Ball.On(side)].Add(toes)
}
