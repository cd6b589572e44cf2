package parts

import (
	"math"
	"testing"

	"holdfast/motion/camera"
)

const testW, testH = 320, 180

// A stage is a drawn clip of a textured patch that goes its way before textured
// ground, with a bar that may pass before it.
type stage struct {
	frames int
	at     func(t int) (x, y float64) // upper left corner of the patch, 40 by 32
	bar    func(t int) (x0, x1 int)   // hidden columns
	pan    float64                    // pixels a frame the ground goes to the left
}

const patchW, patchH = 40, 32

// draw draws the stage: smooth textures, so that places between pixels are true.
func (st stage) draw() *Stretch {
	s := &Stretch{W: testW, H: testH}
	for t := range st.frames {
		px, py := st.at(t)
		luma := make([]uint8, testW*testH)
		b0, b1 := -1, -1
		if st.bar != nil {
			b0, b1 = st.bar(t)
		}
		for i := range luma {
			x, y := float64(i%testW), float64(i/testW)
			gx := x + st.pan*float64(t)
			v := 100 + 25*math.Sin(gx/5)*math.Cos(y/7) + 15*math.Sin((gx+2*y)/11)
			u, w := x-px, y-py
			// What a pixel at the rim is covered by: rims go between pixels too.
			in := share(u, patchW) * share(w, patchH)
			v += in * (150 + 40*math.Sin(u/3+w/9)*math.Cos(w/4) + 20*math.Sin((u-w)/6) - v)
			if int(x) >= b0 && int(x) < b1 {
				v = 60 + 20*math.Sin(y/3)
			}
			luma[i] = uint8(math.Round(v))
		}
		s.Luma = append(s.Luma, luma)
		way := camera.Identity
		way.TX = -st.pan * float64(t)
		s.Path = append(s.Path, way)
	}
	return s
}

// share is how much of the pixel at u lies between 0 and side, its middle at u.
func share(u, side float64) float64 { return max(0, min(1, u+0.5, side-u+0.5)) }

func (st stage) mark(t int) Mark {
	x, y := st.at(t)
	return Mark{Name: "patch", Frame: t, Box: Box{x, y, patchW, patchH}}
}

// off is how far a box is from the patch, pixels.
func (st stage) off(b Box, t int) float64 {
	x, y := st.at(t)
	m := b.middle()
	return math.Hypot(m.X-x-patchW/2, m.Y-y-patchH/2)
}

func sway(t int) (x, y float64) {
	return 120 + 70*math.Sin(float64(t)/9), 60 + 20*math.Sin(float64(t)/5)
}

func TestFollowBothWays(t *testing.T) {
	for name, st := range map[string]stage{
		"still camera": {frames: 60, at: sway},
		"pan":          {frames: 60, at: sway, pan: 1.5},
	} {
		s := st.draw()
		steps, err := NewFollower("patch", NoGaze).Follow(s, []Mark{st.mark(25)}, camera.Identity)
		if err != nil {
			t.Fatal(err)
		}
		for i, step := range steps {
			if !step.Seen() || st.off(step.Box, i) > 1 {
				t.Errorf("%s, frame %d: %+v is off by %.2f pixels", name, i, step.Box, st.off(step.Box, i))
			}
			if i == 0 {
				continue
			}
			x0, y0 := st.at(i - 1)
			x1, y1 := st.at(i)
			// Against the ground, which goes to the left.
			if d := math.Hypot(step.DX-(x1-x0+st.pan), step.DY-(y1-y0)); !(d < 0.25) {
				t.Errorf("%s, frame %d: went %.2f,%.2f, off by %.2f", name, i, step.DX, step.DY, d)
			}
		}
	}
}

// A bar passes before a part that goes on meanwhile: it is lost while it is hidden,
// and found again.
func TestFindAgain(t *testing.T) {
	st := stage{frames: 50, at: func(t int) (float64, float64) { return 60 + 2*float64(t), 70 },
		bar: func(t int) (int, int) { x := 290 - 8*t; return x, x + 70 }}
	steps, err := NewFollower("patch", NoGaze).Follow(st.draw(), []Mark{st.mark(0)}, camera.Identity)
	if err != nil {
		t.Fatal(err)
	}
	hidden := 0
	for i, step := range steps {
		x, _ := st.at(i)
		b0, b1 := st.bar(i)
		over := max(0, min(x+patchW, float64(b1))-max(x, float64(b0))) / patchW
		switch {
		case over == 0 && step.Seen() && st.off(step.Box, i) > 1:
			t.Errorf("frame %d: off by %.1f pixels", i, st.off(step.Box, i))
		case over == 0 && !step.Seen():
			t.Errorf("frame %d: not seen", i)
		case over == 1 && step.Seen():
			t.Errorf("frame %d: seen at %+v behind the bar", i, step.Box)
		}
		if !step.Seen() {
			hidden++
		}
	}
	if hidden == 0 {
		t.Error("the bar hid nothing")
	}
}

// What was followed in one stretch goes on in the next, and a mark on the same part
// sets it right.
func TestFollowOn(t *testing.T) {
	st := stage{frames: 60, at: sway, pan: 1}
	s := st.draw()
	first := &Stretch{W: testW, H: testH, Luma: s.Luma[:30], Path: s.Path[:30]}
	second := &Stretch{W: testW, H: testH, Luma: s.Luma[30:], Path: s.Path[:30]}
	f := NewFollower("patch", NoGaze)
	if _, err := f.Follow(first, []Mark{st.mark(10)}, camera.Identity); err != nil {
		t.Fatal(err)
	}
	again := st.mark(50)
	again.Frame -= 30
	steps, err := f.Follow(second, []Mark{again}, s.Path[1])
	if err != nil {
		t.Fatal(err)
	}
	for i, step := range steps {
		if !step.Seen() || math.IsNaN(step.Travel) || st.off(step.Box, i+30) > 1 {
			t.Errorf("frame %d: %+v", i+30, step)
		}
	}
}

// A part that nobody has shown yet, or of one colour, is nowhere.
func TestNothingToFollow(t *testing.T) {
	s := &Stretch{W: testW, H: testH, Luma: [][]uint8{make([]uint8, testW*testH), make([]uint8, testW*testH)},
		Path: []camera.Similarity{camera.Identity, camera.Identity}}
	steps, err := NewFollower("patch", NoGaze).Follow(s, nil, camera.Identity)
	if err != nil || steps[0].Seen() || steps[1].Seen() {
		t.Errorf("%+v, %v", steps, err)
	}
	steps, err = NewFollower("patch", NoGaze).Follow(s, []Mark{{Name: "patch", Box: Box{10, 10, 40, 40}}}, camera.Identity)
	if err != nil || !steps[0].Seen() || steps[1].Seen() {
		t.Errorf("%+v, %v", steps, err)
	}
}
