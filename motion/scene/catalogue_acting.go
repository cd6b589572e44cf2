package scene

// actingSpecs are figures that act on the spot.
func actingSpecs() []Spec {
	with := func(change func(*Figure)) []Figure {
		f := acting()
		change(&f)
		return []Figure{f}
	}
	plain := []Figure{acting()}
	return []Spec{
		one("acting", Shot{Frames: 120, Figures: plain}),
		one("acting-cartoon", Shot{Frames: 120, Backdrop: Backdrop{Style: Flat}, Figures: with(func(f *Figure) { f.Build = Cartoon(190) })}),
		one("acting-line", Shot{Frames: 120, Backdrop: Backdrop{Style: Line}, Figures: with(func(f *Figure) { f.Shadow = 0 })}),
		one("acting-preview", Shot{Frames: 120, Backdrop: Backdrop{Style: Preview}, Figures: plain}),
		one("acting-low-contrast", Shot{Frames: 120, Figures: with(func(f *Figure) { f.Look.Scheme = LowContrast })}),
		one("acting-similar-hue", Shot{Frames: 120, Figures: with(func(f *Figure) { f.Look.Scheme = SimilarHue })}),
		one("acting-small", Shot{Frames: 120, Figures: with(func(f *Figure) { f.Build.Height = 100 })}),
		one("acting-close", Shot{Frames: 120, Figures: with(func(f *Figure) { f.Build.Height, f.Ground, f.X = 420, 300, 0 })}),
		one("one-arm", Shot{Frames: 96, Backdrop: Backdrop{Seed: 2}, Figures: []Figure{oneArm()}}),
		one("head-turn", Shot{Frames: 96, Backdrop: Backdrop{Seed: 3}, Figures: []Figure{headTurn()}}),
		one("moving-holds", Shot{Frames: 168, Backdrop: Backdrop{Seed: 4}, Figures: []Figure{movingHolds()}}),
		one("rooted", Shot{Frames: 144, Backdrop: Backdrop{Seed: 5}, Figures: []Figure{rooted()}}),
		one("two-figures", Shot{Frames: 144, Backdrop: Backdrop{Seed: 6}, Figures: twoActing()}),
		{Name: "acting-12fps", Rate: FPS(12), Shots: []Shot{{Frames: 60, Figures: with(func(f *Figure) { *f = f.timed(0.5) })}}},
		{Name: "acting-30fps", Rate: Rate{30000, 1001}, Shots: []Shot{{Frames: 150, Figures: with(func(f *Figure) { *f = f.timed(1.25) })}}},
		{Name: "acting-60fps", Rate: FPS(60), Shots: []Shot{{Frames: 228, Figures: with(func(f *Figure) { *f = f.timed(1.9) })}}},
	}
}

// oneArm moves nothing but the arm on the near side.
func oneArm() Figure {
	p := func(shoulder, elbow float64) Pose {
		q := poseEasy
		q.Near = Arm{shoulder, elbow, 8}
		return q
	}
	return Figure{Name: "waver", Ground: ground, X: -30, Look: Look{Palette: 1}, Shadow: 0.4, Keys: []Key{
		{From: 0, To: 16, Pose: p(6, 12)},
		{From: 26, To: 40, Pose: p(120, 30)},
		{From: 45, To: 54, Pose: p(120, 80)},
		{From: 59, To: 68, Pose: p(120, 30)},
		{From: 80, Pose: p(6, 12), Ease: EaseOut},
	}}
}

// headTurn moves nothing but the head.
func headTurn() Figure {
	p := func(turn, tilt float64) Pose {
		q := poseEasy
		q.Turn, q.Tilt = turn, tilt
		return q
	}
	return Figure{Name: "watcher", Ground: ground, X: 30, Look: Look{Palette: 2}, Keys: []Key{
		{From: 0, To: 18, Pose: p(0.9, 0)},
		{From: 24, To: 44, Pose: p(-1, 4)},
		{From: 50, To: 66, Pose: p(0, -14)},
		{From: 71, Pose: p(0.9, 8), Ease: EaseOut},
	}}
}

// movingHolds breathes and drifts in its holds, below the threshold.
func movingHolds() Figure {
	drift := poseThink
	drift.Lean += 4
	drift.Near.Shoulder -= 4
	return Figure{Name: "thinker", Ground: ground, X: -10, Shadow: 0.4, Keys: []Key{
		{From: 0, To: 40, Pose: poseEasy},
		{From: 52, To: 53, Pose: poseThink},
		{From: 98, To: 99, Pose: drift, Ease: Linear},
		{From: 110, Pose: poseBack, Ease: EaseOut},
	}, Breaths: []Breath{
		{From: 0, To: 40, Lean: 1.1, Period: 60},
		{From: 110, To: 167, Lean: 1.1, Period: 60},
	}}
}

// rooted sways and bends but never lifts a foot.
func rooted() Figure {
	sway := Pose{Shift: 0.05, Lean: 6, Tilt: -4, Near: Arm{24, 40, 0}, Far: Arm{12, 60, 0}}
	return Figure{Name: "talker", Ground: ground, X: 0, Look: Look{Palette: 1}, Shadow: 0.5, Keys: []Key{
		{From: 0, To: 10, Pose: poseEasy},
		{From: 20, To: 28, Pose: sway},
		{From: 40, To: 50, Pose: poseSquat},
		{From: 60, To: 70, Pose: poseThink, Ease: EaseOut},
		{From: 84, To: 92, Pose: sway, Ease: Overshoot},
		{From: 104, To: 120, Pose: poseBack},
		{From: 132, Pose: poseEasy},
	}}
}

// twoActing are two figures that face each other and act in turn.
func twoActing() []Figure {
	a := Figure{Name: "caller", Ground: ground, X: -110, Shadow: 0.5, Keys: []Key{
		{From: 0, To: 14, Pose: poseEasy}, {From: 24, To: 80, Pose: poseCheer}, {From: 92, Pose: poseEasy},
	}}
	b := Figure{Name: "answerer", Ground: ground + 6, X: 110, Left: true, Look: Look{Palette: 1}, Build: Build{Height: 180}, Shadow: 0.5, Keys: []Key{
		{From: 0, To: 50, Pose: poseThink}, {From: 60, To: 110, Pose: posePoint}, {From: 120, Pose: poseBow, Ease: EaseOut},
	}}
	return []Figure{a, b}
}

// exposureSpecs are figures on twos, threes and in stepped poses, and clips
// whose whole pictures repeat.
func exposureSpecs() []Spec {
	on := func(list ...Stretch) []Figure {
		f := acting()
		f.Exposure = list
		return []Figure{f}
	}
	pan := Camera{X: -50, Moves: []CameraMove{{From: 0, To: 119, DX: 100, Ease: Linear}}}
	plain := []Figure{acting()}
	breathing := movingHolds()
	breathing.Exposure = []Stretch{{From: 0, To: 167, On: 2}}
	return []Spec{
		one("twos", Shot{Frames: 120, Figures: on(Stretch{To: 119, On: 2})}),
		one("threes", Shot{Frames: 120, Backdrop: Backdrop{Style: Flat}, Figures: on(Stretch{To: 119, On: 3})}),
		one("stepped", Shot{Frames: 120, Backdrop: Backdrop{Style: Preview}, Figures: on(Stretch{To: 119, Stepped: true})}),
		one("ones-twos-threes", Shot{Frames: 120, Figures: on(Stretch{From: 50, To: 85, On: 2}, Stretch{From: 86, To: 119, On: 3})}),
		one("twos-camera-on-ones", Shot{Frames: 120, Camera: pan, Figures: on(Stretch{To: 119, On: 2})}),
		one("moving-holds-on-twos", Shot{Frames: 168, Backdrop: Backdrop{Seed: 4}, Figures: []Figure{breathing}}),
		{Name: "conform-24-in-30", Rate: FPS(30), Conform: Conform{New: 4, Of: 5}, Condition: Condition{Noise: 3}, Shots: []Shot{{Frames: 120, Camera: pan, Figures: plain}}},
		{Name: "conform-12-in-24", Rate: FPS(24), Conform: Conform{New: 1, Of: 2}, Condition: Condition{Noise: 3}, Shots: []Shot{{Frames: 60, Figures: []Figure{acting().timed(0.5)}}}},
	}
}
