package scene

import (
	"fmt"
	"image"
)

// A Reacting is a clip of two figures, the second of which sets off some frames
// after each move of the first.
type Reacting struct {
	*Scene
	First, Second string
	Delays        []int // frames from each move of the first to that of the second
	Answers       []int // the first frame of each move of the second
}

// reactEvery is the time from one move of the first figure to its next, frames: both
// rest before it.
const reactEvery = 54

// Reactions returns clips of two figures with delays of 2 to 16 frames by lot, at the
// given size, which must be even.
func Reactions(size image.Point, clips int) ([]Reacting, error) {
	var list []Reacting
	for n := range clips {
		first := Figure{Name: "caller", Ground: ground, X: -110, Shadow: 0.4, Keys: []Key{{To: 12, Pose: poseEasy}}}
		second := Figure{Name: "answerer", Ground: ground, X: 110, Left: true, Shadow: 0.4, Look: Look{Palette: 1}, Keys: []Key{{To: 12, Pose: poseEasy}}}
		r := Reacting{First: first.Name, Second: second.Name}
		calls, answers := []Pose{poseSalute, poseCheer, poseThink}, []Pose{poseBow, poseBack, poseCheer}
		for k := range calls {
			delay := 2 + int(15*HashUnit(uint64(n), uint64(k)))
			at := float64(12 + k*reactEvery)
			first.Keys = passOn(first.Keys, calls[k], at)
			second.Keys = passOn(second.Keys, answers[k], at+float64(delay))
			r.Delays, r.Answers = append(r.Delays, delay), append(r.Answers, int(at)+delay+1)
		}
		spec := one(fmt.Sprintf("reacting-%d", n), Shot{Frames: 12 + len(calls)*reactEvery, Backdrop: Backdrop{Seed: uint64(20 + n)}, Figures: []Figure{first, second}})
		spec.Width, spec.Height = size.X, size.Y
		var err error
		if r.Scene, err = New(spec); err != nil {
			return nil, err
		}
		list = append(list, r)
	}
	return list, nil
}

// passOn holds the last pose of some keys until a frame, and takes another within ten.
func passOn(keys []Key, pose Pose, from float64) []Key {
	keys[len(keys)-1].To = from
	return append(keys, Key{From: from + 10, Pose: pose, Ease: EaseInOut})
}
