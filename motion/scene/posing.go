package scene

import (
	"fmt"
	"image"
)

// A Posing is a clip of a figure that walks on, strikes poses, and walks off.
type Posing struct {
	*Scene
	Figure string
	Holds  [][2]int // first and last frame of each pose held
	Back   []int    // of each the earlier one, by index, that it is once more; -1 for none
}

// posingPoses is how many poses a Posing holds between the one it comes with and that
// one once more.
const posingPoses = 4

// Posings returns clips whose poses and their order are by lot, at the given size, which
// must be even. Styles take turns; every second one has grain and a camera that pans, by
// turns so slowly that it is hardly seen and faster.
func Posings(size image.Point, clips int) ([]Posing, error) {
	poses := []Pose{
		{Near: Arm{Shoulder: -70}, Far: Arm{Shoulder: 85, Elbow: 5}, Lean: -4}, // arms wide
		poseBow, poseSalute, poseCheer, poseSquat, posePoint,
	}
	var list []Posing
	for n := range clips {
		p := Posing{Figure: "poser"}
		first := int(float64(len(poses)) * HashUnit(uint64(n), 1))
		chosen := []int{0}
		for k := range posingPoses - 1 {
			chosen = append(chosen, 1+(first+k)%len(poses))
		}
		// The last but one is an earlier one, by lot; the last that of the walk.
		chosen = append(chosen, chosen[1+int(2*HashUnit(uint64(n), 2))], 0)
		f := Figure{Name: p.Figure, Build: Build{Height: 200}, Ground: ground, X: -170, Walks: []Walk{{Start: 6, Steps: 4, Length: 0.36, Frames: 11}}}
		at := 0.0
		for k, c := range chosen {
			pose, to := poseEasy, at+18
			if c > 0 {
				pose = poses[c-1]
			}
			if k == 0 {
				to = 76
			}
			f.Keys = append(f.Keys, Key{From: at, To: to, Pose: pose})
			p.Holds = append(p.Holds, [2]int{int(at), int(to)})
			p.Back = append(p.Back, earlier(chosen[:k], c))
			at = to + 9
		}
		f.Walks = append(f.Walks, Walk{Start: at + 12, Steps: 4, Length: 0.36, Frames: 11})
		sh := Shot{Frames: int(at) + 58, Backdrop: Backdrop{Style: Style((n + n/4) % 4), Seed: uint64(80 + n)}, Figures: []Figure{f}}
		spec := one(fmt.Sprintf("posing-%d", n), sh)
		if n%2 == 1 {
			pan := []float64{60, 160}[n/4%2] // a fifth of a unit a frame, and half
			spec.Shots[0].Camera = Camera{X: -pan / 2, Moves: []CameraMove{{To: float64(sh.Frames - 1), DX: pan, Ease: Linear}}}
			spec.Condition.Noise = 3
		}
		spec.Width, spec.Height = size.X, size.Y
		var err error
		if p.Scene, err = New(spec); err != nil {
			return nil, err
		}
		list = append(list, p)
	}
	return list, nil
}

// earlier is where a value stands first in a list, -1 where it does not.
func earlier(list []int, v int) int {
	for i, w := range list {
		if w == v {
			return i
		}
	}
	return -1
}
