package scene

import (
	"fmt"
	"image"
	"math"
)

// A Swinging is a clip of a figure that takes an arm up and, after a rest, down again.
type Swinging struct {
	*Scene
	Length  float64 // of each of both moves, frames
	In, Out float64 // frames for which each eases in and out
	Words   []string
}

// easedSpeed is the share of full speed under which a move eases.
const easedSpeed = 0.6

// swings are the eases, with what they are in words. Half a cosine is slower than a share
// s of its full speed for asin(s)/pi of its time at either end, a quarter of one for
// twice as much at its slow end, and what goes evenly never.
var swings = []struct {
	name    string
	ease    Ease
	in, out float64 // times asin(easedSpeed)/pi of the time
	words   []string
}{
	{"both", EaseInOut, 1, 1, []string{"eases in", "eases out"}},
	{"even", Linear, 0, 0, []string{"starts at once", "even", "stops dead"}},
	{"in", EaseIn, 2, 0, []string{"eases in long", "stops dead"}},
	{"out", EaseOut, 0, 2, []string{"starts at once", "eases out long"}},
}

// Swings returns a clip of each ease over 10 and 16 frames, the longer ones with a
// camera that pans and on twos, at the given size, which must be even.
func Swings(size image.Point) ([]Swinging, error) {
	var list []Swinging
	for _, s := range swings {
		for _, v := range []struct {
			name   string
			frames float64
			on     int
			pan    float64
		}{{"10", 10, 1, 0}, {"16-pan", 16, 1, 40}, {"16-twos", 16, 2, 0}} {
			share := math.Asin(easedSpeed) / math.Pi * v.frames
			w := Swinging{Length: v.frames, In: s.in * share, Out: s.out * share, Words: s.words}
			spec := swing(s.ease, v.frames, v.on, v.pan)
			spec.Name = fmt.Sprintf("swing-%s-%s", s.name, v.name)
			spec.Width, spec.Height = size.X, size.Y
			var err error
			if w.Scene, err = New(spec); err != nil {
				return nil, err
			}
			list = append(list, w)
		}
	}
	return list, nil
}

// swing takes an arm up and down over so many frames each, by one ease.
func swing(ease Ease, frames float64, on int, pan float64) Spec {
	low, high := Pose{Near: Arm{Shoulder: 8}}, Pose{Near: Arm{Shoulder: 150, Elbow: 10}}
	f := Figure{Name: "swinger", Build: Build{Height: 270}, Ground: 148, Keys: []Key{
		{From: 0, To: 12, Pose: low},
		{From: 12 + frames, To: 24 + frames, Pose: high, Ease: ease},
		{From: 24 + 2*frames, To: 40 + 2*frames, Pose: low, Ease: ease},
	}}
	n := int(40 + 2*frames)
	if on > 1 {
		f.Exposure = []Stretch{{To: n - 1, On: on}}
	}
	sh := Shot{Frames: n, Backdrop: Backdrop{Seed: 9}, Figures: []Figure{f}}
	if pan != 0 {
		sh.Camera = Camera{Moves: []CameraMove{{To: float64(n - 1), DX: pan, Ease: Linear}}}
	}
	return one("", sh)
}
