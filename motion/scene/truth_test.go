package scene

import (
	"fmt"
	"go/parser"
	"go/token"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"testing"
)

// Truth must not be able to look at pictures.
func TestTruthSeesNoPictures(t *testing.T) {
	files, err := filepath.Glob("truth*.go")
	if err != nil || len(files) < 4 {
		t.Fatalf("files %v, %v", files, err)
	}
	for _, name := range append(files, "figure.go", "skeleton.go", "feet.go", "steps.go", "ball.go", "camera.go") {
		if name == "truth_test.go" {
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

func describe(list []Beat) (s []string) {
	for _, b := range list {
		switch {
		case b.Hold && b.Moving:
			s = append(s, fmt.Sprintf("moving %d-%d", b.Start, b.End))
		case b.Hold:
			s = append(s, fmt.Sprintf("frozen %d-%d", b.Start, b.End))
		default:
			s = append(s, fmt.Sprintf("move %d-%d peak %d", b.Start, b.End, b.Peak))
		}
	}
	return s
}

// What the keys of the acting figure say, written down by hand. A quarter
// cosine is fastest at its steep end, half a cosine in its middle, and the step
// that lands on a pose belongs to the hold.
func TestBeatsOfKnownActing(t *testing.T) {
	tests := []struct {
		scene string
		want  []string
	}{
		{"acting", []string{"frozen 0-20", "move 21-29 peak 25", "frozen 30-48", "move 49-55 peak 49", "frozen 56-70", "move 71-79 peak 71", "frozen 80-96", "move 97-103 peak 103", "frozen 104-119"}},
		// Poses pop without in-betweens: holds touch.
		{"stepped", []string{"frozen 0-29", "frozen 30-55", "frozen 56-79", "frozen 80-103", "frozen 104-119"}},
		{"camera-mixed", []string{"frozen 0-20", "move 21-29 peak 25", "frozen 30-48", "move 49-55 peak 49", "frozen 56-70", "move 71-79 peak 71", "frozen 80-96", "move 97-103 peak 103", "frozen 104-119"}},
		// Drawings change on even frames: 22..28 and 30 lands on the salute.
		{"twos", []string{"frozen 0-21", "move 22-29 peak 26", "frozen 30-49", "move 50-55 peak 50", "frozen 56-71", "move 72-79 peak 72", "frozen 80-97", "move 98-103 peak 102", "frozen 104-119"}},
	}
	for _, c := range tests {
		got := describe(named(t, c.scene).Truth().Figures[0].Beats)
		if c.scene == "acting" || c.scene == "camera-mixed" {
			// Whether 49 or 50 is faster at the start of an ease out hangs on poses; accept what the curve says.
			got, c.want = loosen(got), loosen(c.want)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s:\n got %q\nwant %q", c.scene, got, c.want)
		}
	}
}

func loosen(list []string) (out []string) {
	for _, s := range list {
		if s == "move 49-55 peak 50" {
			s = "move 49-55 peak 49"
		}
		out = append(out, s)
	}
	return out
}

func TestMovingHolds(t *testing.T) {
	for _, name := range []string{"moving-holds", "moving-holds-on-twos"} {
		moving, frozen := 0, 0
		for _, b := range named(t, name).Truth().Figures[0].Beats {
			if b.Hold && b.Moving {
				moving++
			} else if b.Hold {
				frozen++
			}
		}
		if moving != 3 || frozen != 0 {
			t.Errorf("%s: %d moving and %d frozen holds, want 3 and 0", name, moving, frozen)
		}
	}
}

// Beats tile each figure's frames, and obey their own definition. For figures
// on ones the definition is checked from the travels alone.
func TestBeatsTile(t *testing.T) {
	for _, sc := range catalogue(t) {
		minHold := MinHold(sc.Rate.Float())
		for _, ft := range sc.Truth().Figures {
			next := ft.Start
			for i, b := range ft.Beats {
				if b.Start != next || b.End < b.Start {
					t.Fatalf("%s: beat %+v where one from %d is due", sc.Name, b, next)
				}
				next = b.End + 1
				if b.Hold && b.End-b.Start+1 < minHold {
					t.Errorf("%s: hold %+v is shorter than %d", sc.Name, b, minHold)
				}
				if !b.Hold && i > 0 && !ft.Beats[i-1].Hold {
					t.Errorf("%s: moves touch at %d", sc.Name, b.Start)
				}
				if !b.Hold && (b.Peak < b.Start || b.Peak > b.End) {
					t.Errorf("%s: peak outside %+v", sc.Name, b)
				}
			}
			if next != ft.End+1 {
				t.Errorf("%s: beats end at %d, figure at %d", sc.Name, next-1, ft.End)
			}
			if onOnes := len(ft.Exposure) == 1 && ft.Exposure[0].Pattern == "ones"; onOnes && sc.spec.Conform.Of == 0 {
				checkDefinition(t, sc.Name, ft, minHold)
			}
		}
	}
}

func checkDefinition(t *testing.T, name string, ft FigureTruth, minHold int) {
	run := 1 // frames of the run of still steps that ends here
	inHold := func(f int) bool {
		for _, b := range ft.Beats {
			if f >= b.Start && f <= b.End {
				return b.Hold
			}
		}
		return false
	}
	for i := 1; i <= len(ft.Max); i++ {
		if i < len(ft.Max) && ft.Max[i] < 0.003*ft.Height[i] {
			run++
			continue
		}
		for k := i - run; k < i; k++ {
			if got := inHold(ft.Start + k); got != (run >= minHold) {
				t.Fatalf("%s frame %d: in a hold %v, in a run of %d still frames", name, ft.Start+k, got, run)
			}
		}
		run = 1
	}
}

func TestMinHold(t *testing.T) {
	for rate, want := range map[float64]int{12: 2, 24: 4, 23.976: 4, 25: 4, 30: 5, 60: 10, 120: 20, 6: 2} {
		if got := MinHold(rate); got != want {
			t.Errorf("at %g: %d, want %d", rate, got, want)
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
