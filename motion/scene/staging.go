package scene

import (
	"fmt"
	"image"
	"slices"
)

// stagedKinds are how figures come, meet, part and go; their frames are for 24 a second.
var stagedKinds = []struct {
	name   string
	frames int
	shot   func(lot func(use uint64) float64) Shot
}{
	{"meet-and-part", 264, meetAndPart},
	{"joined", 216, joined},
	{"driven-out", 216, drivenOut},
	{"passing-through", 150, passingThrough},
	{"following", 168, following},
	{"left-behind", 144, leftBehind},
	{"ball-drops-in", 144, ballDropsIn},
	{"leaps-up", 96, leapsUp},
}

// Stagings returns clips of figures that come into the picture, walk up to each other,
// part and go, each kind so many times with timings by lot, at the given size, which
// must be even.
func Stagings(size image.Point, each int) ([]*Scene, error) {
	var list []*Scene
	for n := range each {
		for k, kind := range stagedKinds {
			sh := kind.shot(func(use uint64) float64 { return HashUnit(uint64(n), uint64(k), use) })
			sh.Frames, sh.Backdrop.Seed = kind.frames, uint64(60+10*n+k)
			spec := one(fmt.Sprintf("%s-%d", kind.name, n), sh)
			spec.Width, spec.Height = size.X, size.Y
			sc, err := New(spec)
			if err != nil {
				return nil, err
			}
			list = append(list, sc)
		}
	}
	return list, nil
}

// staged is a figure at ease that has a place, a gesture at a time and some walks.
// A walk without a length goes forwards.
func staged(name string, x, height float64, left bool, gesture float64, walks ...Walk) Figure {
	f := Figure{Name: name, Build: Build{Height: height}, Ground: ground, X: x, Left: left, Shadow: 0.4, Keys: []Key{{Pose: poseEasy}}}
	if left {
		f.Look.Palette = 1
	}
	if gesture > 0 {
		f.Keys = passOn(f.Keys, poseSalute, gesture)
		f.Keys = passOn(f.Keys, poseEasy, gesture+26)
	}
	for _, w := range walks {
		f.Walks = append(f.Walks, Walk{Start: w.Start, Steps: w.Steps, Length: w.Length, Frames: 12})
	}
	return f
}

const (
	offLeft, offRight = -370, 370 // where a figure is out of the picture, stage units
	stride            = 0.36      // figure heights a step
)

// meetAndPart: both come in, gesture, and back out the way they came.
func meetAndPart(lot func(uint64) float64) Shot {
	late := float64(int(24 * lot(0)))
	a := staged("comer", offLeft, 150, false, 112, Walk{Start: 4, Steps: 7, Length: stride}, Walk{Start: 156, Steps: 8, Length: -stride})
	b := staged("goer", offRight, 140, true, 130+late, Walk{Start: 6 + late, Steps: 7, Length: stride}, Walk{Start: 164 + late, Steps: 7, Length: -stride})
	return Shot{Figures: []Figure{a, b}}
}

// joined: one waits, the other comes in, walks up to it, and both stay.
func joined(lot func(uint64) float64) Shot {
	late := float64(int(30 * lot(0)))
	a := staged("waiter", -110, 160, false, 10)
	b := staged("comer", offRight, 150, true, 150+late, Walk{Start: 24 + late, Steps: 8, Length: stride})
	return Shot{Figures: []Figure{a, b}}
}

// drivenOut: one comes in, the other backs out before it.
func drivenOut(lot func(uint64) float64) Shot {
	late := float64(int(20 * lot(0)))
	a := staged("driver", offLeft, 150, false, 120, Walk{Start: 10, Steps: 8, Length: stride})
	b := staged("driven", 120, 150, true, 20, Walk{Start: 126 + late, Steps: 6, Length: -stride})
	return Shot{Figures: []Figure{a, b}}
}

// passingThrough: both go through the picture, the first behind the second.
func passingThrough(lot func(uint64) float64) Shot {
	late := float64(int(30 * lot(0)))
	a := staged("goer", offRight, 140, true, 0, Walk{Start: 2, Steps: 16, Length: stride})
	a.Ground -= 12
	b := staged("comer", offLeft, 160, false, 0, Walk{Start: 2 + late, Steps: 15, Length: stride})
	b.Ground += 8
	for i := range []int{0, 1} {
		f := []*Figure{&a, &b}[i]
		f.Walks[0].Frames = 8
	}
	return Shot{Figures: []Figure{a, b}}
}

// following: both come in from one side and go out at the other, one after the other.
func following(lot func(uint64) float64) Shot {
	late := float64(28 + int(16*lot(0)))
	a := staged("first", offLeft, 150, false, 0, Walk{Start: 2, Steps: 16, Length: stride})
	b := staged("second", offLeft, 140, false, 0, Walk{Start: 2 + late, Steps: 16, Length: stride})
	b.Look.Palette = 2
	a.Walks[0].Frames, b.Walks[0].Frames = 8, 8
	return Shot{Figures: []Figure{a, b}}
}

// leftBehind: the camera pans away with one, and the other is left out of the picture.
func leftBehind(lot func(uint64) float64) Shot {
	late := float64(int(20 * lot(0)))
	a := staged("walker", 0, 150, false, 0, Walk{Start: 12, Steps: 10, Length: stride})
	b := staged("stander", -150, 160, false, 16+late)
	return Shot{Figures: []Figure{b, a}, Camera: Camera{Moves: []CameraMove{{From: 20, To: 120, DX: 420}}}}
}

// ballDropsIn: a ball falls in from above, bounces, and a figure walks up to it.
func ballDropsIn(lot func(uint64) float64) Shot {
	late := float64(int(20 * lot(0)))
	b := Ball{Name: "ball", Radius: 18, X: -40, Ground: ground, Drop: 350, Start: 6 + late, Restitution: 0.6, Bounces: 5, Shadow: 0.4}
	a := staged("fetcher", offRight, 150, true, 0, Walk{Start: 40 + late, Steps: 6, Length: stride})
	return Shot{Figures: []Figure{a}, Balls: []Ball{b}}
}

// leapsUp: one leaps into the picture from below and falls back, another looks on.
func leapsUp(lot func(uint64) float64) Shot {
	late := float64(int(20 * lot(0)))
	a := staged("leaper", -130, 150, false, 0)
	a.Ground, a.Shadow = 180+150+26, 0
	a.Hops = []Hop{{Takeoff: 20 + late, Air: 30, Rise: 1.1}}
	b := staged("looker", 100, 160, true, 34+late)
	return Shot{Figures: slices.Concat([]Figure{b}, []Figure{a})}
}
