package draw

import (
	"fmt"
	"image"
	"strings"
	"testing"

	"holdfast/sheet"
)

// marked is a sheet with everything an overlay draws, its camera on the move.
func marked() *sheet.Sheet {
	s := &sheet.Sheet{Clip: sheet.Clip{Name: "a.mp4", Width: 640, Height: 360, FPS: sheet.Rate{Num: 24, Den: 1}, Frames: 60, FirstFrame: 101}}
	s.Shots = []sheet.Shot{{Start: 101, End: 160, Camera: sheet.Camera{Kind: "pan", Zoom: 1}}}
	s.Figures = []sheet.Figure{{ID: 1, Shot: 1, Start: 101, End: 160, Height: 200}}
	s.Beats = []sheet.Beat{sheet.NewHold(1, 0, 101, 126, sheet.HoldFrozen), sheet.NewMove(1, 0, 127, 160, 140, 1)}
	from, to := 111, 121
	s.Contacts = []sheet.Contact{
		{Shot: 1, Figure: 1, Start: 105, End: 130, State: sheet.StateSlide, X: 300, Y: 250, SlipPx: 40, SlipShare: 0.2, SlideStart: &from, SlideEnd: &to},
	}
	s.Flights = []sheet.Flight{{Shot: 1, Figure: 1, Start: 131, End: 140, Frames: 10, RisePx: 50, RiseShare: 0.25}}
	s.Notes = []sheet.Note{{Kind: "slide", Start: 111, End: 121, Weight: sheet.WeightFix, Text: "the foot slides " + strings.Repeat("on and on ", 40)}}
	s.Remarks = []sheet.Remark{{Start: 150, End: 152, Text: "softer"}}
	s.Curve.Motion, s.Curve.Camera = make([]float64, 60), make([][4]float64, 60)
	for i := range s.Curve.Camera {
		s.Curve.Camera[i] = [4]float64{2, 0, 0, 1}
	}
	s.Complete()
	return s
}

func grey(size image.Point, y uint8) *image.YCbCr {
	f := image.NewYCbCr(image.Rectangle{Max: size}, image.YCbCrSubsampleRatio420)
	for i := range f.Y {
		f.Y[i] = y
	}
	for i := range f.Cb {
		f.Cb[i], f.Cr[i] = 128, 128
	}
	return f
}

// changed is the smallest rectangle of what differs between two frames, in a part
// of them.
func changed(a, b *image.YCbCr, in image.Rectangle) (r image.Rectangle) {
	for y := in.Min.Y; y < in.Max.Y; y++ {
		for x := in.Min.X; x < in.Max.X; x++ {
			if a.Y[a.YOffset(x, y)] != b.Y[b.YOffset(x, y)] {
				r = r.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return r
}

// A contact's bar goes with the ground, which a camera that turns to the right
// carries to the left, and with its slip.
func TestBarsFollowTheGround(t *testing.T) {
	s := marked()
	s.Notes, s.Flights = nil, nil
	size := image.Pt(640, 360)
	o := NewOverlay(s, size, false)
	below := image.Rect(0, 200, 640, 360)
	for _, test := range []struct{ frame, middle int }{{105, 300}, {110, 290}, {126, 300 - 2*21 + 40}, {130, 300 - 2*25 + 40}} {
		f, bare := grey(size, 90), grey(size, 90)
		o.Mark(f, test.frame-101)
		r := changed(f, bare, below)
		if got := (r.Min.X + r.Max.X) / 2; got < test.middle-2 || got > test.middle+2 {
			t.Errorf("frame %d: the bar's middle is at %d, want %d", test.frame, got, test.middle)
		}
	}
	f, bare := grey(size, 90), grey(size, 90)
	o.Mark(f, 150-101)
	if r := changed(f, bare, image.Rect(0, 60, 640, 300)); !r.Empty() {
		t.Errorf("frame 150, on which nothing stands, has something at %v", r)
	}
}

// The plate stands in the upper left corner of every frame of pictures of every
// size, and leaves the other side of the picture alone.
func TestOverlaySizes(t *testing.T) {
	for _, size := range []image.Point{{2, 2}, {64, 36}, {320, 180}, {360, 640}, {1920, 1080}} {
		s := marked()
		o := NewOverlay(s, size, false)
		bare := grey(size, 200)
		for i := range s.Clip.Frames {
			f := grey(size, 200)
			o.Mark(f, i)
			corner := changed(f, bare, image.Rect(0, 0, size.X/2, size.Y/3))
			if aside := changed(f, bare, image.Rect(size.X*3/4, 0, size.X, size.Y/3)); size.X >= 320 && (corner.Empty() || !aside.Empty()) {
				t.Fatalf("%v, frame %d: drawn on %v and %v", size, i, corner, aside)
			}
		}
	}
}

func TestOverlayWords(t *testing.T) {
	o := NewOverlay(marked(), image.Pt(640, 360), false)
	for n, want := range map[int]string{101: "hold, 1 of 26", 126: "hold, 26 of 26", 127: "move, 1 of 34", 140: "move, 14 of 34: peak"} {
		if got := o.beatWords(n); got != want {
			t.Errorf("frame %d: %q, want %q", n, got, want)
		}
	}
	for n, want := range map[int]string{1: "0001", 99999: "99999", -3: "-0003"} {
		if got := FrameNumber(n); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
	p := pen{grey(image.Pt(640, 360), 90), o.faces}
	lines := o.wrapped(p, o.style(false, 11), marked().Notes[0].Text, 300)
	if len(lines) != noteLines || !strings.HasSuffix(lines[1], "…") {
		t.Errorf("got %q", lines)
	}
	for _, l := range lines {
		if w := p.width(o.style(false, 11), l); w > 300 {
			t.Errorf("%q is %d wide", l, w)
		}
	}
	if got := fmt.Sprint(o.notes(151)); got != "[Remark: softer]" {
		t.Errorf("got %s", got)
	}
}

// The plate is legible on black and on white: its number differs from what is
// behind it by half of the range.
func TestPlateStandsOut(t *testing.T) {
	for _, ground := range []uint8{16, 128, 235} {
		f := grey(image.Pt(640, 360), ground)
		NewOverlay(marked(), image.Pt(640, 360), false).Mark(f, 0)
		lo, hi := uint8(255), uint8(0)
		for y := 14; y < 34; y++ {
			for x := 14; x < 60; x++ {
				v := f.Y[f.YOffset(x, y)]
				lo, hi = min(lo, v), max(hi, v)
			}
		}
		if hi-lo < 110 {
			t.Errorf("on %d the plate goes from %d to %d", ground, lo, hi)
		}
	}
}
