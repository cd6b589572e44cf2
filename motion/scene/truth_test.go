package scene

import (
	"go/parser"
	"go/token"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Truth must not be able to look at pictures.
func TestTruthSeesNoPictures(t *testing.T) {
	files, err := filepath.Glob("truth*.go")
	if err != nil || len(files) < 4 {
		t.Fatalf("files %v, %v", files, err)
	}
	for _, name := range append(files, "figure.go", "skeleton.go", "feet.go", "steps.go", "ball.go", "camera.go") {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		for _, im := range f.Imports {
			path, _ := strconv.Unquote(im.Path.Value)
			if !slices.Contains([]string{"math", "fmt", "sort"}, path) {
				t.Errorf("%s imports %s", name, path)
			}
		}
	}
}

// The travel of a disc that only falls is what gravity says, at any zoom.
func TestTravelOfFallingBall(t *testing.T) {
	sc := mustNew(t, Spec{Width: 640, Height: 360, Shots: []Shot{{
		Frames: 12, Camera: Camera{Zoom: 1.5, X: 7, Roll: 30},
		Balls: []Ball{{Drop: 150, Start: 2, Gravity: 1.2, Ground: 100, Restitution: 0.5}},
	}}})
	ft := sc.Truth().Figures[0]
	for f := 3; f <= 10; f++ {
		s := float64(f - 2)
		want := 1.5 * 0.6 * (s*s - (s-1)*(s-1))
		if math.Abs(ft.Max[f]-want) > 1e-9 || math.Abs(ft.Mean[f]-want) > 1e-9 {
			t.Errorf("frame %d: max %g, mean %g, want %g", f, ft.Max[f], ft.Mean[f], want)
		}
	}
	if ft.Max[2] != 0 || ft.Height[0] != 60 {
		t.Errorf("before release %g, height %g", ft.Max[2], ft.Height[0])
	}
}

// What lies behind something else has no visible travel.
func TestHiddenPartsDoNotCount(t *testing.T) {
	small := Ball{Name: "hidden", Radius: 10, Drop: 30, Start: 1, Ground: 60, Restitution: 0.5, Gravity: 0.5}
	wall := Ball{Name: "wall", Radius: 90, Ground: 120, Restitution: 0.5}
	travelled := func(balls ...Ball) float64 {
		sc := mustNew(t, Spec{Width: 640, Height: 360, Shots: []Shot{{Frames: 9, Balls: balls}}})
		ft := sc.Truth().Figures[slices.IndexFunc(sc.Truth().Figures, func(f FigureTruth) bool { return f.Name == "hidden" })]
		return slices.Max(ft.Max)
	}
	if got := travelled(small, wall); got != 0 {
		t.Errorf("behind: travels %g", got)
	}
	if got := travelled(wall, small); got < 2 {
		t.Errorf("in front: travels %g", got)
	}
}

// A pair is two squares of 10 and 30 units; the small one moves by 4 units.
type pair struct{ shapes []shape }

func (p pair) pieces() []shape { return p.shapes }
func (p pair) height() float64 { return 40 }
func (p pair) place(t float64, _ bool, dst []affine) {
	dst[0], dst[1] = shift(-60+4*t, 0), shift(20, 0)
}

// Mean travel weighs by area: 100 of 1000 square units move.
func TestMeanTravelWeighsByArea(t *testing.T) {
	square := func(s float64) shape { return newShape(ball, []Point{{0, 0}, {s, 0}, {s, s}, {0, s}}) }
	sc := mustNew(t, Spec{Width: 640, Height: 360, Shots: []Shot{{Frames: 2, Balls: []Ball{{}}}}})
	sc.shots[0].cast[0].performer = pair{[]shape{square(10), square(30)}}
	ft := sc.reckon().Figures[0]
	if math.Abs(ft.Mean[1]-0.4) > 1e-9 || math.Abs(ft.Max[1]-4) > 1e-9 {
		t.Errorf("mean %g, max %g, want 0.4 and 4", ft.Mean[1], ft.Max[1])
	}
	if want := (Box{264, 180, 370, 210}); ft.Box[1] != want {
		t.Errorf("box %+v, want %+v", ft.Box[1], want)
	}
}

// Where the line between plant and slide lies.
func TestSlideShare(t *testing.T) {
	for share, slide := range map[float64]bool{0.02: false, -0.02: false, 0.04: true, -0.04: true} {
		sc := mustNew(t, Spec{Width: 640, Height: 360, Shots: []Shot{{Frames: 20, Figures: []Figure{{Slips: []Slip{{From: 4, To: 12, Share: share, Feet: Near}}}}}}})
		for _, c := range sc.Truth().Contacts {
			want := map[Side]float64{Near: share, Far: 0}[c.Foot]
			if math.Abs(c.SlipShare-want) > 1e-9 || math.Abs(c.SlipPx-200*want) > 1e-6 || c.Slide != (slide && c.Foot == Near) {
				t.Errorf("share %g: contact %+v", share, c)
			}
		}
	}
}

func TestSlipsAsAsked(t *testing.T) {
	tests := []struct {
		scene string
		share float64 // of each slide
		count int
	}{
		{"walk", 0, 0}, {"walk-pan", 0, 0}, {"hops", 0, 0}, {"rooted", 0, 0},
		{"slide", 0.07, 6}, {"slide-backwards", -0.08, 6}, {"slide-one-plant", 0.12, 1},
	}
	for _, c := range tests {
		slides := 0
		for _, k := range named(t, c.scene).Truth().Contacts {
			if k.Slide {
				slides++
			}
			if got := math.Abs(k.SlipShare) >= 0.04; got != k.Slide {
				t.Errorf("%s: a slip of %g is called a slide: %v", c.scene, k.SlipShare, k.Slide)
			}
			// A slide is spread evenly over the stand; its first and last frame cut a little off.
			want := c.share * float64(k.End-k.Start) / (k.To - k.From)
			if !k.Slide {
				want = 0
			}
			if math.Abs(k.SlipShare-want) > 1e-6 {
				t.Errorf("%s: contact %d-%d slips %g, want %g", c.scene, k.Start, k.End, k.SlipShare, want)
			}
		}
		if slides != c.count {
			t.Errorf("%s: %d slides, want %d", c.scene, slides, c.count)
		}
	}
}

// A foot that a pose lifts and puts back stands twice, and in no instant of the
// time between; the poses of the kick hold until 20 and from 54 on.
func TestFootLiftedByAPose(t *testing.T) {
	var far []Contact
	for _, c := range named(t, "kick").Truth().Contacts {
		if c.Foot == Far {
			far = append(far, c)
		}
	}
	if len(far) != 2 || far[0].To != 20 || far[1].From != 54 || far[0].From != 0 || far[1].To != 95 {
		t.Errorf("stands %+v", far)
	}
}

// The middle of a walk stands 60 % of each stride, the published share of
// walking (Perry and Burnfield, Gait Analysis), and lands as far on as asked.
func TestWalkRhythm(t *testing.T) {
	var near []Contact
	for _, c := range named(t, "walk").Truth().Contacts {
		if c.Foot == Near {
			near = append(near, c)
		}
	}
	for i := 1; i+2 < len(near); i++ {
		stride := near[i+1].From - near[i].From
		if got := (near[i].To - near[i].From) / stride; math.Abs(got-0.6) > 1e-6 || math.Abs(stride-24) > 1e-6 {
			t.Errorf("contact %d: stance %g of a stride of %g", i, got, stride)
		}
		// Two steps of 0.3 heights of 150 units, half a pixel each.
		if got := near[i+1].X - near[i].X; math.Abs(got-45) > 1e-9 {
			t.Errorf("contact %d: stride of %g px", i, got)
		}
		if near[i].Start != int(math.Ceil(near[i].From-1e-9)) || near[i].End != int(math.Floor(near[i].To+1e-9)) {
			t.Errorf("contact %+v: frames do not fit its instants", near[i])
		}
	}
}

func TestFlights(t *testing.T) {
	flights := named(t, "hops").Truth().Flights
	want := []Flight{
		{Start: 37, End: 43, Takeoff: 36.5, Land: 43.5},
		{Start: 75, End: 83, Takeoff: 74, Land: 83.5},
		{Start: 115, End: 126, Takeoff: 114.25, Land: 126.25, TravelPx: 45},
	}
	if len(flights) != len(want) {
		t.Fatalf("flights %+v", flights)
	}
	for i, f := range flights {
		w := want[i]
		seconds := (w.Land - w.Takeoff) / 24
		rise := 9.80665 * seconds * seconds / 8 / 1.7
		if f.Start != w.Start || f.End != w.End || f.Takeoff != w.Takeoff || f.Land != w.Land ||
			math.Abs(f.TravelPx-w.TravelPx) > 1e-9 || math.Abs(f.RiseShare-rise) > 1e-12 || math.Abs(f.RisePx-rise*90) > 1e-9 {
			t.Errorf("flight %+v, want %+v and a rise of %g heights", f, w, rise)
		}
	}
}

func TestImpactsAndCuts(t *testing.T) {
	im := named(t, "ball-drop").Truth().Impacts
	// Released at 8, gravity such that 120 units take half a second: 190 take 12*sqrt(190/120).
	if want := 8 + 12*math.Sqrt(190.0/120); len(im) < 4 || math.Abs(im[0].Frame-want) > 1e-9 {
		t.Fatalf("impacts %+v, first wanted at %g", im, want)
	}
	for i := 2; i < len(im); i++ {
		if got := (im[i].Frame - im[i-1].Frame) / (im[i-1].Frame - im[i-2].Frame); math.Abs(got-0.72) > 1e-9 {
			t.Errorf("flight ratio %g", got)
		}
	}
	for name, want := range map[string][]int{"dissolve": {66}, "through-black": {72}, "fades": nil, "cuts": nil} {
		if got := named(t, name).Truth().Joins; !slices.Equal(got, want) {
			t.Errorf("%s: joins %v, want %v", name, got, want)
		}
	}
	for name, want := range map[string][]int{"cuts": {72, 132, 192}, "dissolve": nil, "through-black": nil, "fades": nil, "flashes": nil, "whip-pan": nil, "lens-pass": nil, "cut-same-set": {72}} {
		if got := named(t, name).Truth().Cuts; !slices.Equal(got, want) {
			t.Errorf("%s: cuts %v, want %v", name, got, want)
		}
	}
}

func TestExposure(t *testing.T) {
	tests := map[string][]Exposure{
		"acting":           {{0, 119, "ones", 1}},
		"twos":             {{0, 119, "twos", 2}},
		"threes":           {{0, 119, "threes", 3}},
		"stepped":          {{0, 119, "stepped", 24}},
		"ones-twos-threes": {{0, 49, "ones", 1}, {50, 85, "twos", 2}, {86, 119, "threes", 34.0 / 12}},
	}
	for name, want := range tests {
		ft := named(t, name).Truth().Figures[0]
		if !slices.Equal(ft.Exposure, want) {
			t.Errorf("%s: %+v, want %+v", name, ft.Exposure, want)
		}
		for i, m := range ft.Max {
			if name == "twos" && i%2 == 1 && m != 0 || name == "threes" && i%3 != 0 && m != 0 {
				t.Errorf("%s: travels %g on frame %d", name, m, i)
			}
		}
	}
}

func TestRepeats(t *testing.T) {
	tests := []struct {
		conform Conform
		want    Repeats
	}{
		{Conform{4, 5}, Repeats{4, 5, 5, 1}}, {Conform{1, 2}, Repeats{1, 2, 2, 1}}, {Conform{24, 25}, Repeats{24, 25, 25, 1}}, {Conform{2, 5}, Repeats{2, 5, 0, 1}},
	}
	for _, c := range tests {
		if got := c.conform.repeats(); *got != c.want {
			t.Errorf("%+v: %+v, want %+v", c.conform, *got, c.want)
		}
	}
	if r := (Conform{}).repeats(); r != nil {
		t.Errorf("no conform repeats %+v", r)
	}
}
