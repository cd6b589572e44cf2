package scene

// feetSpecs are figures that walk, slide and hop.
func feetSpecs() []Spec {
	follow := func(from, to, dx float64) Camera {
		return Camera{X: -dx / 2, Moves: []CameraMove{{From: from, To: to, DX: dx, Ease: Linear}}}
	}
	line := walker()
	line.Shadow = 0
	still := walker()
	still.X, still.Keys = -130, []Key{{From: 0, To: 36, Pose: poseThink}, {From: 46, Pose: poseEasy}}
	still.Walks = []Walk{{Start: 68, Steps: 7}}
	slide, bad, back := walker(), walker(), walker()
	slide.Walks = []Walk{{Start: 20, Steps: 8, Length: 0.28, Slide: 0.07}}
	bad.Walks = []Walk{{Start: 20, Steps: 10, Slide: 0.12, OnStep: 5}}
	back.Walks = []Walk{{Start: 20, Steps: 8, Slide: -0.08}}
	small, big, twos := walker(), walker(), walker()
	small.Build, big.Build = SmallFeet(150), Cartoon(170)
	twos.Exposure = []Stretch{{To: 167, On: 2}}
	near := walker()
	near.Build.Height, near.Ground, near.X = 330, 236, -150
	near.Walks = []Walk{{Start: 20, Steps: 4, Frames: 14}}
	return []Spec{
		one("walk", Shot{Frames: 168, Figures: []Figure{walker()}}),
		one("walk-line", Shot{Frames: 168, Backdrop: Backdrop{Style: Line}, Figures: []Figure{line}}),
		one("walk-preview", Shot{Frames: 168, Backdrop: Backdrop{Style: Preview}, Figures: []Figure{walker()}}),
		one("walk-pan", Shot{Frames: 168, Camera: follow(10, 150, 300), Figures: []Figure{walker()}}),
		one("walk-push", Shot{Frames: 168, Camera: Camera{Moves: []CameraMove{{From: 0, To: 160, Zoom: 1.25}}}, Figures: []Figure{walker()}}),
		one("walk-small-feet", Shot{Frames: 168, Backdrop: Backdrop{Style: Flat}, Figures: []Figure{small}}),
		one("walk-big-feet", Shot{Frames: 168, Backdrop: Backdrop{Style: Flat}, Figures: []Figure{big}}),
		one("walk-twos-pan", Shot{Frames: 168, Camera: follow(0, 167, 300), Figures: []Figure{twos}}),
		one("walk-feet-out-of-frame", Shot{Frames: 96, Figures: []Figure{near}}),
		one("stand-then-walk", Shot{Frames: 168, Backdrop: Backdrop{Seed: 8}, Figures: []Figure{still}}),
		one("slide", Shot{Frames: 144, Backdrop: Backdrop{Seed: 9}, Figures: []Figure{slide}}),
		one("slide-backwards", Shot{Frames: 144, Backdrop: Backdrop{Seed: 9}, Figures: []Figure{back}}),
		one("slide-one-plant", Shot{Frames: 168, Backdrop: Backdrop{Seed: 10}, Figures: []Figure{bad}}),
		one("two-passing", Shot{Frames: 168, Backdrop: Backdrop{Seed: 11}, Figures: passing()}),
		one("hops", Shot{Frames: 168, Backdrop: Backdrop{Seed: 12}, Figures: []Figure{hopper(Build{Height: 180})}}),
		one("hops-cartoon", Shot{Frames: 168, Backdrop: Backdrop{Style: Flat}, Figures: []Figure{hopper(Cartoon(170))}}),
		one("hop-floaty", Shot{Frames: 96, Backdrop: Backdrop{Style: Preview}, Figures: []Figure{floaty()}}),
		one("kick", Shot{Frames: 96, Backdrop: Backdrop{Seed: 13}, Figures: []Figure{kicker()}}),
	}
}

// walker crosses the picture from left to right, standing before and after.
func walker() Figure {
	return Figure{Name: "walker", Build: Build{Height: 150}, Ground: ground, X: -210, Shadow: 0.5,
		Keys: []Key{{Pose: poseEasy}}, Walks: []Walk{{Start: 20, Steps: 11}}}
}

// passing are two figures that cross, the second behind the first.
func passing() []Figure {
	a, b := walker(), walker()
	a.Name, a.Ground, a.X, a.Left, a.Build.Height = "goer", ground-10, 200, true, 140
	a.Look.Palette = 1
	a.Walks = []Walk{{Start: 18, Steps: 10}}
	b.Name, b.Ground, b.X = "comer", ground+8, -200
	b.Walks = []Walk{{Start: 28, Steps: 10}}
	return []Figure{a, b}
}

// hopper hops three times, small to big, the last one forwards; rise is what
// gravity gives.
func hopper(b Build) Figure {
	return Figure{Name: "hopper", Build: b, Ground: ground, X: -60, Shadow: 0.5,
		Keys: []Key{{From: 0, To: 20, Pose: poseEasy}, {From: 28, To: 148, Pose: poseCheer}, {From: 158, Pose: poseEasy}},
		Hops: []Hop{{Takeoff: 36.5, Air: 7}, {Takeoff: 74, Air: 9.5}, {Takeoff: 114.25, Air: 12, Travel: 0.5}}}
}

// floaty stays up too long for its height.
func floaty() Figure {
	return Figure{Name: "floater", Build: Build{Height: 180}, Ground: ground, Shadow: 0.5,
		Keys: []Key{{Pose: poseEasy}}, Hops: []Hop{{Takeoff: 40, Air: 18, Rise: 0.12}}}
}

// kicker lifts one foot and puts it back.
func kicker() Figure {
	return Figure{Name: "kicker", Ground: ground, X: -20, Look: Look{Palette: 2}, Shadow: 0.5, Keys: []Key{
		{From: 0, To: 20, Pose: poseEasy}, {From: 28, To: 44, Pose: poseKick}, {From: 54, To: 70, Pose: poseEasy}, {From: 80, Pose: poseBack},
	}}
}

// ballSpecs are things that bounce.
func ballSpecs() []Spec {
	drop := Ball{Name: "ball", Radius: 22, Ground: ground, Drop: 190, Start: 8, Restitution: 0.72, Bounces: 6, Shadow: 0.5}
	across := drop
	across.X, across.Speed, across.Restitution, across.Radius = -260, 4.2, 0.8, 18
	soft := drop
	soft.Restitution, soft.Bounces = 0.5, 4
	return []Spec{
		one("ball-drop", Shot{Frames: 144, Balls: []Ball{drop}}),
		one("ball-across", Shot{Frames: 120, Backdrop: Backdrop{Style: Flat}, Balls: []Ball{across}}),
		one("ball-soft", Shot{Frames: 96, Backdrop: Backdrop{Style: Preview}, Balls: []Ball{soft}}),
	}
}
