package solid

import (
	"image"
	"slices"

	"holdfast/motion/scene"
)

// Catalogue returns the named scenes at the given size, which must be even, of
// the recordings that the library has: one hard case at a time. With adds a
// condition to any of them.
func Catalogue(size image.Point, lib Library) ([]*Scene, error) {
	var list []*Scene
	for _, s := range slices.Concat(cameraSpecs(), lookSpecs(), plateSpecs(), slideSpecs(), airSpecs(), turnSpecs(), timingSpecs()) {
		s.Width, s.Height = size.X, size.Y
		sc, err := New(s, lib)
		if err != nil {
			return nil, err
		}
		list = append(list, sc)
	}
	return list, nil
}

// sideways is a camera that sees a figure of some 155 pixels in a picture of
// 360, level with its hips.
func sideways() Camera { return Camera{At: Vec{X: 0, Y: 1.2, Z: 6}, Aim: Vec{X: 0, Y: 0.9, Z: 0}} }

func from(at, aim Vec) Camera { return Camera{At: at, Aim: aim} }

// shaded is a world with soft shadows.
func shaded() World { return World{Shadow: 0.45} }

func walker() Figure { return Figure{Name: "walker", Recording: "walk"} }

func (f Figure) turned(degrees float64) Figure { f.Turn = degrees; return f }
func (f Figure) at(x, z float64) Figure        { f.At = Vec{X: x, Z: z}; return f }
func (f Figure) dressed(l Look) Figure         { f.Look = l; return f }
func (f Figure) on(frames int) Figure          { f.On = frames; return f }

func (f Figure) sliding(travel float64, plant int) Figure {
	f.Travel, f.Plant = travel, plant
	return f
}

// one is a scene of one figure.
func one(name string, c Camera, w World, f Figure) Spec {
	return Spec{Name: name, Camera: c, World: w, Figures: []Figure{f}}
}

// cameraSpecs are walks before cameras of all kinds.
func cameraSpecs() []Spec {
	follow, hand, track, zoom := sideways(), sideways(), sideways(), sideways()
	follow.Follow = true
	hand.Shake = scene.Shake{Reach: 5, Roll: 0.35, Seed: 11}
	track.Moves = []Move{{From: 0, To: 5, Travel: Vec{Z: -1.8}}}
	zoom.Moves = []Move{{From: 0.5, To: 4.5, Zoom: 1.3}}
	rails := sideways()
	rails.At.X, rails.Aim.X = -1.5, -1.5
	rails.Moves = []Move{{From: 0, To: 5, Travel: Vec{X: 3}}}
	return []Spec{
		one("solid-walk", sideways(), shaded(), walker()),
		one("solid-walk-pan", follow, shaded(), walker()),
		one("solid-walk-handheld", hand, shaded(), walker()),
		one("solid-walk-push-in", track, shaded(), walker()),
		one("solid-walk-zoom", zoom, shaded(), walker()),
		one("solid-walk-rails", rails, shaded(), walker()),
		one("solid-walk-low", from(Vec{X: 0, Y: 0.25, Z: 5.5}, Vec{Y: 0.85}), shaded(), walker()),
		one("solid-walk-high", from(Vec{X: 0, Y: 3.6, Z: 5.2}, Vec{Y: 0.7}), shaded(), walker()),
		one("solid-walk-three-quarter", sideways(), shaded(), walker().turned(40)),
		one("solid-walk-towards", from(Vec{X: 0.3, Y: 1.4, Z: 7}, Vec{Y: 0.85}), shaded(), walker().turned(88).at(0, 0.6)),
		one("solid-walk-away", from(Vec{X: 0.3, Y: 1.7, Z: 6}, Vec{Y: 0.8}), shaded(), walker().turned(-75).at(0, -0.4)),
		one("solid-walk-small", from(Vec{X: 0, Y: 1.5, Z: 9.6}, Vec{Y: 0.9}), shaded(), walker()),
		one("solid-walk-feet-out-of-frame", from(Vec{X: 0, Y: 1.35, Z: 2.6}, Vec{Y: 1.1}), shaded(), walker()),
	}
}

// lookSpecs are walks that are hard to see, and two figures.
func lookSpecs() []Spec {
	mirror := World{Shadow: 0.25, Reflection: 0.35}
	slope := World{Shadow: 0.45, Slope: 0.12}
	// Low and deep, as steps in a garden are: one for each step of the walk.
	stairs := World{Shadow: 0.45, Stairs: Stairs{First: -1.89, Run: 0.645, Rise: 0.12, Steps: 7}}
	passing := Spec{Name: "solid-passing", Camera: sideways(), World: shaded(), Figures: []Figure{
		walker().at(0.1, -0.9).dressed(Cold),
		{Name: "comer", Recording: "walk", Start: 0.4, Turn: 180, Look: Warm, At: Vec{Z: 0.3}},
	}}
	return []Spec{
		one("solid-walk-no-shadow", sideways(), World{}, walker().dressed(Cold)),
		one("solid-walk-reflection", sideways(), mirror, walker()),
		one("solid-walk-camouflage", sideways(), shaded(), walker().dressed(Camouflage)),
		one("solid-walk-dark", sideways(), World{Shadow: 0.6, Bare: true}, walker().dressed(Dark)),
		one("solid-walk-slope", sideways(), slope, walker()),
		one("solid-walk-stairs", from(Vec{X: 0, Y: 1.9, Z: 6.4}, Vec{Y: 1.25}), stairs, walker()),
		passing,
	}
}

// plateSpecs are the walks over force plates, whose contacts are known best.
func plateSpecs() []Spec {
	near := from(Vec{X: 0, Y: 1.1, Z: 4.6}, Vec{Y: 0.88})
	plates := func(name, rec string, rate int64, f Figure) Spec {
		f.Name, f.Recording = "walker", rec
		s := one(name, near, shaded(), f)
		s.Rate = scene.FPS(rate)
		return s
	}
	return []Spec{
		plates("solid-plates-1", "walk1", 24, Figure{}),
		plates("solid-plates-2", "walk2", 24, Figure{Look: Cold}),
		plates("solid-plates-12fps", "walk1", 12, Figure{}),
		plates("solid-plates-30fps", "walk1", 30, Figure{Turn: 30}),
		plates("solid-plates-60fps", "walk2", 60, Figure{Look: Cold}),
		plates("solid-plates-slide", "walk1", 24, Figure{Travel: 1.25}),
	}
}

// slideSpecs are walks whose way does not fit their steps.
func slideSpecs() []Spec {
	follow := sideways()
	follow.Follow = true
	return []Spec{
		one("solid-slide-short", sideways(), shaded(), walker().sliding(0.8, 0)),
		one("solid-slide-long", sideways(), shaded(), walker().sliding(1.25, 0)),
		one("solid-slide-far", sideways(), shaded(), walker().sliding(1.5, 0)),
		one("solid-slide-one-plant", sideways(), shaded(), walker().sliding(1.5, 4)),
		one("solid-slide-pan", follow, shaded(), walker().sliding(1.25, 0)),
		one("solid-slide-three-quarter", sideways(), shaded(), walker().sliding(1.5, 0).turned(40)),
	}
}

// airSpecs leave the ground.
func airSpecs() []Spec {
	wide := from(Vec{X: 0, Y: 1.3, Z: 7.5}, Vec{Y: 0.9})
	follow := wide
	follow.Follow = true
	side := func(f Figure) Figure { f.Name = "jumper"; return f }
	run := one("solid-run", wide, shaded(), side(Figure{Recording: "run"}))
	run.Seconds = 2.2
	runPan := one("solid-run-pan", follow, World{Shadow: 0.45}, side(Figure{Recording: "run", Look: Cold}))
	return []Spec{
		run, runPan,
		one("solid-jump", sideways(), shaded(), side(Figure{Recording: "jump"})),
		one("solid-jumps", sideways(), shaded(), side(Figure{Recording: "01_01", Start: 1.2, Turn: 20})),
		one("solid-hop", sideways(), shaded(), side(Figure{Recording: "131_03", Start: 2.2, Look: Cold})),
		one("solid-start-and-stop", sideways(), shaded(), side(Figure{Recording: "131_01", Start: 1})),
		one("solid-kick", sideways(), shaded(), side(Figure{Recording: "kick", Look: Cold})),
	}
}

// turnSpecs turn on heels and toes, and creep.
func turnSpecs() []Spec {
	act := func(recording string, l Look) Figure { return Figure{Name: "dancer", Recording: recording, Look: l} }
	return []Spec{
		one("solid-dance", sideways(), shaded(), act("dance_a", Warm)),
		one("solid-dance-turned", sideways(), shaded(), act("dance_a", Cold).turned(70)),
		one("solid-creep", sideways(), shaded(), act("stealthy_walk", Cold)),
	}
}

// timingSpecs show few drawings, or many.
func timingSpecs() []Spec {
	fast := one("solid-walk-60fps", sideways(), shaded(), walker())
	fast.Rate, fast.Seconds = scene.FPS(60), 3
	return []Spec{
		fast,
		one("solid-walk-twos", sideways(), shaded(), walker().on(2)),
		one("solid-walk-stepped", sideways(), shaded(), walker().on(8)),
	}
}
