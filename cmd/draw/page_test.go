package draw

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"strings"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/strip"
	"holdfast/sheet"
)

const (
	cols   = 300
	height = 150.0 // of the figure, columns
	foot   = 22    // columns
)

// made is a made-up clip at twice the working size, numbered from 1001, with one
// foot that stands at column 60 for the first third of its frames, slides from
// column 120 to 135 for the second, and stands at column 200 for the last but for
// ten frames in the air.
func made(frames int) (*sheet.Sheet, *strip.Strip) {
	third := frames / 3
	st := strip.New(cols, 40, 0)
	st.Height = height
	for f := range frames {
		st.Path = append(st.Path, camera.Identity)
		r := strip.Row{Frame: f, Cells: make([]strip.Cell, cols)}
		for i := range r.Cells {
			r.Cells[i] = strip.Cell{Y: 120, Cb: 128, Cr: 128}
		}
		if x, ok := where(f, third); ok {
			for i := x - foot/2; i < x+foot/2; i++ {
				r.Cells[i] = strip.Cell{Y: 90, Cb: 110, Cr: 150, Cover: 255}
			}
		}
		st.Rows = append(st.Rows, r)
	}
	n := func(f int) int { return 1001 + f }
	s := &sheet.Sheet{
		Clip:    sheet.Clip{Name: "lantern.mp4", Width: 2 * cols, Height: 80, FirstFrame: 1001, Frames: frames},
		Shots:   []sheet.Shot{{ID: 1, Start: 1001, End: n(frames - 1)}},
		Figures: []sheet.Figure{{ID: 1, Shot: 1, Start: 1001, End: n(frames - 1), Height: 2 * height}},
		Contacts: []sheet.Contact{
			{Shot: 1, Figure: 1, Start: n(0), End: n(third - 1), State: sheet.StatePlant, X: 120, Y: 60},
			{Shot: 1, Figure: 1, Start: n(third), End: n(2*third - 1), State: sheet.StateSlide, X: 240, Y: 60, SlipPx: 30, SlipShare: 0.1},
			{Shot: 1, Figure: 1, Start: n(2*third + 10), End: n(frames - 1), State: sheet.StatePlant, X: 400, Y: 60},
		},
		Flights: []sheet.Flight{{Shot: 1, Figure: 1, Start: n(2 * third), End: n(2*third + 9), RiseShare: 0.12}},
	}
	return s, st
}

func where(f, third int) (x int, ok bool) {
	switch {
	case f < third:
		return 60, true
	case f < 2*third:
		return 120 + 15*(f-third)/(third-1), true
	}
	return 200, f >= 2*third+10
}

func TestBarsAreColoured(t *testing.T) {
	s, st := made(90)
	p := Ground(s, st)[0]
	l, picture := p.layout(), p.image()
	for i, r := range p.rows {
		x, stands := where(r.Frame, 30)
		at := picture.RGBAAt(l.x(float64(x)+6), l.tops[i]+3)
		want, name := plant, "plant"
		switch {
		case !stands:
			want, name = air, "air"
		case r.Frame >= 30 && r.Frame < 60:
			want, name = slide, "slide"
		}
		if unlike(at, want) > 120 {
			t.Errorf("frame %d: colour %v, want one near %s %v", r.Frame, at, name, want)
		}
	}
}

func unlike(a, b color.RGBA) int {
	d := func(x, y uint8) int { return max(int(x)-int(y), int(y)-int(x)) }
	return d(a.R, b.R) + d(a.G, b.G) + d(a.B, b.B)
}

// The bar of a slide leans by its slip, drawn to scale.
func TestSlideLeans(t *testing.T) {
	s, st := made(90)
	l := Ground(s, st)[0].layout()
	m := l.contacts[1]
	if m.x0 != 120 || m.x1 != 135 {
		t.Errorf("slides from column %g to %g, want 120 to 135", m.x0, m.x1)
	}
	if got, want := float64(l.x(m.x1)-l.x(m.x0)), 15*l.scale; got < want-1 || got > want+1 {
		t.Errorf("leans by %g pixels, want %g", got, want)
	}
}

func TestSameBytes(t *testing.T) {
	var first []byte
	for range 3 {
		s, st := made(90)
		data, err := Ground(s, st)[0].PNG()
		if err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = data
		}
		if !bytes.Equal(first, data) {
			t.Fatal("two drawings of one strip differ")
		}
	}
	config, err := png.DecodeConfig(bytes.NewReader(first))
	if err != nil {
		t.Fatal(err)
	}
	if config.Height != topSide+90*rowHeight+bottomSide {
		t.Errorf("%d pixels high", config.Height)
	}
}

func TestPages(t *testing.T) {
	s, st := made(900)
	var suffixes []string
	seen := 0
	for _, p := range Ground(s, st) {
		suffixes = append(suffixes, p.Suffix())
		if n := len(p.rows); n > pageRows || p.rows[0].Frame != seen {
			t.Errorf("page %d has %d rows from frame %d", p.Of, n, p.rows[0].Frame)
		}
		seen += len(p.rows)
		if title := p.layout().title(); !strings.Contains(title, "page") {
			t.Errorf("title %q", title)
		}
		p.image() // contacts that go on over the edge must not panic
	}
	if got := strings.Join(suffixes, " "); got != "-page1 -page2 -page3" || seen != 900 {
		t.Errorf("pages %s of %d frames", got, seen)
	}
	s.Shots = append(s.Shots, sheet.Shot{ID: 2})
	st.Shot = 1
	if got := Ground(s, st)[2].Suffix(); got != "-shot2-page3" {
		t.Errorf("suffix %q", got)
	}
}

// A thinned strip says so, and its contacts stay at their frames.
func TestThinned(t *testing.T) {
	s, st := made(90)
	strip.Fit([]*strip.Strip{st}, 50*cols)
	p := Ground(s, st)[0]
	l := p.layout()
	if st.Every != 2 || !strings.Contains(l.pace(), "every 2 frames") {
		t.Errorf("every %d: %q", st.Every, l.pace())
	}
	for frame, want := range map[int]int{0: topSide, 30: topSide + 15*rowHeight, 31: topSide + 15*rowHeight + rowHeight/2} {
		if got := l.top(frame); got != want {
			t.Errorf("frame %d at %d, want %d", frame, got, want)
		}
	}
	p.image()
}

// Frames without anything near them that stands leave a gap with words in it.
func TestBreak(t *testing.T) {
	s, st := made(90)
	st.Rows = append(st.Rows[:40:40], st.Rows[70:]...)
	l := Ground(s, st)[0].layout()
	if got, want := l.tops[40]-l.tops[39], (1+breakRows)*rowHeight; got != want {
		t.Errorf("rows apart by %d, want %d", got, want)
	}
	l.image()
}

// Remarks that share rows have lanes of their own.
func TestRemarks(t *testing.T) {
	s, st := made(90)
	s.Notes = []sheet.Note{
		{Kind: "slide", Start: 1031, End: 1060}, {Kind: "rooted-feet", Start: 1001, End: 1090}, {Kind: "frozen-hold", Start: 1001, End: 1090},
	}
	l := Ground(s, st)[0].layout()
	list := append(l.flightRemarks(), l.noteRemarks()...)
	if len(list) != 3 { // a frozen hold is not to be seen on the ground
		t.Fatalf("%d remarks", len(list))
	}
	if lanes := spreadLanes([]remark{list[2], list[1], list[0]}); lanes != 2 {
		t.Errorf("%d lanes", lanes)
	}
	if r := list[1]; r.y0 != l.tops[30] || r.y1 != l.tops[59]+rowHeight || r.words != "note: slide 1031–1060" {
		t.Errorf("remark %+v", r)
	}
}

// However long the clip's name, the title stays in the picture, and a contact of
// no known figure is drawn all the same.
func TestOddSheets(t *testing.T) {
	s, st := made(90)
	s.Clip.Name = strings.Repeat("W", 80) + "_v031.mov"
	s.Contacts[0].Figure = 0
	s.Contacts[1].Start = 900 // before the strip
	p := Ground(s, st)[0]
	l := p.layout()
	if title := l.title(); !strings.Contains(title, "_v031.mov") || width(head, title) > l.size().X-16 {
		t.Errorf("title %q is %d pixels wide", title, width(head, title))
	}
	if len(l.contacts) != 2 || l.contacts[0].half <= 0 {
		t.Errorf("contacts %+v", l.contacts)
	}
	p.image()
}

func TestWordsKeepClear(t *testing.T) {
	c := newCanvas(image.Pt(400, 200))
	c.write(text, "first", 100, 100, ink)
	if c.free(bounds(text, "second", 110, 102)) || !c.free(bounds(text, "second", 110, 130)) {
		t.Error("words lie on each other")
	}
	if c.free(bounds(text, "off the picture", 380, 100)) {
		t.Error("words leave the picture")
	}
}
