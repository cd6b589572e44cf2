package scene

// cameraSpecs are the same acting under every kind of camera.
func cameraSpecs() []Spec {
	move := func(m CameraMove) Camera { return Camera{Moves: []CameraMove{m}} }
	hand := Shake{Reach: 6, Roll: 0.4, Seed: 3}
	cameras := []struct {
		name   string
		camera Camera
	}{
		{"pan", Camera{X: -60, Moves: []CameraMove{{From: 10, To: 110, DX: 140}}}},
		{"tilt", Camera{Y: -40, Moves: []CameraMove{{From: 10, To: 110, DY: 60}}}},
		{"push", move(CameraMove{From: 10, To: 110, Zoom: 1.35})},
		{"pull", Camera{Zoom: 1.3, Moves: []CameraMove{{From: 10, To: 110, Zoom: 1 / 1.3}}}},
		{"handheld", Camera{Shake: hand}},
		{"mixed", Camera{X: -30, Shake: hand, Moves: []CameraMove{{From: 0, To: 119, DX: 70, DY: -14, Zoom: 1.15, Roll: 2, Ease: Linear}}}},
	}
	var list []Spec
	for _, c := range cameras {
		list = append(list, one("camera-"+c.name, Shot{Frames: 120, Camera: c.camera, Figures: []Figure{acting()}}))
	}
	return list
}

// shotSpecs are clips of several shots, and changes that are no cuts.
func shotSpecs() []Spec {
	first := Shot{Frames: 72, Figures: []Figure{acting()}}
	second := Shot{Frames: 60, Backdrop: Backdrop{Style: Flat}, Figures: []Figure{oneArm()}}
	third := Shot{Frames: 60, Backdrop: Backdrop{Seed: 20}, Camera: Camera{Zoom: 1.5, X: 20, Y: -20}, Figures: []Figure{headTurn()}}
	joined := func(sh Shot, k JoinKind, frames int) Shot {
		sh.Join = Join{k, frames}
		return sh
	}
	fading := Shot{Frames: 120, FadeIn: 12, FadeOut: 16, Figures: []Figure{acting()}}
	flashing := Shot{Frames: 120, Figures: []Figure{acting()}, Flashes: []Flash{{22, 1}, {60, 2}, {88, 3}}}
	crossed := Shot{Frames: 120, Figures: []Figure{acting()}, Passes: []Pass{{From: 36, To: 42}, {From: 86, To: 91, Left: true}}}
	whip := Shot{Frames: 96, Camera: Camera{X: -20, Moves: []CameraMove{{From: 40, To: 47, DX: 560}}}, Figures: []Figure{acting(), whipped()}}
	return []Spec{
		{Name: "cuts", Shots: []Shot{first, second, third, {Frames: 36, Backdrop: Backdrop{Style: Preview}, Figures: []Figure{acting()}}}},
		{Name: "cut-same-set", Shots: []Shot{first, {Frames: 64, Camera: Camera{Zoom: 1.6, X: 20, Y: -30}, Figures: []Figure{acting()}}}},
		{Name: "dissolve", Shots: []Shot{first, joined(third, Dissolve, 12)}},
		{Name: "through-black", Shots: []Shot{first, joined(second, ThroughBlack, 8)}},
		one("fades", fading),
		one("flashes", flashing),
		one("lens-pass", crossed),
		one("whip-pan", whip),
	}
}

// whipped stands where the whip pan ends.
func whipped() Figure {
	return Figure{Name: "waiter", Ground: ground, X: 560, Look: Look{Palette: 1}, Shadow: 0.4, Keys: []Key{
		{From: 0, To: 62, Pose: poseEasy}, {From: 72, Pose: poseCheer},
	}}
}
