package scene

import (
	"fmt"
	"image"
)

// A Turning is a clip of a figure that is lively and quiet by turns.
type Turning struct {
	*Scene
	Changes []int // the first frame of each part after the first
}

const (
	turningParts = 4
	turningLead  = 12 // frames before the first part
)

// Turnings returns clips of a figure that gestures, stands about with a slight move
// now and then, and gestures again, each for three to six seconds by lot, at the given
// size, which must be even. A part that gestures begins with the first move of its
// gestures; one that is quiet, with the rest after the last.
func Turnings(size image.Point, clips int) ([]Turning, error) {
	var list []Turning
	for n := range clips {
		lot := func(part, use int) float64 { return HashUnit(uint64(n), uint64(part), uint64(use)) }
		f := Figure{Name: "turning", Ground: ground, Shadow: 0.4, Keys: []Key{{To: turningLead, Pose: poseEasy}}}
		t := Turning{}
		at := float64(turningLead)
		lively := n%2 == 0
		for part := range turningParts {
			if part > 0 {
				t.Changes = append(t.Changes, int(at)+1)
			}
			end := at + float64(72+int(72*lot(part, 0)))
			if lively {
				f.Keys, at = gestures(f.Keys, at, end, func(k int) float64 { return lot(part, 1+k) })
			} else {
				f.Keys = stirs(f.Keys, at, end)
				f.Breaths = append(f.Breaths, Breath{From: at, To: end, Period: 60, Lean: 0.4})
				at = end
			}
			lively = !lively
		}
		f.Keys[len(f.Keys)-1].To = at + 1
		spec := one(fmt.Sprintf("turning-%d", n), Shot{Frames: int(at) + 1, Backdrop: Backdrop{Seed: uint64(40 + n)}, Figures: []Figure{f}})
		spec.Width, spec.Height = size.X, size.Y
		var err error
		if t.Scene, err = New(spec); err != nil {
			return nil, err
		}
		list = append(list, t)
	}
	return list, nil
}

// gestures go from pose to pose with rests of 2 to 9 frames until about an end. They
// return when the last move ends.
func gestures(keys []Key, at, end float64, lot func(k int) float64) ([]Key, float64) {
	last := at
	poses := []Pose{poseSalute, poseBow, poseCheer, posePoint, poseBack, poseThink}
	first := int(6 * lot(0))
	for k := 0; at < end; k++ {
		keys[len(keys)-1].To = at
		to := at + 7 + float64(int(4*lot(2*k+1)))
		keys = append(keys, Key{From: to, Pose: poses[(first+k)%len(poses)], Ease: EaseInOut})
		at, last = to+2+float64(int(8*lot(2*k+2))), to
	}
	return keys, last
}

// stirs stand in the pose that is there, with a slight lean halfway.
func stirs(keys []Key, at, end float64) []Key {
	last := keys[len(keys)-1].Pose
	leaning := last
	leaning.Lean += 3
	leaning.Tilt += 4
	middle := (at + end) / 2
	keys[len(keys)-1].To = middle
	return append(keys, Key{From: middle + 12, To: end, Pose: leaning, Ease: EaseInOut})
}
