package scene

import "image"

// A Planted is a clip with one fault of timing in it, or none. What it shows comes
// from its keys alone, so where the fault lies is known to the frame.
type Planted struct {
	*Scene
	Fault      string // what a reviewer calls it; empty for a clean clip
	Start, End int    // the frames it lies on, from 0
}

// Plant returns small clips of a figure that acts: clean ones, and the same with
// one fault of timing each. The size must be even.
func Plant(size image.Point) ([]Planted, error) {
	var list []Planted
	for _, p := range append(calmClips(), faultyClips()...) {
		spec := Spec{Name: p.name, Width: size.X, Height: size.Y, Shots: []Shot{p.shot}}
		sc, err := New(spec)
		if err != nil {
			return nil, err
		}
		list = append(list, Planted{sc, p.fault, p.start, p.end})
	}
	return list, nil
}

// A plantedShot is a shot with its fault.
type plantedShot struct {
	name       string
	shot       Shot
	fault      string
	start, end int
}

// A strike is a move to a pose, and how long the pose is held: its first frame
// comes move frames after the last of the pose before.
type strike struct {
	move, hold float64
	pose       Pose
	ease       Ease
}

// phrase is what the clips are made of: six poses in uneven time, big and little.
// On the way to the one numbered stepping the figure takes two steps.
func phrase() []strike {
	return []strike{
		{0, 20, poseEasy, EaseInOut},
		{8, 14, poseSalute, EaseInOut},
		{6, 26, poseThink, EaseOut},
		{30, 11, posePoint, EaseInOut},
		{5, 18, poseBack, EaseInOut},
		{9, 24, poseCheer, Overshoot},
	}
}

const stepping = 3

// leanIn is how many frames before its foot leaves the ground a step begins, with
// the hips.
const leanIn = 6

// player is a figure that strikes poses, and steps on its way to one of them;
// alive ones breathe in their holds, but for those numbered in still.
func player(list []strike, alive bool, step int, still ...int) (f Figure, frames int) {
	f = Figure{Name: "player", Build: Build{Height: 270}, Ground: 148, X: -30, Shadow: 0.4}
	at := -1.0
	for i, s := range list {
		from := at + max(1, s.move)
		if i == step {
			f.Walks = []Walk{{Start: at + leanIn, Steps: 2, Length: 0.3, Frames: 11}}
		}
		at = from + s.hold - 1
		f.Keys = append(f.Keys, Key{From: from, To: at, Pose: s.pose, Ease: s.ease})
		frozen := !alive
		for _, k := range still {
			frozen = frozen || i == k
		}
		if !frozen {
			f.Breaths = append(f.Breaths, Breath{From: from, To: at, Period: 28, Lean: 0.6})
		}
	}
	return f, int(at) + 1
}

// playing is the shot of such a figure.
func playing(list []strike, alive bool, still ...int) Shot {
	f, frames := player(list, alive, stepping, still...)
	return Shot{Frames: frames, Backdrop: Backdrop{Seed: 40}, Figures: []Figure{f}}
}

// calmClips have nothing wrong with their timing.
func calmClips() []plantedShot {
	clean := func(name string, sh Shot, change func(*Shot)) plantedShot {
		if change != nil {
			change(&sh)
		}
		return plantedShot{name: name, shot: sh}
	}
	return []plantedShot{
		clean("calm-alive", playing(phrase(), true), nil),
		clean("calm-frozen", playing(phrase(), false), func(sh *Shot) { sh.Backdrop = Backdrop{Style: Flat} }),
		clean("calm-twos", playing(phrase(), false), func(sh *Shot) { sh.Figures[0].Exposure = []Stretch{{To: sh.Frames - 1, On: 2}} }),
		clean("calm-pan", playing(phrase(), true), func(sh *Shot) {
			sh.Camera = Camera{X: -30, Moves: []CameraMove{{From: 0, To: float64(sh.Frames - 1), DX: 60, Ease: Linear}}}
		}),
		clean("calm-line", playing(phrase(), false), func(sh *Shot) { sh.Backdrop, sh.Figures[0].Shadow = Backdrop{Style: Line}, 0 }),
		clean("calm-entering", entering(phrase()), nil),
		clean("calm-walk", Shot{Frames: 144, Backdrop: Backdrop{Seed: 41}, Figures: []Figure{strolling()}}, nil),
	}
}

// strolling crosses the picture for longer than a figure that acts may go without
// a hold.
func strolling() Figure {
	f := walker()
	f.Build.Height, f.Ground, f.X = 230, 140, -200
	f.Walks = []Walk{{Start: 16, Steps: 6, Frames: 17}}
	return f
}

// faultyClips have one fault each.
func faultyClips() []plantedShot {
	return []plantedShot{
		poppingClip(), hitchingClip(), deadClip(), hurriedClip(), restlessClip(), metronomeClip(), samenessClip(),
		repeatingClip(), weakClip(),
	}
}

// poppingClip has one frame of another pose amid a hold.
func poppingClip() plantedShot {
	const held = 2
	sh := playing(phrase(), true, held)
	keys := sh.Figures[0].Keys
	k := keys[held]
	at := k.From + 12
	popped := k.Pose
	popped.Near.Shoulder += 40
	before, after := k, k
	before.To, after.From, after.Ease = at-1, at+1, Linear
	sh.Figures[0].Keys = append(append([]Key{}, keys[:held]...), before, Key{From: at, Pose: popped, Ease: Linear}, after)
	sh.Figures[0].Keys = append(sh.Figures[0].Keys, keys[held+1:]...)
	return plantedShot{"pop", sh, "pop", int(at), int(at)}
}

// hitchingClip stops for a frame halfway through a move, in full swing.
func hitchingClip() plantedShot {
	list := phrase()
	half := mix(list[0].pose, list[1].pose, 0.5)
	list[1].move, list[1].ease = 7, EaseOut
	list = append(list[:1:1], append([]strike{{7, 2, half, EaseIn}}, list[1:]...)...)
	f, frames := player(list, true, stepping+1, 1)
	sh := Shot{Frames: frames, Backdrop: Backdrop{Seed: 40}, Figures: []Figure{f}}
	at := int(f.Keys[1].To)
	return plantedShot{"hitch", sh, "hitch", at, at}
}

// deadClip freezes for three and a half seconds where all its other holds are alive.
func deadClip() plantedShot {
	list := phrase()
	list[2].hold = 84
	sh := playing(list, true, 2)
	k := sh.Figures[0].Keys[2]
	return plantedShot{"dead-hold", sh, "dead-hold", int(k.From), int(k.To)}
}

// hurriedClip leaves a pose after four frames.
func hurriedClip() plantedShot {
	list := phrase()
	list[4].hold = 4
	sh := playing(list, true)
	k := sh.Figures[0].Keys[4]
	return plantedShot{"hold-too-short", sh, "hold-too-short", int(k.From), int(k.To)}
}

// restlessClip goes through its poses without holding one for over five seconds.
func restlessClip() plantedShot {
	list := []strike{{0, 16, poseEasy, EaseInOut}}
	for i, p := range []Pose{poseSalute, poseThink, posePoint, poseBack, poseCheer, poseThink, posePoint, poseCheer, poseBow, poseSalute} {
		list = append(list, strike{float64(9 + 2*(i%4)), 1, p, EaseInOut})
	}
	const halfway = 5
	list[halfway].move = 30
	last := len(list) - 1
	list[last].hold = 16
	f, frames := player(list, false, halfway)
	sh, keys := Shot{Frames: frames, Backdrop: Backdrop{Seed: 40}, Figures: []Figure{f}}, f.Keys
	return plantedShot{"long-without-hold", sh, "long-without-hold", int(keys[0].To) + 1, int(keys[last].From) - 1}
}

// metronome is how many frames apart the moves of the even clip set in.
const metronome = 36

// metronomeClip sets into a move again and again after the same time.
func metronomeClip() plantedShot {
	list := phrase()
	for i := 1; i+1 < len(list); i++ {
		list[i].hold = metronome + 1 - list[i].move
	}
	sh := playing(list, true)
	keys := sh.Figures[0].Keys
	return plantedShot{"even-timing", sh, "even-timing", int(keys[0].To) + 1, int(keys[len(keys)-2].To) + 1}
}

// samenessClip swings an arm there and back in uneven time.
func samenessClip() plantedShot {
	const none = -1 // steps: they would be of another size
	up := poseEasy
	up.Near.Shoulder = 80
	list := []strike{{0, 20, poseEasy, EaseInOut}}
	for i, hold := range []float64{12, 24, 16, 30, 10, 22} {
		p := up
		if i%2 == 1 {
			p = poseEasy
		}
		list = append(list, strike{6, hold, p, EaseInOut})
	}
	f, frames := player(list, true, none)
	sh, keys := Shot{Frames: frames, Backdrop: Backdrop{Seed: 40}, Figures: []Figure{f}}, f.Keys
	return plantedShot{"same-size-moves", sh, "same-size-moves", int(keys[0].To) + 1, int(keys[len(keys)-1].From) - 1}
}

// entering lets a figure come to where it acts in three steps, so that all of its outline
// is seen to leave its place, and step once more before its last pose but one, before it
// seems rooted.
func entering(list []strike) Shot {
	const walks, steps = 48, 4
	list[0].hold, list[1].hold, list[2].hold = walks+6, 10, 12
	list[steps-1].move, list[steps].move = 11, 30
	f, frames := player(list, true, steps)
	f.Build.Height, f.Ground, f.X = 200, 118, -180
	f.Walks = append([]Walk{{Start: 4, Steps: 3, Length: 0.4, Frames: 13}}, f.Walks...)
	f.Breaths[0].From = walks
	return Shot{Frames: frames, Backdrop: Backdrop{Seed: 40}, Figures: []Figure{f}}
}

// repeatingClip strikes one of its poses a second time, with another between.
func repeatingClip() plantedShot {
	list := phrase()
	list[3].pose = list[1].pose
	sh := entering(list)
	k := sh.Figures[0].Keys[3]
	return plantedShot{"repeated-pose", sh, "repeated-pose", int(k.From), int(k.To)}
}

// weakClip changes a pose for one whose outline is nearly the same: an arm goes from one
// place before the trunk to another.
func weakClip() plantedShot {
	list := phrase()
	low, high := poseEasy, poseEasy
	low.Far, high.Far = poseSalute.Far, poseSalute.Far
	low.Near, high.Near = Arm{4, 4, 0}, Arm{2, 110, 30}
	list[1].pose, list[2].pose, list[2].ease = low, high, EaseInOut
	sh := entering(list)
	k := sh.Figures[0].Keys[2]
	return plantedShot{"weak-pose-change", sh, "weak-pose-change", int(k.From), int(k.To)}
}
