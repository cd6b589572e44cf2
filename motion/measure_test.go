package motion

import (
	"context"
	"errors"
	"image"
	"io"
	"math"
	"reflect"
	"slices"
	"testing"

	"holdfast/motion/beats"
	"holdfast/motion/flow"
	"holdfast/motion/scene"
)

// drawn is a Source that draws a scene.
type drawn struct {
	scene *scene.Scene
	next  int
}

func (d *drawn) Next(dst *image.YCbCr) error {
	if d.next >= d.scene.Frames {
		return io.EOF
	}
	d.next++
	return d.scene.Draw(dst, d.next-1)
}

func measure(t *testing.T, sc *scene.Scene) *Result {
	t.Helper()
	r, err := Measure(context.Background(), &drawn{scene: sc}, Options{Size: image.Pt(sc.Width, sc.Height), Rate: sc.Rate.Float()})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// find returns a scene of the catalogue under a variant.
func find(t *testing.T, size image.Point, name, variant string) *scene.Scene {
	t.Helper()
	list, err := scene.Catalogue(size)
	if err != nil {
		t.Fatal(err)
	}
	for _, sc := range list {
		for _, v := range scene.Variants() {
			if sc.Name == name && v.Name == variant {
				out, err := sc.With(v)
				if err != nil {
					t.Fatal(err)
				}
				return out
			}
		}
	}
	t.Fatalf("no scene %s/%s", name, variant)
	return nil
}

// TestScenes holds the whole way of a clip to the truth of drawn scenes: every
// hold found and none besides, boundaries within a frame, cuts to the frame,
// the camera within a tenth of a pixel.
func TestScenes(t *testing.T) {
	small := image.Pt(320, 180)
	full := image.Pt(640, 360)
	for _, c := range []struct {
		size          image.Point
		name, variant string
	}{
		{full, "acting", "clean"}, {full, "acting", "noise"}, {full, "acting-line", "flicker"},
		{full, "acting-preview", "low-contrast"}, {full, "acting", "handheld"}, {full, "camera-pan", "clean"},
		{full, "camera-push", "clean"}, {full, "twos", "clean"}, {full, "moving-holds", "clean"},
		{full, "cuts", "clean"}, {full, "flashes", "clean"}, {full, "hops", "clean"}, {small, "acting", "clean"},
		{small, "acting", "noise"},
	} {
		t.Run(c.name+"/"+c.variant, func(t *testing.T) {
			sc := find(t, c.size, c.name, c.variant)
			r, truth := measure(t, sc), sc.Truth()
			sameCuts(t, r, truth)
			sameHolds(t, r, truth)
			cameraWithin(t, r, truth, 0.1)
		})
	}
}

func sameCuts(t *testing.T, r *Result, truth scene.Truth) {
	t.Helper()
	var cuts, joins []int
	for _, s := range r.Shots[1:] {
		if s.Join.Kind != "" {
			joins = append(joins, s.Start)
		} else {
			cuts = append(cuts, s.Start)
		}
	}
	if !slices.Equal(cuts, truth.Cuts) {
		t.Errorf("cuts at %v, want %v", cuts, truth.Cuts)
	}
	if !slices.Equal(joins, truth.Joins) {
		t.Errorf("joins at %v, want %v", joins, truth.Joins)
	}
}

func sameHolds(t *testing.T, r *Result, truth scene.Truth) {
	t.Helper()
	var want, got [][2]int
	for _, f := range truth.Figures {
		for _, b := range f.Beats {
			if b.Hold {
				want = append(want, [2]int{b.Start, b.End})
			}
		}
	}
	for _, b := range r.Beats {
		if b.Kind == beats.Hold {
			got = append(got, [2]int{b.Start, b.End})
		}
	}
	if len(got) != len(want) {
		t.Fatalf("holds %v, want %v", got, want)
	}
	for i := range got {
		for end := range 2 {
			if d := got[i][end] - want[i][end]; d < -1 || d > 1 {
				t.Errorf("hold %v, want %v within a frame", got[i], want[i])
			}
		}
	}
}

func cameraWithin(t *testing.T, r *Result, truth scene.Truth, limit float64) {
	t.Helper()
	sum, n := 0.0, 0
	for i, c := range truth.Camera {
		if c.Known {
			sum += math.Hypot(r.Curve.Camera[i].DX-c.DX, r.Curve.Camera[i].DY-c.DY)
			n++
		}
	}
	if mean := sum / float64(n); mean > limit {
		t.Errorf("camera off by %.3f px a frame, want at most %g", mean, limit)
	}
}

func TestConformIsSaid(t *testing.T) {
	r := measure(t, find(t, image.Pt(320, 180), "conform-24-in-30", "noise"))
	if r.Repeats == nil || r.Repeats.Every != 5 {
		t.Errorf("24 in 30: repeats %+v, want one in 5", r.Repeats)
	}
	if r := measure(t, find(t, image.Pt(320, 180), "acting", "noise")); r.Repeats != nil {
		t.Errorf("on ones: repeats %+v, want none", r.Repeats)
	}
}

func TestSameEveryTimeAndOnOneThread(t *testing.T) {
	sc := find(t, image.Pt(320, 180), "acting", "handheld-noise")
	want := measure(t, sc)
	flow.SetThreads(1)
	defer flow.SetThreads(-1)
	if got := measure(t, sc); !reflect.DeepEqual(got, want) {
		t.Error("a second run with one thread differs from the first")
	}
}

// plain is a Source of n frames of one grey.
type plain struct{ n int }

func (p *plain) Next(dst *image.YCbCr) error {
	if p.n == 0 {
		return io.EOF
	}
	p.n--
	for i := range dst.Y {
		dst.Y[i] = 16
	}
	for i := range dst.Cb {
		dst.Cb[i], dst.Cr[i] = 128, 128
	}
	return nil
}

func TestEdges(t *testing.T) {
	for _, c := range []struct{ w, h, frames int }{
		{2, 2, 1}, {2, 2, 5}, {14, 14, 9}, {16, 16, 9}, {640, 2, 4}, {64, 48, 1}, {64, 48, 2}, {320, 180, 30},
	} {
		r, err := Measure(context.Background(), &plain{c.frames}, Options{Size: image.Pt(c.w, c.h), Rate: 24})
		if err != nil {
			t.Errorf("%+v: %v", c, err)
			continue
		}
		if r.Frames != c.frames || len(r.Shots) != 1 || len(r.Beats) != 1 || r.Beats[0].Kind != beats.Hold || len(r.Curve.Motion) != c.frames {
			t.Errorf("%+v: %d frames, shots %+v, beats %+v", c, r.Frames, r.Shots, r.Beats)
		}
	}
}

func TestCancel(t *testing.T) {
	ctx, cancel := context.WithCancelCause(context.Background())
	cause := errors.New("enough")
	cancel(cause)
	if _, err := Measure(ctx, &plain{100}, Options{Size: image.Pt(64, 48), Rate: 24}); !errors.Is(err, cause) {
		t.Errorf("error %v, want %v", err, cause)
	}
}
