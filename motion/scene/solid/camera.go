package solid

import (
	"math"
	"math/cmplx"

	"holdfast/motion/scene"
	"holdfast/motion/scene/capture"
)

// A Vec is a place or a way in the world, metres: x to the right of a camera
// that looks straight at the wall, y up, z towards it.
type Vec = capture.Vec

// A Camera is a perspective camera on a tripod, on rails or in a hand.
type Camera struct {
	At, Aim Vec     // where it stands and what point it looks at in the beginning
	Lens    float64 // angle of view from top to bottom, degrees; 0 means 36
	Moves   []Move
	Follow  bool // pans so that the first figure's way from first to last frame stays in the middle
	Shake   scene.Shake
}

// A Move goes from second From to second To, slow at both ends.
type Move struct {
	From, To        float64
	Pan, Tilt, Roll float64 // degrees: to the right, up, clockwise as seen
	Zoom            float64 // last over first scale; 0 means 1
	Travel          Vec     // metres
}

// A view is a camera at one instant: a point at right, up and ahead of it is
// seen at (cx + focal*right/ahead, cy - focal*up/ahead).
type view struct {
	at               Vec
	right, up, ahead Vec
	focal            float64 // pixels
	cx, cy           float64
}

// nearest is the least distance at which things are seen, metres.
const nearest = 0.1

// project returns where p is seen and how far ahead of the camera it is; what
// lies behind the camera is seen nowhere sensible.
func (v *view) project(p Vec) (at scene.Point, ahead float64) {
	d := p.Sub(v.at)
	ahead = d.Dot(v.ahead)
	k := v.focal / math.Max(ahead, nearest)
	return scene.Point{X: v.cx + k*d.Dot(v.right), Y: v.cy - k*d.Dot(v.up)}, ahead
}

// ray returns the way from the camera through a point of the picture, of length
// 1 ahead.
func (v *view) ray(x, y float64) Vec {
	return v.ahead.Add(v.right.Times((x - v.cx) / v.focal)).Sub(v.up.Times((y - v.cy) / v.focal))
}

// lens is the angle of view of a camera that says none, degrees.
const lens = 36

// viewAt returns the view at an instant for a picture of w by h pixels. Off is
// how far the aim has gone from its beginning.
func (c *Camera) viewAt(seconds float64, off Vec, w, h int) view {
	angle := c.Lens
	if angle == 0 {
		angle = lens
	}
	v := view{at: c.At, focal: float64(h) / 2 / math.Tan(angle*math.Pi/360), cx: float64(w) / 2, cy: float64(h) / 2}
	d := c.Aim.Add(off).Sub(c.At).Unit()
	pan, tilt, roll := math.Atan2(d.X, -d.Z), math.Asin(d.Y), 0.0
	for _, m := range c.Moves {
		u := ease(max(0, min(1, (seconds-m.From)/(m.To-m.From))))
		pan, tilt, roll = pan+u*m.Pan*math.Pi/180, tilt+u*m.Tilt*math.Pi/180, roll+u*m.Roll*math.Pi/180
		v.at = v.at.Add(m.Travel.Times(u))
		if m.Zoom > 0 {
			v.focal *= math.Pow(m.Zoom, u)
		}
	}
	if c.Shake != (scene.Shake{}) {
		x, y, turn := c.Shake.At(seconds)
		unit := float64(h) / scene.StageHeight / v.focal
		pan, tilt, roll = pan+x*unit, tilt-y*unit, roll+turn*math.Pi/180
	}
	v.turn(pan, tilt, roll)
	return v
}

// turn sets the axes from angles in radians.
func (v *view) turn(pan, tilt, roll float64) {
	sp, cp := math.Sincos(pan)
	st, ct := math.Sincos(tilt)
	v.ahead = Vec{X: sp * ct, Y: st, Z: -cp * ct}
	right := Vec{X: cp, Z: sp}
	up := right.Cross(v.ahead)
	s, c := math.Sincos(roll)
	// A picture turned clockwise is a camera turned the other way.
	v.right = right.Times(c).Add(up.Times(s))
	v.up = up.Times(c).Sub(right.Times(s))
}

// kind names the camera in the words of the sheet.
func (c *Camera) kind() string {
	var kinds []string
	add := func(is bool, name string) {
		if is {
			kinds = append(kinds, name)
		}
	}
	pan, tilt, push, roll := c.Follow, false, 0.0, false
	for _, m := range c.Moves {
		pan = pan || m.Pan != 0 || m.Travel.X != 0
		tilt = tilt || m.Tilt != 0 || m.Travel.Y != 0
		roll = roll || m.Roll != 0
		push -= m.Travel.Z
		if m.Zoom > 0 {
			push += math.Log(m.Zoom)
		}
	}
	add(pan, "pan")
	add(tilt, "tilt")
	add(push > 0, "push")
	add(push < 0, "pull")
	add(roll, "mixed")
	add(c.Shake != (scene.Shake{}), "handheld")
	switch len(kinds) {
	case 0:
		return "still"
	case 1:
		return kinds[0]
	}
	return "mixed"
}

// stepGrid is how many points across and down the picture a step is taken over.
const stepGrid = 16

// stepFrom is the step from view b to view v: of all similarities the one that
// comes nearest, in the mean square over the picture, to where its points go. A
// camera that turns moves points at the sides farther than those in the middle,
// by a tenth with a usual lens. It is known while the camera only turns and
// zooms: a camera that travels moves near and far things by different ways, and
// no one step is true.
func (v *view) stepFrom(b *view) scene.CameraStep {
	if v.at != b.at {
		return scene.CameraStep{Zoom: 1}
	}
	// With complex numbers from the middle of the picture p goes to m*p + d; the
	// points of the grid have no mean, so d is that of where they go.
	var d, m complex128
	var square float64
	for i := range stepGrid {
		for k := range stepGrid {
			x, y := b.cx*(2*(float64(i)+0.5)/stepGrid-1), b.cy*(2*(float64(k)+0.5)/stepGrid-1)
			now, _ := v.project(b.at.Add(b.ray(b.cx+x, b.cy+y)))
			q := complex(now.X-b.cx, now.Y-b.cy)
			d += q / (stepGrid * stepGrid)
			m += complex(x, -y) * q
			square += x*x + y*y
		}
	}
	m /= complex(square, 0)
	return scene.CameraStep{DX: -real(d), DY: -imag(d), Roll: cmplx.Phase(m) * 180 / math.Pi, Zoom: cmplx.Abs(m), Known: true}
}
