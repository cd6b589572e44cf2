package scene

import "image"

// Demo returns the clip that a newcomer sees first: a lamplighter on the evening
// round, two shots, 252 frames at 24 a second, 960x540. It holds, moves, walks,
// breathes, hops, slips, and bows on twos.
func Demo() (*Scene, error) { return DemoSize(image.Pt(960, 540)) }

// DemoSize is Demo at another size, both sides even.
func DemoSize(size image.Point) (*Scene, error) {
	return New(Spec{
		Name: "lamplighter", Width: size.X, Height: size.Y, Seed: 1,
		Condition: Condition{Noise: 0.8},
		Shots:     []Shot{demoRound(), demoJoy()},
	})
}

// demoRound: looks round, salutes a lamp, walks on to the next one.
func demoRound() Shot {
	look := poseEasy
	look.Turn, look.Tilt = -1, -6
	return Shot{
		Frames:   140,
		Backdrop: Backdrop{Seed: 31},
		Camera:   Camera{X: -50, Zoom: 1.05, Moves: []CameraMove{{From: 68, To: 132, DX: 110}}},
		Figures: []Figure{{
			Name: "lamplighter", Build: Build{Height: 190}, Ground: ground + 4, X: -120, Shadow: 0.55,
			Keys: []Key{
				{From: 0, To: 22, Pose: poseEasy},
				{From: 28, To: 38, Pose: look},
				{From: 47, To: 62, Pose: poseSalute, Ease: Overshoot},
				{From: 72, Pose: poseEasy},
			},
			Breaths: []Breath{{From: 0, To: 22, Lean: 0.5, Period: 44}},
			Walks:   []Walk{{Start: 74, Steps: 5, Length: 0.29, Frames: 10}},
		}},
	}
}

// demoJoy: hops twice, slips on the wet stones, and bows on twos.
func demoJoy() Shot {
	slip := Pose{Near: Arm{70, 30, 0}, Far: Arm{96, 24, 0}, Lean: -13, Tilt: 10, Crouch: 0.06, Shift: -0.04}
	return Shot{
		Frames:   112,
		Backdrop: Backdrop{Seed: 77},
		Camera:   Camera{X: 0, Y: 6, Zoom: 1.2},
		Figures: []Figure{{
			Name: "lamplighter", Build: Build{Height: 190}, Ground: ground + 8, X: -96, Shadow: 0.55,
			Keys: []Key{
				{From: 0, To: 8, Pose: poseEasy},
				{From: 16, To: 40, Pose: poseCheer},
				{From: 47, To: 68, Pose: slip, Ease: EaseOut},
				{From: 76, To: 84, Pose: poseEasy},
				{From: 94, Pose: poseBow},
			},
			Hops:     []Hop{{Takeoff: 14, Air: 8}, {Takeoff: 29, Air: 10, Travel: 0.3}},
			Slips:    []Slip{{From: 46, To: 58, Share: 0.28}},
			Exposure: []Stretch{{From: 80, To: 111, On: 2}},
		}},
	}
}
