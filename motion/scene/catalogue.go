package scene

import "image"

// Poses that the catalogue's figures take.
var (
	poseEasy   = Pose{Near: Arm{6, 12, 0}, Far: Arm{4, 10, 0}}
	poseSalute = Pose{Near: Arm{112, 96, 10}, Far: Arm{-8, 14, 0}, Lean: -4, Tilt: -6}
	posePoint  = Pose{Near: Arm{4, 14, 0}, Far: Arm{88, 6, 0}, Lean: 7, Turn: 0.8, Crouch: 0.02, Shift: 0.02}
	poseBow    = Pose{Near: Arm{-34, 30, 0}, Far: Arm{24, 60, 0}, Lean: 34, Tilt: 16, Crouch: 0.05, Shift: -0.03}
	poseCheer  = Pose{Near: Arm{158, 14, 0}, Far: Arm{150, 18, 0}, Lean: -7, Tilt: -12}
	poseThink  = Pose{Near: Arm{38, 122, 0}, Far: Arm{30, 78, 0}, Lean: 3, Tilt: 10, Turn: -0.4}
	poseBack   = Pose{Near: Arm{-20, 16, 0}, Far: Arm{-14, 16, 0}, Lean: -10, Turn: -1, Shift: -0.03}
)

// Catalogue returns named scenes of the given size.
func Catalogue(size image.Point) ([]*Scene, error) {
	specs := []Spec{
		{Name: "acting", Shots: []Shot{{Frames: 120, Figures: []Figure{acting()}}}},
		{Name: "acting-pan", Shots: []Shot{{Frames: 120, Figures: []Figure{acting()}, Camera: Camera{X: -60, Moves: []CameraMove{{From: 10, To: 110, DX: 120}}}}}},
	}
	var list []*Scene
	for _, s := range specs {
		s.Width, s.Height = size.X, size.Y
		sc, err := New(s)
		if err != nil {
			return nil, err
		}
		list = append(list, sc)
	}
	return list, nil
}

func acting() Figure {
	return Figure{Name: "lamplighter", Ground: 118, X: 10, Shadow: 0.5, Keys: []Key{
		{From: 0, To: 20, Pose: poseEasy},
		{From: 30, To: 48, Pose: poseSalute, Ease: EaseInOut},
		{From: 56, To: 70, Pose: posePoint, Ease: EaseOut},
		{From: 82, To: 96, Pose: poseBow, Ease: Overshoot},
		{From: 104, Pose: poseCheer, Ease: EaseIn},
	}}
}
