package scene

import "math"

// StageHeight is the height of the picture in stage units, the measure of the
// world: at 640x360 one unit is one pixel, at 1280x720 two. The world's origin
// is the middle of the picture of a camera that has not moved.
const StageHeight = 360

// A Camera is where a shot is seen from and how that moves. The zero Camera
// stands still on the origin.
type Camera struct {
	X, Y  float64 // the point it looks at in the beginning, stage units
	Zoom  float64 // pictured size against the stage; 0 means 1
	Roll  float64 // degrees; positive turns the picture clockwise as seen
	Moves []CameraMove
	Shake Shake
	On    int // frames for which each position stays up; 0 means 1, on ones
}

// A CameraMove travels from frame From to frame To of the shot.
type CameraMove struct {
	From, To float64
	DX, DY   float64 // stage units: positive DX turns to the right, DY down
	Zoom     float64 // last over first scale, over 1 is a push; 0 means 1
	Roll     float64 // degrees
	Ease     Ease
}

// A Shake is the unsteadiness of a hand: a sum of sines at shakeHertz with
// phases drawn from Seed. The zero Shake is a tripod.
type Shake struct {
	Reach float64 // stage units to which x and y may go to either side, together with all sines
	Roll  float64 // degrees, likewise
	Seed  uint64
}

// shakeHertz are the frequencies of a hand-held camera: sway below 1 Hz, steps
// and tremor of the arms above. Common practice, no source.
var shakeHertz = [...]float64{0.31, 0.73, 1.3, 2.1, 3.7}

// shakeShare falls with frequency, as sway does, and adds up to 1.
var shakeShare = [...]float64{0.42, 0.27, 0.17, 0.09, 0.05}

// A view is where the camera is at one instant: a point w of the world is seen
// at middle + scale*R(roll)*(w - o).
type view struct {
	o     Point
	scale float64 // pixels a stage unit
	roll  float64 // radians
}

// viewAt returns the view at t frames of the shot; unit is pixels a stage unit
// at zoom 1 and rate frames a second.
func (c Camera) viewAt(t, unit, rate float64) view {
	if c.On > 1 {
		t = math.Floor(t/float64(c.On)) * float64(c.On)
	}
	zoom, roll := c.Zoom, c.Roll
	if zoom == 0 {
		zoom = 1
	}
	o := Point{c.X, c.Y}
	for _, m := range c.Moves {
		u := m.Ease.at((t - m.From) / (m.To - m.From))
		o.X += m.DX * u
		o.Y += m.DY * u
		roll += m.Roll * u
		if m.Zoom > 0 {
			zoom *= math.Exp(u * math.Log(m.Zoom))
		}
	}
	if c.Shake.Reach != 0 || c.Shake.Roll != 0 {
		x, y, turn := c.Shake.At(t / rate)
		o, roll = o.add(Point{x, y}), roll+turn
	}
	return view{o, unit * zoom, radians(roll)}
}

// At is where the hand is at an instant: x and y in stage units, roll in degrees.
func (s Shake) At(seconds float64) (x, y, roll float64) {
	return s.Reach * s.wave(seconds, 0), s.Reach * s.wave(seconds, 1), s.Roll * s.wave(seconds, 2)
}

// wave lies within -1..1; axis tells x, y and roll apart.
func (s Shake) wave(seconds float64, axis uint64) float64 {
	sum := 0.0
	for i, hz := range shakeHertz {
		phase := HashUnit(s.Seed, axis, uint64(i))
		// Every axis has its own frequencies, or x and y would move as one.
		hz *= 1 + 0.13*float64(axis)
		sum += shakeShare[i] * math.Sin(2*math.Pi*(hz*seconds+phase))
	}
	return sum
}

// onto returns the map from the world to a picture of w by h pixels.
func (v view) onto(w, h int) affine {
	k := scale(v.scale, v.scale).mul(rotate(v.roll))
	return shift(float64(w)/2, float64(h)/2).mul(k).mul(shift(-v.o.X, -v.o.Y))
}

// kind names the camera in the words of the sheet.
func (c Camera) kind() string {
	pan, tilt, push, pull, roll := false, false, false, false, false
	for _, m := range c.Moves {
		pan = pan || m.DX != 0
		tilt = tilt || m.DY != 0
		push = push || m.Zoom > 1
		pull = pull || m.Zoom > 0 && m.Zoom < 1
		roll = roll || m.Roll != 0
	}
	n, name := 0, "still"
	for _, k := range []struct {
		is   bool
		name string
	}{{pan, "pan"}, {tilt, "tilt"}, {push, "push"}, {pull, "pull"}, {roll, "mixed"}, {c.Shake != (Shake{}), "handheld"}} {
		if k.is {
			n, name = n+1, k.name
		}
	}
	if n > 1 {
		return "mixed"
	}
	return name
}
