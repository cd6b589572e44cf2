package capture

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func near(a, b, within float64) bool { return math.Abs(a-b) <= within }

func apart(a, b Vec) float64 { return a.Sub(b).Norm() }

// A hierarchy whose second joint carries the root's motion, as some have it.
const smallBVH = `HIERARCHY
ROOT World
{
	OFFSET 0 0 0
	CHANNELS 0
	JOINT Hips
	{
		OFFSET 0 1 0
		CHANNELS 6 Xposition Yposition Zposition Zrotation Yrotation Xrotation
		JOINT Leg
		{
			OFFSET 0 -2 0
			CHANNELS 3 Zrotation Yrotation Xrotation
			End Site
			{
				OFFSET 0 0 3
			}
		}
	}
}
MOTION
Frames: 2
Frame Time: .025
0 0 0 0 0 0 0 0 0
10 20 30 90 0 0 0 90 0
`

// Worked by hand: a quarter turn about z takes -y to x, one about y takes z to
// x, which the parent's turn takes to y.
func TestReadBVH(t *testing.T) {
	h, err := ReadBVH(strings.NewReader(smallBVH))
	if err != nil {
		t.Fatal(err)
	}
	if len(h.Frames) != 2 || h.Interval != 0.025 || len(h.Nodes) != 4 {
		t.Fatalf("%d frames of %g s, %d nodes", len(h.Frames), h.Interval, len(h.Nodes))
	}
	for i, want := range [][]Vec{
		{{}, {0, 1, 0}, {0, -1, 0}, {0, -1, 3}},
		{{}, {10, 21, 30}, {12, 21, 30}, {12, 24, 30}},
	} {
		at, _ := h.place(h.Frames[i])
		for k := range want {
			if apart(at[k], want[k]) > 1e-12 {
				t.Errorf("frame %d, %s: at %v, want %v", i, h.Nodes[k].Name, at[k], want[k])
			}
		}
	}
	if h.node("nothing", "Leg") != 2 || h.node("nothing") != -1 {
		t.Error("nodes by name")
	}
	if _, err := h.Body(0); err == nil {
		t.Error("a body without feet")
	}
}

func TestReadBVHRefuses(t *testing.T) {
	for _, c := range []struct{ old, new string }{
		{"HIERARCHY", "HIERARCHIE"},
		{"CHANNELS 3", "CHANNELS 7"},
		{"Zrotation", "Wrotation"},
		{"OFFSET 0 1 0", "OFFSET 0 NaN 0"},
		{"Frames: 2", "Frames: 0"},
		{"Frames: 2", "Frames: 3"},
		{"Frames: 2", "Frames: 1000000000000"},
		{".025", "0"},
		{"10 20", "10 1e999"},
		{"\t\t}\n\t}\n}\nMOTION", "\t\t}\n\t}\nMOTION"},
		{"MOTION", "} MOTION"},
	} {
		if _, err := ReadBVH(strings.NewReader(strings.Replace(smallBVH, c.old, c.new, 1))); err == nil {
			t.Errorf("%q for %q is taken", c.new, c.old)
		}
	}
}

// still is one frame of the character upright, arms down, pelvis at a place.
func still(x, y, z float64) string {
	q, f := "1,0,0,0", "0"
	return fmt.Sprintf("[0.05,%g,%g,%g,%s]", x, y, z,
		strings.Join([]string{q, q, q, q, f, q, q, f, q, f, q, q, f}, ","))
}

// Worked by hand from the character's bones.
func TestReadRotations(t *testing.T) {
	m, err := ReadRotations(strings.NewReader(`{"Loop": "wrap", "Frames": [` + still(0, 0.9, 0) + "," + still(1, 0.9, 0) + `]}`))
	if err != nil {
		t.Fatal(err)
	}
	p := mimicPose(m.Frames[1])
	for _, c := range []struct {
		joint Joint
		want  Vec
	}{
		{Pelvis, Vec{1, 0.9, 0}},
		{Neck, Vec{1, 0.9 + 0.236151 + 0.223894, 0}},
		{Ankle.On(Right), Vec{1, 0.9 - 0.421546 - 0.409870, 0.084887}},
		{Heel.On(Left), Vec{1 - 0.0435, 0.9 - 0.831416 - 0.05, -0.084887}},
		{Toe.On(Left), Vec{1 + 0.1335, 0.9 - 0.831416 - 0.05, -0.084887}},
		{Hand.On(Right), Vec{1 - 0.02405, 0.9 + 0.236151 + 0.2435 - 0.274788 - 0.258947, 0.18311}},
	} {
		if apart(p[c.joint], c.want) > 1e-9 {
			t.Errorf("joint %d at %v, want %v", c.joint, p[c.joint], c.want)
		}
	}
	if f := p.Facing(); apart(f, Vec{X: 1}) > 1e-9 {
		t.Errorf("faces %v", f)
	}
	r, err := m.Body(3)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Poses) != 4 || !near(r.Rate, 20, 1e-9) || !near(r.Poses[0].height(), Height, 1e-9) {
		t.Errorf("%d poses, rate %g, height %g", len(r.Poses), r.Rate, r.Poses[0].height())
	}
	if low := r.Poses[0].Lowest(); !near(low, 0, 1e-9) {
		t.Errorf("soles at %g", low)
	}
}

func TestReadRotationsRefuses(t *testing.T) {
	for _, text := range []string{
		``, `{}`, `{"Frames": []}`, `{"Frames": [[1]]}`, `{"Frames": "none"}`,
		`{"Frames": [` + still(0, 1, 0) + `]}`,
		`{"Frames": [` + still(0, 1, 0) + `, [0.05, 1]]}`,
		strings.Replace(`{"Frames": [`+still(0, 1, 0)+","+still(0, 1, 0)+`]}`, "0.05", "0", 1),
	} {
		if _, err := ReadRotations(strings.NewReader(text)); err == nil {
			t.Errorf("%.40q is taken", text)
		}
	}
}

const smallTRC = "PathFileType\t4\t(X/Y/Z)\tsmall.trc\r\n" +
	"DataRate\tCameraRate\tNumFrames\tNumMarkers\tUnits\tOrigDataRate\r\n" +
	"150.00\t150.00\t2\t2\tmm\t150.00\r\n" +
	"Frame#\tTime\tR.ASIS\t\t\tL.Heel\t\t\t\r\n" +
	"\t\tX1\tY1\tZ1\tX2\tY2\tZ2\r\n\r\n" +
	"1\t0.000\t1000\t2000\t-3000\t1\t2\t3\r\n" +
	"2\t0.007\t\t\t\t4\t5\t6\r\n"

func TestReadTRC(t *testing.T) {
	m, err := ReadTRC(strings.NewReader(smallTRC))
	if err != nil {
		t.Fatal(err)
	}
	if m.Rate != 150 || len(m.Frames) != 2 || len(m.Names) != 2 {
		t.Fatalf("rate %g, %d frames, markers %v", m.Rate, len(m.Frames), m.Names)
	}
	if got := m.Frames[0]["R.ASIS"]; got != (Vec{1, 2, -3}) {
		t.Errorf("marker at %v", got)
	}
	if _, seen := m.Frames[1]["R.ASIS"]; seen {
		t.Error("a marker without a place was seen")
	}
	if _, err := m.Body(nil); err == nil {
		t.Error("a body of two markers")
	}
}

func TestReadTRCRefuses(t *testing.T) {
	for _, c := range []struct{ old, new string }{
		{"PathFileType", "Path"}, {"mm", "furlongs"}, {"150.00\t150.00\t2", "0\t150.00\t2"},
		{"\t1\t2\t3\r\n", "\t1\t2\r\n"}, {"1000", "NaN"}, {"R.ASIS\t\t\tL.Heel", "\t\t\t"},
		{smallTRC[strings.Index(smallTRC, "\r\n1\t"):], ""},
	} {
		if _, err := ReadTRC(strings.NewReader(strings.Replace(smallTRC, c.old, c.new, 1))); err == nil {
			t.Errorf("%q for %q is taken", c.new, c.old)
		}
	}
}

const smallPlates = "recording,foot,on_s,off_s,on_known,off_known\nwalk,L,0.5,1.25,1,0\nwalk,R,0,0.75,0,1\nother,L,1,2,1,1\n"

func TestReadPlates(t *testing.T) {
	p, err := ReadPlates(strings.NewReader(smallPlates))
	if err != nil {
		t.Fatal(err)
	}
	want := []Stand{{Left, 0.5, 1.25, [2]bool{true, false}, plateDoubt, true}, {Right, 0, 0.75, [2]bool{false, true}, plateDoubt, true}}
	if got := p["walk"]; len(got) != 2 || got[0] != want[0] || got[1] != want[1] || len(p["other"]) != 1 {
		t.Errorf("got %v", p)
	}
	for _, c := range []struct{ old, new string }{
		{"foot", "side"}, {"L", "M"}, {"0.5", "2"}, {"0.5", "-1"}, {"0.5", "Inf"}, {"1,0\n", "1,maybe\n"}, {"walk,R,", "walk,"},
	} {
		if _, err := ReadPlates(strings.NewReader(strings.Replace(smallPlates, c.old, c.new, 1))); err == nil {
			t.Errorf("%q for %q is taken", c.new, c.old)
		}
	}
}

// What is read is finite and whole, and a body of it can be made or is refused.
func FuzzReadBVH(f *testing.F) {
	f.Add(smallBVH)
	f.Fuzz(func(t *testing.T, text string) {
		h, err := ReadBVH(strings.NewReader(text))
		if err != nil {
			return
		}
		for _, frame := range h.Frames {
			at, _ := h.place(frame)
			if len(at) != len(h.Nodes) {
				t.Fatalf("%d places of %d nodes", len(at), len(h.Nodes))
			}
		}
		checkBody(t)(h.Body(0))
	})
}

func FuzzReadRotations(f *testing.F) {
	f.Add(`{"Loop": "wrap", "Frames": [` + still(0, 0.9, 0) + "," + still(1, 0.9, 0) + `]}`)
	f.Fuzz(func(t *testing.T, text string) {
		m, err := ReadRotations(strings.NewReader(text))
		if err != nil {
			return
		}
		checkBody(t)(m.Body(1))
	})
}

func FuzzReadTRC(f *testing.F) {
	f.Add(smallTRC)
	f.Fuzz(func(t *testing.T, text string) {
		m, err := ReadTRC(strings.NewReader(text))
		if err != nil {
			return
		}
		checkBody(t)(m.Body([]Stand{{To: 1}}))
	})
}

func FuzzReadPlates(f *testing.F) {
	f.Add(smallPlates)
	f.Fuzz(func(t *testing.T, text string) {
		p, err := ReadPlates(strings.NewReader(text))
		if err != nil {
			return
		}
		for _, list := range p {
			for _, s := range list {
				if !(s.From >= 0 && s.To >= s.From) {
					t.Fatalf("stand %v", s)
				}
			}
		}
	})
}

func checkBody(t *testing.T) func(*Recording, error) {
	return func(r *Recording, err error) {
		if err == nil && (len(r.Poses) == 0 || !(r.Rate > 0)) {
			t.Fatalf("%d poses at rate %g", len(r.Poses), r.Rate)
		}
	}
}
