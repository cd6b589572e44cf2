package motion

import (
	"context"
	"errors"
	"image"
	"io"
	"math"
	"reflect"
	"runtime"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"holdfast/motion/beats"
	"holdfast/motion/camera"
	"holdfast/motion/flow"
	"holdfast/motion/scene"
)

// painted is a Source whose frames are formulas: luma of a pixel on a frame.
type painted struct {
	frames int
	luma   func(n, x, y int) uint8
	next   int
	fail   error // instead of a frame after the last
}

func (p *painted) Next(dst *image.YCbCr) error {
	if p.next >= p.frames {
		if p.fail != nil {
			return p.fail
		}
		return io.EOF
	}
	for y := range dst.Rect.Dy() {
		for x := range dst.Rect.Dx() {
			dst.Y[y*dst.YStride+x] = p.luma(p.next, x, y)
		}
	}
	for i := range dst.Cb {
		dst.Cb[i], dst.Cr[i] = 128, 128
	}
	p.next++
	return nil
}

// Two pictures with outlines everywhere and nothing in common, and black.
func tiles(_, x, y int) uint8 { return uint8(40 + 37*((x/11)*7+(y/9)*5)%170) }
func weave(_, x, y int) uint8 { return uint8(90 + 60*math.Sin(float64(x*x+3*y*y)/900)) }
func black(_, _, _ int) uint8 { return 16 }

// inTurn shows one picture up to a frame and another from there on.
func inTurn(from int, before, after func(n, x, y int) uint8) func(n, x, y int) uint8 {
	return func(n, x, y int) uint8 {
		if n < from {
			return before(n, x, y)
		}
		return after(n, x, y)
	}
}

// box is a lighter rectangle of 12 by 30 that goes 5 pixels a frame.
func box(n, x, y int) uint8 {
	if left := 10 + 5*n; x >= left && x < left+12 && y >= 20 && y < 50 {
		return uint8(160 + 40*(y/6%2))
	}
	return tiles(n, x, y)
}

// whole fails where what is told of a clip does not cover it once over.
func whole(t *testing.T, what string, r *Result, frames int) {
	t.Helper()
	if r.Frames != frames || len(r.Curve.Motion) != frames || len(r.Curve.Farthest) != frames || len(r.Curve.Camera) != frames {
		t.Errorf("%s: %d frames with %d, %d and %d values, want %d", what, r.Frames, len(r.Curve.Motion), len(r.Curve.Farthest), len(r.Curve.Camera), frames)
		return
	}
	for i, c := range r.Curve.Camera {
		for _, v := range []float64{r.Curve.Motion[i], r.Curve.Farthest[i], c.DX, c.DY, c.Roll, c.Zoom} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s: frame %d holds %v, %v, %+v", what, i, r.Curve.Motion[i], r.Curve.Farthest[i], c)
				return
			}
		}
	}
	next := 0
	for i, s := range r.Shots {
		if s.Start != next || s.End < s.Start || r.Curve.Motion[s.Start] != 0 {
			t.Errorf("%s: shot %d is %d-%d after frame %d, motion %g on its first frame", what, i, s.Start, s.End, next-1, r.Curve.Motion[s.Start])
		}
		next = s.End + 1
	}
	if next != frames {
		t.Errorf("%s: shots end before frame %d, want %d", what, next, frames)
	}
	next = 0
	for i, b := range r.Beats {
		if s := r.Shots[b.Shot]; b.Start != next || b.End < b.Start || b.Start < s.Start || b.End > s.End {
			t.Errorf("%s: beat %d is %d-%d in shot %d-%d after frame %d", what, i, b.Start, b.End, s.Start, s.End, next-1)
		}
		if b.Kind == beats.Move && (b.Peak < b.Start || b.Peak > b.End || !(b.Size >= 0 && b.Size <= 1)) {
			t.Errorf("%s: move %+v", what, b)
		}
		next = b.End + 1
	}
	if next != frames {
		t.Errorf("%s: beats end before frame %d, want %d", what, next, frames)
	}
}

// TestShortAndTinyClips measures clips of few frames and few pixels.
func TestShortAndTinyClips(t *testing.T) {
	for _, c := range []struct {
		name         string
		w, h, frames int
		luma         func(n, x, y int) uint8
		shots        []int // first frames
	}{
		{"no frame", 64, 48, 0, tiles, nil},
		{"one frame", 64, 48, 1, tiles, []int{0}},
		{"one frame of 2 by 2", 2, 2, 1, black, []int{0}},
		{"two like frames", 64, 48, 2, tiles, []int{0}},
		{"two frames of two shots", 64, 48, 2, inTurn(1, tiles, weave), []int{0, 1}},
		{"cut on frame 1", 160, 90, 12, inTurn(1, tiles, weave), []int{0, 1}},
		{"cut on frame 2", 160, 90, 12, inTurn(2, tiles, weave), []int{0, 2}},
		{"cut on the last frame", 160, 90, 12, inTurn(11, tiles, weave), []int{0, 11}},
		{"cut to black", 160, 90, 24, inTurn(12, tiles, black), []int{0, 12}},
		{"2 by 2", 2, 2, 9, tiles, []int{0}},
		{"15 by 15", 15, 15, 9, tiles, []int{0}},
		{"17 by 16", 17, 16, 9, tiles, []int{0}},
		{"a line", 300, 2, 5, tiles, []int{0}},
		{"a column", 2, 300, 5, tiles, []int{0}},
		{"all black", 320, 180, 8, black, []int{0}},
		{"a box goes by", 160, 90, 20, box, []int{0}},
	} {
		r, err := Measure(context.Background(), &painted{frames: c.frames, luma: c.luma}, Options{Size: image.Pt(c.w, c.h), Rate: 24})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		whole(t, c.name, r, c.frames)
		var shots []int
		for _, s := range r.Shots {
			shots = append(shots, s.Start)
		}
		if !reflect.DeepEqual(shots, c.shots) {
			t.Errorf("%s: shots start on %v, want %v", c.name, shots, c.shots)
		}
		moves := 0
		for _, b := range r.Beats {
			if b.Kind == beats.Move {
				moves++
			}
		}
		if want := c.name == "a box goes by"; (moves > 0) != want {
			t.Errorf("%s: %d moves", c.name, moves)
		}
	}
}

// What cannot be measured is refused, and what a Source says is passed on.
func TestMeasureRefuses(t *testing.T) {
	for _, o := range []Options{
		{Size: image.Pt(64, 48)}, {Size: image.Pt(64, 48), Rate: -24}, {Rate: 24}, {Size: image.Pt(64, 0), Rate: 24}, {Size: image.Pt(-2, 2), Rate: 24},
	} {
		if _, err := Measure(context.Background(), &painted{frames: 2, luma: black}, o); err == nil {
			t.Errorf("%v at %g frames a second is measured", o.Size, o.Rate)
		}
	}
	torn := errors.New("torn film")
	if _, err := Measure(context.Background(), &painted{frames: 3, luma: tiles, fail: torn}, Options{Size: image.Pt(64, 48), Rate: 24}); !errors.Is(err, torn) {
		t.Errorf("error %v, want %v", err, torn)
	}
}

func TestProgressCountsFrames(t *testing.T) {
	var seen []int
	o := Options{Size: image.Pt(64, 48), Rate: 24, Progress: func(n int) { seen = append(seen, n) }}
	if _, err := Measure(context.Background(), &painted{frames: 4, luma: tiles}, o); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(seen, []int{0, 1, 2, 3}) {
		t.Errorf("progress told %v, want 0 to 3", seen)
	}
}

// exactly compares all that results hold, what is not exported too; what is not
// known is NaN in both.
var exactly = cmp.Options{cmpopts.EquateNaNs(), cmp.Exporter(func(reflect.Type) bool { return true })}

// TestSameOnAnyThreads: the same clip gives the same result to the last bit on a
// second run, on one processor and two, and with one thread in OpenCV and two.
func TestSameOnAnyThreads(t *testing.T) {
	sc := find(t, image.Pt(160, 90), "two-figures", "handheld-noise")
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	defer flow.SetThreads(-1)
	var first *Result
	for _, c := range []struct{ processors, threads int }{{2, 2}, {2, 2}, {1, 1}, {2, 1}, {1, 2}} {
		runtime.GOMAXPROCS(c.processors)
		flow.SetThreads(c.threads)
		r := measure(t, sc)
		if first == nil {
			first = r
		} else if diff := cmp.Diff(first, r, exactly); diff != "" {
			t.Errorf("%d processors, %d threads: the result differs from that of two and two: %s", c.processors, c.threads, diff)
		}
	}
	if len(first.Beats) < 2 {
		t.Errorf("beats %+v: nothing is compared", first.Beats)
	}
}

// TestSmallScenes holds small clips to the truth of their drawing.
func TestSmallScenes(t *testing.T) {
	for _, c := range []struct {
		name, variant string
		holds         bool // whether holds are compared too
	}{
		{"cut-same-set", "clean", true}, {"dissolve", "clean", true}, {"through-black", "clean", true},
		{"fades", "clean", false}, {"lens-pass", "clean", false}, {"whip-pan", "clean", false}, {"whip-pan", "handheld-noise", false},
		{"threes", "clean", true}, {"acting-cartoon", "noise", true}, {"acting", "flicker", true},
		{"acting-12fps", "clean", true}, {"acting-60fps", "clean", true}, {"camera-tilt", "noise", true},
	} {
		t.Run(c.name+"/"+c.variant, func(t *testing.T) {
			sc := find(t, image.Pt(320, 180), c.name, c.variant)
			r, truth := measure(t, sc), sc.Truth()
			whole(t, c.name, r, sc.Frames)
			sameCuts(t, r, truth)
			if c.holds {
				sameHolds(t, r, truth)
			}
			if c.name != "dissolve" && c.name != "lens-pass" {
				cameraWithin(t, r, truth, 0.1)
			}
		})
	}
}

// TestTwoFiguresHoldTogether: a beat is of the whole picture, which holds while
// both figures hold.
func TestTwoFiguresHoldTogether(t *testing.T) {
	sc := find(t, image.Pt(320, 180), "two-figures", "flicker")
	both := sc.Truth()
	var want []scene.Beat
	for _, a := range both.Figures[0].Beats {
		for _, b := range both.Figures[1].Beats {
			c := scene.Beat{Hold: true, Start: max(a.Start, b.Start), End: min(a.End, b.End)}
			if a.Hold && b.Hold && c.End-c.Start+1 >= scene.HoldFrames {
				want = append(want, c)
			}
		}
	}
	if len(want) < 4 {
		t.Fatalf("the two hold together on %+v only: it proves nothing", want)
	}
	sameHolds(t, measure(t, sc), scene.Truth{Figures: []scene.FigureTruth{{Beats: want}}})
}

// Kinds of camera, as drawn; travel over the shot within two pixels, and scale
// within a twentieth of a pixel a frame at the picture's sides.
func TestCameraKinds(t *testing.T) {
	for name, want := range map[string]string{
		"acting": camera.Still, "camera-pan": camera.Pan, "camera-tilt": camera.Tilt, "camera-push": camera.Push,
		"camera-pull": camera.Pull, "camera-handheld": camera.Handheld, "camera-mixed": camera.Mixed,
	} {
		sc := find(t, image.Pt(160, 90), name, "clean")
		r := measure(t, sc)
		got, truth := r.Shots[0].Camera, sc.Truth().Shots[0]
		if got.Kind != want || truth.Kind != want {
			t.Errorf("%s: camera %s, drawn as %s, want %s", name, got.Kind, truth.Kind, want)
		}
		sides := math.Abs(math.Log(got.Zoom/truth.Zoom)) * float64(sc.Width/2) / float64(sc.Frames)
		if d := math.Hypot(got.TravelX-truth.TravelX, got.TravelY-truth.TravelY); !(d <= 2 && sides <= 0.05) {
			t.Errorf("%s: travel (%.1f, %.1f) zoom %.3f, want (%.1f, %.1f) %.3f", name, got.TravelX, got.TravelY, got.Zoom, truth.TravelX, truth.TravelY, truth.Zoom)
		}
	}
}

var _ Source = (*scened)(nil)

// scened is a Source of a scene's first frames.
type scened struct {
	scene *scene.Scene
	next  int
	upTo  int
}

func (s *scened) Next(dst *image.YCbCr) error {
	if s.next >= s.upTo {
		return io.EOF
	}
	s.next++
	return s.scene.Draw(dst, s.next-1)
}

// What is told of the first half of a clip does not hang on the second: the
// steps of a camera and the cuts are the same when the clip ends sooner.
func TestWhatComesLaterChangesNoStep(t *testing.T) {
	sc := find(t, image.Pt(320, 180), "cuts", "clean")
	o := Options{Size: image.Pt(320, 180), Rate: 24}
	const upTo = 100
	part, err := Measure(context.Background(), &scened{scene: sc, upTo: upTo}, o)
	if err != nil {
		t.Fatal(err)
	}
	all := measure(t, sc)
	if !reflect.DeepEqual(part.Curve.Camera, all.Curve.Camera[:upTo]) {
		t.Error("camera steps of the first frames differ when the clip ends sooner")
	}
	if len(part.Shots) != 2 || part.Shots[0] != all.Shots[0] || part.Shots[1].Start != all.Shots[1].Start || part.Shots[1].End != upTo-1 {
		t.Errorf("shots %+v of %+v", part.Shots, all.Shots)
	}
}
