package scene

import (
	"fmt"
	"image"
)

// A Twinning is a clip of a figure whose arms do the same, one some frames later than
// the other.
type Twinning struct {
	*Scene
	Figure, First, Second string   // the parts that are twins
	Mirrored              bool     // rather than parallel
	Offset                int      // frames by which Second is later
	Shown                 []int    // frames on which to show them
	Moves                 [][2]int // first and last frames of each move of both
}

// Twins returns clips of arms offset by 0, 1, 2, 3 and 5 frames, parallel and
// mirrored, at the given size, which must be even.
func Twins(size image.Point) ([]Twinning, error) {
	var list []Twinning
	for _, mirrored := range []bool{false, true} {
		for _, offset := range []int{0, 1, 2, 3, 5} {
			way := "parallel"
			if mirrored {
				way = "mirrored"
			}
			t := Twinning{Figure: "waver", First: "near hand", Second: "far hand", Mirrored: mirrored, Offset: offset, Shown: []int{0, 34, 79}}
			for _, m := range armMoves {
				t.Moves = append(t.Moves, [2]int{m.from + 1, m.to + offset})
			}
			spec := one(fmt.Sprintf("twins-%s-%d", way, offset), Shot{Frames: 80, Backdrop: Backdrop{Seed: 7}, Figures: []Figure{twinned(mirrored, offset)}})
			spec.Width, spec.Height = size.X, size.Y
			var err error
			if t.Scene, err = New(spec); err != nil {
				return nil, err
			}
			list = append(list, t)
		}
	}
	return list, nil
}

// armMoves are the frames between which an arm of Twins goes from one angle to
// another, degrees.
var armMoves = []struct {
	from, to int
	by       float64
}{{10, 22, 55}, {44, 58, -55}}

const armRests = 25 // degrees from straight down, clear of the trunk

// armAt is the angle of an arm at a time.
func armAt(t float64) float64 {
	angle := float64(armRests)
	for _, m := range armMoves {
		angle += m.by * EaseInOut.at(max(0, min(1, (t-float64(m.from))/float64(m.to-m.from))))
	}
	return angle
}

// twinned is a figure whose far arm does so many frames later what its near one does.
func twinned(mirrored bool, offset int) Figure {
	f := Figure{Name: "waver", Build: Build{Height: 270}, Ground: 148, Look: Look{Palette: 1}}
	for t := range 80 {
		p := poseEasy
		near := armAt(float64(t))
		if mirrored {
			near = -near
		}
		p.Near, p.Far = Arm{Shoulder: near}, Arm{Shoulder: armAt(float64(t - offset))}
		f.Keys = append(f.Keys, Key{From: float64(t), Pose: p})
	}
	return f
}
