package scene

import (
	"image"
	"slices"
)

// Catalogue returns the named scenes at the given size, which must be even:
// everything that the measuring rooms have to cope with, one thing at a time.
// Each is 48 to 240 frames. With adds a condition to any of them.
func Catalogue(size image.Point) ([]*Scene, error) {
	var list []*Scene
	for _, s := range slices.Concat(actingSpecs(), exposureSpecs(), feetSpecs(), ballSpecs(), cameraSpecs(), shotSpecs()) {
		s.Width, s.Height = size.X, size.Y
		sc, err := New(s)
		if err != nil {
			return nil, err
		}
		list = append(list, sc)
	}
	return list, nil
}

// one is a scene of a single shot.
func one(name string, sh Shot) Spec { return Spec{Name: name, Shots: []Shot{sh}} }

// ground is where the catalogue's figures stand.
const ground = 118

// Poses that the catalogue's figures take.
var (
	poseEasy   = Pose{Near: Arm{6, 12, 0}, Far: Arm{4, 10, 0}}
	poseSalute = Pose{Near: Arm{88, 118, 10}, Far: Arm{-8, 14, 0}, Lean: -4, Tilt: -6}
	posePoint  = Pose{Near: Arm{4, 14, 0}, Far: Arm{88, 6, 0}, Lean: 7, Turn: 0.8, Crouch: 0.02, Shift: 0.02}
	poseBow    = Pose{Near: Arm{-34, 30, 0}, Far: Arm{24, 60, 0}, Lean: 34, Tilt: 16, Crouch: 0.05, Shift: -0.03}
	poseCheer  = Pose{Near: Arm{158, 14, 0}, Far: Arm{150, 18, 0}, Lean: -7, Tilt: -12}
	poseThink  = Pose{Near: Arm{38, 122, 0}, Far: Arm{30, 78, 0}, Lean: 3, Tilt: 10, Turn: -0.4}
	poseBack   = Pose{Near: Arm{-20, 16, 0}, Far: Arm{-14, 16, 0}, Lean: -10, Turn: -1, Shift: -0.03}
	poseSquat  = Pose{Near: Arm{30, 50, 0}, Far: Arm{40, 50, 0}, Lean: 16, Tilt: -8, Crouch: 0.14, Shift: -0.02}
	poseKick   = Pose{Near: Arm{-26, 20, 0}, Far: Arm{36, 26, 0}, Lean: -9, FarFoot: Foot{Forward: 0.22, Lift: 0.16, Roll: -18}}
)

// acting is a figure that goes through four poses with four eases in 120
// frames, every hold frozen.
func acting() Figure {
	return Figure{Name: "lamplighter", Ground: ground, X: 10, Shadow: 0.5, Keys: []Key{
		{From: 0, To: 20, Pose: poseEasy},
		{From: 30, To: 48, Pose: poseSalute, Ease: EaseInOut},
		{From: 56, To: 70, Pose: posePoint, Ease: EaseOut},
		{From: 80, To: 96, Pose: poseBow, Ease: Overshoot},
		{From: 104, Pose: poseCheer, Ease: EaseIn},
	}}
}

// timed returns the figure with its acting slowed down k times.
func (f Figure) timed(k float64) Figure {
	keys := slices.Clone(f.Keys)
	for i := range keys {
		keys[i].From, keys[i].To = float64(int(keys[i].From*k)), float64(int(keys[i].To*k))
	}
	f.Keys = keys
	return f
}
