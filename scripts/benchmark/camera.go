package main

import (
	"fmt"
	"math"

	"holdfast/motion/camera"
	"holdfast/motion/scene"
)

// cameraListed is the mean error, in displayed pixels a frame, above which a
// clip is listed.
const cameraListed = 0.1

// judgeCamera compares the camera's step to each frame that shows the same
// shot as the one before.
func judgeCamera(t *trial) {
	worst, at := 0.0, 0
	for i, c := range t.truth.Camera {
		if i == 0 || !c.Known || i >= len(t.result.Curve.Camera) {
			continue
		}
		found := t.result.Curve.Camera[i]
		found.DX, found.DY = found.DX*t.scale, found.DY*t.scale
		shift, spread := cameraError(c, found, t.size.X, t.size.Y)
		t.score.Shift.include(shift)
		t.score.Spread.include(spread)
		if shift > worst {
			worst, at = shift, i
		}
	}
	if m := t.score.Shift.Value(); m > cameraListed {
		t.fault("camera", fmt.Sprintf("%.1f px", cameraListed), fmt.Sprintf("%.3f px, most on %d: %.2f px", m, at, worst))
	}
}

// cameraError is the distance between where two steps put points of a w by h
// picture, pixels: shift is that of its middle, spread the root mean square
// over all of it. The difference of two similarities moves p by d + M(p), M a
// turn times a scale m, so with coordinates from the middle the mean square is
// |d|² + m²(w²+h²)/12.
func cameraError(a scene.CameraStep, b camera.Step, w, h int) (shift, spread float64) {
	shift = math.Hypot(a.DX-b.DX, a.DY-b.DY)
	sa, ca := math.Sincos(a.Roll * math.Pi / 180)
	sb, cb := math.Sincos(b.Roll * math.Pi / 180)
	m := math.Hypot(a.Zoom*ca-b.Zoom*cb, a.Zoom*sa-b.Zoom*sb)
	return shift, math.Sqrt(shift*shift + m*m*float64(w*w+h*h)/12)
}

// judgeCameraKind compares what each shot's camera does, in one word. A shot
// that was not found as such is wrong.
func judgeCameraKind(t *trial) {
	for _, s := range t.truth.Shots {
		got := "no such shot"
		for _, r := range t.result.Shots {
			if r.Start == s.Start && r.End == s.End {
				got = r.Camera.Kind
			}
		}
		t.score.Kind.count(got == s.Kind)
		if got != s.Kind {
			t.fault("camera kind", fmt.Sprintf("%s in %d-%d", s.Kind, s.Start, s.End), got)
		}
	}
}
