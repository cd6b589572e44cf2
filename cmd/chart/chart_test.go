package chart

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"image/png"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"

	"holdfast/sheet"
)

// sample is a clip of holds of 12 frames and moves of 8 from frame 101 on, each move
// drawn on ones, with even spacing but for the first half of its way, which takes six.
func sample(beats int) *sheet.Sheet {
	s := &sheet.Sheet{
		Tool:     sheet.Tool{Name: "holdfast", Version: "test"},
		Clip:     sheet.Clip{Name: "lantern.mp4", Width: 640, Height: 360, FPS: sheet.Rate{Num: 24, Den: 1}, FirstFrame: 101, SHA256: strings.Repeat("0", 64)},
		Settings: map[string]any{},
	}
	at := 101
	for i := range beats {
		if i%2 == 0 {
			s.Beats = append(s.Beats, sheet.NewHold(1, 0, at, at+11, []string{sheet.HoldFrozen, sheet.HoldMoving}[i/2%2]))
			s.Contacts = append(s.Contacts, sheet.Contact{Shot: 1, Figure: 1, Start: at, End: at + 11, State: []string{sheet.StatePlant, sheet.StateSlide}[i/2%2], X: 100, Y: 300, SlipShare: 0.1})
			at += 12
			continue
		}
		b := sheet.NewMove(1, 0, at, at+7, at+6, float64(i%7)/7)
		spacing := &sheet.Spacing{}
		for k := range 8 {
			spacing.Drawings = append(spacing.Drawings, at+k)
			spacing.Travel = append(spacing.Travel, []float64{1, 1, 1, 1, 1, 1, 3, 3}[k]/12)
		}
		b.Texture = &sheet.Texture{Spacing: spacing}
		s.Beats = append(s.Beats, b)
		s.Flights = append(s.Flights, sheet.Flight{Shot: 1, Figure: 1, Start: at, End: at + 7, RisePx: 9, RiseShare: 0.1})
		at += 8
	}
	s.Clip.Frames = at - 101
	s.Shots = []sheet.Shot{{Start: 101, End: at - 1, Camera: sheet.Camera{Kind: "pan", Zoom: 1}}}
	s.Figures = []sheet.Figure{{Shot: 1, Start: 101, End: at - 1, Height: 100}}
	for f := range s.Clip.Frames {
		s.Curve.Motion = append(s.Curve.Motion, float64(f%20)/100)
		s.Curve.Camera = append(s.Curve.Camera, [4]float64{2, 0, 0, 1})
	}
	s.Complete()
	return s
}

// point goes a pixel a frame to the right, and with the pan that is three to the right.
func point(s *sheet.Sheet) []sheet.Point {
	p := sheet.Point{Name: "head", Start: s.Clip.FirstFrame}
	for f := range s.Clip.Frames {
		p.At = append(p.At, &[2]float64{100 + float64(f), 50 + 10*math.Sin(float64(f)/5)})
	}
	p.At[5] = nil
	return []sheet.Point{p}
}

func all(s *sheet.Sheet) (list []*Picture) {
	strip := Strip{s.Clip.FirstFrame, s.Clip.Last(), image.NewGray(image.Rect(0, 0, s.Clip.Frames, 20))}
	for _, pages := range [][]*Picture{Beats(s), Motion(s), Ground(s, []Strip{strip}), Timing(s), Paths(s, point(s))} {
		list = append(list, pages...)
	}
	return list
}

// drawn is what a page asks a canvas for.
func drawn(p *Picture) []recorder.Action {
	w, h := p.size()
	var r recorder.Canvas
	p.onto(draw.NewCanvas(&r, w, h))
	return r.Actions
}

// A written is a text of a page and the middle of it.
type written struct {
	text string
	x, y float64
}

func widthOf(t *recorder.FillString) vg.Length {
	face := font.DefaultCache.Lookup(t.Font, t.Size)
	return face.Width(t.String)
}

func texts(p *Picture) (list []written) {
	for _, a := range drawn(p) {
		if t, ok := a.(*recorder.FillString); ok {
			list = append(list, written{t.String, float64(t.Point.X + widthOf(t)/2), float64(t.Point.Y)})
		}
	}
	return list
}

// where finds a text that a page has once.
func where(t *testing.T, p *Picture, text string) written {
	t.Helper()
	var found []written
	for _, w := range texts(p) {
		if w.text == text {
			found = append(found, w)
		}
	}
	if len(found) != 1 {
		t.Fatalf("%s: %q is written %d times", p.Kind, text, len(found))
	}
	return found[0]
}

// Nothing is drawn or written beyond the paper, of two beats and of two hundred.
func TestChartsStayOnThePaper(t *testing.T) {
	for _, beats := range []int{2, 200} {
		for _, p := range all(sample(beats)) {
			w, h := p.size()
			in := func(what string, x, y vg.Length) {
				if x < -0.01 || y < -0.01 || x > w+0.01 || y > h+0.01 {
					t.Errorf("%d beats, %s page %d: %s at %g, %g of %g, %g", beats, p.Kind, p.Page, what, x, y, w, h)
				}
			}
			if h > 249*vg.Millimeter {
				t.Errorf("%s is %g mm high, more than Letter has", p.Kind, h/vg.Millimeter)
			}
			for _, a := range drawn(p) {
				switch a := a.(type) {
				case *recorder.Fill:
					for _, c := range a.Path {
						in("a shape", c.Pos.X, c.Pos.Y)
					}
				case *recorder.Stroke:
					for _, c := range a.Path {
						in("a line", c.Pos.X, c.Pos.Y)
					}
				case *recorder.FillString:
					if a.String != "heights a frame" && a.String != "down, pixels" { // these stand upright
						in(a.String, a.Point.X, a.Point.Y)
						in(a.String, a.Point.X+widthOf(a), a.Point.Y)
					}
				}
			}
		}
	}
}

// 200 beats are 2000 frames: nine lines of 240 or less, four level paths of which go on a
// page, and a hundred moves.
func TestPagesOfManyBeats(t *testing.T) {
	s := sample(200)
	for _, c := range []struct {
		kind  string
		pages []*Picture
		want  int
	}{
		{"beats", Beats(s), 1}, {"motion", Motion(s), 2}, {"ground", Ground(s, nil), 2}, {"timing", Timing(s), 4}, {"path", Paths(s, point(s)), 3},
	} {
		if len(c.pages) != c.want {
			t.Errorf("%s has %d pages, want %d", c.kind, len(c.pages), c.want)
			continue
		}
		last := c.pages[len(c.pages)-1]
		if want := fmt.Sprintf("-page%d", c.want); c.want > 1 && last.Suffix() != want {
			t.Errorf("%s: the last page is called %q", c.kind, last.Suffix())
		}
	}
	count := 0
	for _, p := range Beats(s) {
		for _, w := range texts(p) {
			if w.text == "12" || w.text == "8" {
				count++
			}
		}
	}
	if count < 200 { // a beat that goes on over a line's end has its length on both
		t.Errorf("%d lengths of beats are written", count)
	}
}

// The ticks of a timing chart are numbered where they lie: of 12 parts of the way the
// first six drawings go one each, the last two three.
func TestTimingIsDrawnInProportion(t *testing.T) {
	p := Timing(sample(2))[0]
	left, right := where(t, p, "112"), where(t, p, "120")
	for frame, parts := range map[string]float64{"113": 1, "118": 6, "119": 9} {
		if got := (where(t, p, frame).x - left.x) / (right.x - left.x); math.Abs(got-parts/12) > 0.002 {
			t.Errorf("frame %s lies at %.3f of the way, want %.3f", frame, got, parts/12)
		}
	}
}

// The peak of the only move is marked over its own frame.
func TestPeaksStandOverTheirFrames(t *testing.T) {
	p := Motion(sample(2))[0]
	a, b := where(t, p, "102"), where(t, p, "120")
	if got, want := where(t, p, "119").x, a.x+(b.x-a.x)*17/18; math.Abs(got-want) > 0.1 {
		t.Errorf("the peak stands at %.2f, frame 119 is at %.2f", got, want)
	}
}

// A camera that pans right by two pixels a frame is taken out of a path: it goes three
// a frame, so that in place of 19 pixels 57 lie between its first frame and its last.
// numbersOf are the numbers of a path's axis, which stand in one line: that below it (the
// lowest of the picture) or that at its left.
func numbersOf(p *Picture, below bool) (list []written) {
	least := math.Inf(1)
	for range 2 { // first how far out they stand, then which do
		for _, w := range texts(p) {
			if _, err := strconv.Atoi(w.text); err != nil {
				continue
			}
			out := w.x
			if below {
				out = w.y
			}
			if out < least-1 {
				least, list = out, nil
			}
			if math.Abs(out-least) < 4 && !slices.Contains(list, w) {
				list = append(list, w)
			}
		}
	}
	return list
}

// pointsPerPixel is the scale of a path's axis.
func pointsPerPixel(t *testing.T, p *Picture, below bool) float64 {
	t.Helper()
	list := numbersOf(p, below)
	if len(list) < 2 {
		t.Fatalf("%s: an axis has %d numbers", p.Kind, len(list))
	}
	a, b := list[0], list[len(list)-1]
	from, _ := strconv.Atoi(a.text)
	to, _ := strconv.Atoi(b.text)
	return math.Hypot(b.x-a.x, b.y-a.y) / math.Abs(float64(to-from))
}

func TestPathsTakeTheCameraOut(t *testing.T) {
	p := Paths(sample(2), point(sample(2)))[0]
	first, last := 0.0, 0.0
	for _, action := range drawn(p) {
		if dots, ok := action.(*recorder.Stroke); ok && len(dots.Path) == 14 { // the way after frame 106
			first, last = float64(dots.Path[0].Pos.X), float64(dots.Path[13].Pos.X)
		}
	}
	if got := (last - first) / pointsPerPixel(t, p, true); math.Abs(got-3*13) > 0.5 {
		t.Errorf("in 13 frames it goes %.1f pixels, want 39", got)
	}
}

// As far down as across is as long on paper, however wide, high or small a path is.
func TestPathsHaveOneScale(t *testing.T) {
	s := sample(2)
	for name, by := range map[string][2]float64{"level": {300, 2}, "upright": {3, 300}, "slanted": {200, 200}, "standing": {1, 1}} {
		way := sheet.Point{Name: name, Start: s.Clip.FirstFrame}
		for f := range s.Clip.Frames {
			share := float64(f) / float64(s.Clip.Frames-1)
			way.At = append(way.At, &[2]float64{100 + by[0]*share - 2*float64(f), 50 + by[1]*share}) // less the pan
		}
		p := Paths(s, []sheet.Point{way})[0]
		across, down := pointsPerPixel(t, p, true), pointsPerPixel(t, p, false)
		if math.Abs(across/down-1) > 0.03 { // numbers are placed to half a point
			t.Errorf("%s: a pixel is %.3f points across and %.3f down", name, across, down)
		}
	}
}

func TestFormsOfCharts(t *testing.T) {
	const evil = `</text><script>alert(1)</script>"'&‮`
	s := sample(4)
	s.Clip.Name = evil
	for _, p := range all(s) {
		picture, err := p.PNG()
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(bytes.NewReader(picture))
		if err != nil {
			t.Fatal(err)
		}
		if w := img.Bounds().Dx(); w < 1490 || w > 1510 {
			t.Errorf("%s is %d pixels wide", p.Kind, w)
		}
		svg, err := p.SVG()
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(readSVG(t, p.Kind, svg), `</text><script>alert(1)</script>"'&`) || bytes.Contains(svg, []byte("‮")) {
			t.Errorf("%s: the clip's name is not written as it should be", p.Kind)
		}
		again, err := p.SVG()
		if err != nil || !bytes.Equal(svg, again) {
			t.Errorf("%s is drawn differently the second time, %v", p.Kind, err)
		}
	}
}

// readSVG returns the words of a drawing, which has shapes and text alone.
func readSVG(t *testing.T, kind string, svg []byte) string {
	t.Helper()
	var b strings.Builder
	for d := xml.NewDecoder(bytes.NewReader(svg)); ; {
		token, err := d.Token()
		if err == io.EOF {
			return b.String()
		}
		if err != nil {
			t.Fatalf("%s: %v", kind, err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			if !strings.Contains(" svg g path text image ", " "+e.Name.Local+" ") {
				t.Errorf("%s has a %s", kind, e.Name.Local)
			}
		case xml.CharData:
			b.Write(e)
		}
	}
}

// What there is nothing of has no chart.
func TestNoCharts(t *testing.T) {
	s := sample(1)
	s.Contacts, s.Flights = nil, nil
	if n := len(Ground(s, nil)) + len(Timing(s)) + len(Paths(s, nil)); n != 0 {
		t.Errorf("%d pages of nothing", n)
	}
	if lines := linesOf(1, 252); len(lines) != 2 || lines[1].end != 252 || lines[0].long != 126 {
		t.Errorf("252 frames are in lines %v", lines)
	}
}
