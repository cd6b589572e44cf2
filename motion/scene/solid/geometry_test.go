package solid

import (
	"math"
	"testing"

	"holdfast/motion/scene"
)

func near(a, b, within float64) bool { return math.Abs(a-b) <= within }

// halfLens makes a focal length of one picture's height: tan of half the angle
// is a half.
var halfLens = 2 * math.Atan(0.5) * 180 / math.Pi

// Worked by hand: at five metres and 360 pixels a metre is 72 pixels wide.
func TestProject(t *testing.T) {
	level := Camera{At: Vec{Y: 1, Z: 5}, Aim: Vec{Y: 1}, Lens: halfLens}
	right := Camera{At: Vec{Y: 1}, Aim: Vec{X: 3, Y: 1}, Lens: halfLens}
	down := Camera{At: Vec{Y: 4, Z: 3}, Lens: halfLens} // looks down by 3:4:5
	zoomed := level
	zoomed.Moves = []Move{{From: 0, To: 1, Zoom: 2}}
	rolled := level
	rolled.Moves = []Move{{From: 0, To: 1, Roll: 90}}
	for _, c := range []struct {
		name    string
		camera  Camera
		p       Vec
		x, y, d float64
	}{
		{"middle", level, Vec{Y: 1}, 320, 180, 5},
		{"to the right", level, Vec{X: 1, Y: 1}, 392, 180, 5},
		{"up and near", level, Vec{Y: 2, Z: 2}, 320, 60, 3},
		{"turned right", right, Vec{X: 2, Y: 1, Z: 1}, 500, 180, 2},
		{"looking down, aim", down, Vec{}, 320, 180, 5},
		{"looking down, up", down, Vec{Y: 1}, 320, 180 - 360*0.6/4.2, 4.2},
		{"zoomed", zoomed, Vec{X: 1, Y: 1}, 464, 180, 5},
		{"rolled", rolled, Vec{X: 1, Y: 1}, 320, 252, 5},
	} {
		v := c.camera.viewAt(1, Vec{}, 640, 360)
		got, ahead := v.project(c.p)
		if !near(got.X, c.x, 1e-9) || !near(got.Y, c.y, 1e-9) || !near(ahead, c.d, 1e-9) {
			t.Errorf("%s: seen at %v, %g ahead, want %g, %g, %g", c.name, got, ahead, c.x, c.y, c.d)
		}
		back, _ := v.project(v.at.Add(v.ray(got.X, got.Y).Times(7)))
		if !near(back.X, got.X, 1e-9) || !near(back.Y, got.Y, 1e-9) {
			t.Errorf("%s: the ray through %v is seen at %v", c.name, got, back)
		}
	}
}

func TestCameraStep(t *testing.T) {
	base := Camera{At: Vec{Y: 1, Z: 5}, Aim: Vec{Y: 1}, Lens: halfLens}
	for _, c := range []struct {
		name string
		move Move
		want scene.CameraStep
	}{
		// The middle goes by 360*tan(1 degree) = 6.28 pixels, the sides by more;
		// least squares over 400 by 400 points, reckoned apart from this code.
		{"pan", Move{Pan: 1}, scene.CameraStep{DX: 7.9396, Zoom: 1.000397, Known: true}},
		{"tilt", Move{Tilt: -1}, scene.CameraStep{DY: 6.8077, Zoom: 1.000219, Known: true}},
		{"roll", Move{Roll: 2}, scene.CameraStep{Roll: 2, Zoom: 1, Known: true}},
		{"zoom", Move{Zoom: 1.05}, scene.CameraStep{Zoom: 1.05, Known: true}},
		{"travel", Move{Travel: Vec{X: 0.1}}, scene.CameraStep{Zoom: 1}},
	} {
		moved := base
		c.move.To = 1
		moved.Moves = []Move{c.move}
		a, b := base.viewAt(0, Vec{}, 640, 360), moved.viewAt(1, Vec{}, 640, 360)
		got := b.stepFrom(&a)
		// A grid of 16 instead of 400 loses the edges' last part.
		if !near(got.DX, c.want.DX, 0.01) || !near(got.DY, c.want.DY, 0.01) || !near(got.Roll, c.want.Roll, 1e-3) ||
			!near(got.Zoom, c.want.Zoom, 1e-5) || got.Known != c.want.Known {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// Worked by hand on an upright capsule and on a cone whose larger ball is below.
func TestMeet(t *testing.T) {
	post := cone{a: Vec{Y: -1}, b: Vec{Y: 1}, ra: 0.5, rb: 0.5, side: Vec{X: 1}}
	drop := cone{a: Vec{}, b: Vec{Y: 2}, ra: 1, rb: 0.25, side: Vec{X: 1}}
	ahead := Vec{Z: -1}
	for _, c := range []struct {
		name   string
		cone   cone
		from   Vec
		far    float64
		normal Vec
	}{
		{"side", post, Vec{Z: 5}, 4.5, Vec{Z: 1}},
		{"off the middle", post, Vec{X: 0.3, Y: 0.5, Z: 5}, 4.6, Vec{X: 0.6, Z: 0.8}},
		{"end ball", post, Vec{Y: 1.3, Z: 5}, 4.6, Vec{Y: 0.6, Z: 0.8}},
		{"big ball", drop, Vec{Y: -0.6, Z: 5}, 4.2, Vec{Y: -0.6, Z: 0.8}},
		{"small ball", drop, Vec{Y: 2.2, Z: 5}, 4.85, Vec{Y: 0.8, Z: 0.6}},
	} {
		m, ok := c.cone.meet(c.from, ahead)
		if !ok || !near(m.far, c.far, 1e-9) || m.normal.Sub(c.normal).Norm() > 1e-9 {
			t.Errorf("%s: %v %+v, want %g %v", c.name, ok, m, c.far, c.normal)
		}
	}
	for _, miss := range []Vec{{X: 0.51, Z: 5}, {Y: 1.51, Z: 5}, {Z: -5}} {
		if m, ok := post.meet(miss, ahead); ok {
			t.Errorf("from %v meets at %g", miss, m.far)
		}
	}
	at, normal := post.spot(0.5, 0)
	if at.Sub(Vec{X: 0.5}).Norm() > 1e-9 || normal.Sub(Vec{X: 1}).Norm() > 1e-9 {
		t.Errorf("spot %v, facing %v", at, normal)
	}
}

// The noise closes on itself and fades to its mean where a pixel covers it all.
func TestTile(t *testing.T) {
	for _, p := range [][2]float64{{0.1, 0.2}, {0.77, 0.98}, {0, 0}} {
		a, b := noise().at(p[0], p[1], 0), noise().at(p[0]-3, p[1]+2, 0)
		if !near(float64(a), float64(b), 1e-4) {
			t.Errorf("at %v: %g, three tiles on %g", p, a, b)
		}
		if far := noise().at(p[0], p[1], 10); math.Abs(float64(far)) > 0.15 {
			t.Errorf("from afar: %g", far)
		}
	}
	for _, x := range []float64{1, 1.3, 1.5, 2, 3.7, 100} {
		if got := log2(x); !near(got, math.Log2(x), 0.01) {
			t.Errorf("log2 of %g: %g", x, got)
		}
	}
}

// What stands on level ground stands on sloping ground; rays meet it there.
func TestSlope(t *testing.T) {
	w := World{Slope: 0.5}
	if got := w.lay(Vec{X: 2, Z: 1}); got != (Vec{X: 2, Y: 1, Z: 1}) {
		t.Errorf("laid at %v", got)
	}
	from, d := Vec{X: 2, Y: 4}, Vec{Y: -1}
	if got := w.ground(from, d); !near(got, 3, 1e-12) {
		t.Errorf("ground %g below", got)
	}
	if got := w.ground(from, Vec{X: -1}); !math.IsInf(got, 1) && got > 0 {
		t.Errorf("downhill and level the ground is at %g", got)
	}
}
