package draw

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"slices"
	"strings"

	"holdfast/sheet"
)

// An Overlay burns what a sheet says into the frames of its clip: the frame's
// number, the beat with how long a hold lasts, what stands, slides and flies,
// and the notes of the frame.
type Overlay struct {
	sheet  *sheet.Sheet
	thirds bool
	title  string        // third line of the plate; empty: none
	points []sheet.Point // whose arcs are drawn
	faces  *faces

	unit   float64 // pixels of the frame that stand for one of 360 lines
	sx, sy float64 // pixels of the frame for one of the clip
	paths  [][]spot
	beats  []*sheet.Beat // of each frame, those of the whole picture
	low    bool          // feet stand where notes would be
}

// A spot is a place on a frame, pixels of the clip.
type spot struct{ x, y float64 }

// NewOverlay makes the overlay of a clip whose frames are drawn at a size.
func NewOverlay(s *sheet.Sheet, size image.Point, thirds bool) *Overlay {
	o := &Overlay{
		sheet: s, thirds: thirds, faces: &faces{},
		unit: math.Max(0.6, math.Min(float64(size.X)/640, float64(size.Y)/360)),
		sx:   float64(size.X) / float64(s.Clip.Width), sy: float64(size.Y) / float64(s.Clip.Height),
		beats: make([]*sheet.Beat, s.Clip.Frames),
	}
	o.low = o.lowFeet()
	for _, c := range s.Contacts {
		o.paths = append(o.paths, o.path(c))
	}
	for i := range s.Beats {
		b := &s.Beats[i]
		for f := b.Start; f <= b.End; f++ {
			if at := &o.beats[f-s.Clip.FirstFrame]; *at == nil || b.Figure < (*at).Figure {
				*at = b
			}
		}
	}
	return o
}

// Called writes a title under the number and beat of each frame, and returns o.
func (o *Overlay) Called(title string) *Overlay {
	o.title = title
	return o
}

// path is where a contact's spot is in each of its frames: it stays on the
// ground, which the camera carries through the picture, and slips along it.
func (o *Overlay) path(c sheet.Contact) []spot {
	at := spot{c.X, c.Y}
	list := []spot{at}
	from, to := c.Slide()
	for f := c.Start + 1; f <= c.End; f++ {
		at = o.carried(at, f)
		if f > from && f <= to {
			at.x += c.SlipPx / float64(to-from)
		}
		list = append(list, at)
	}
	return list
}

// carried is where the camera's step to a frame takes a spot of the still world.
func (o *Overlay) carried(p spot, frame int) spot {
	x, y := o.sheet.Carry(p.x, p.y, frame)
	return spot{x, y}
}

// Mark draws on the frame with an index from 0.
func (o *Overlay) Mark(frame *image.YCbCr, index int) {
	p := pen{frame, o.faces}
	n := o.sheet.Clip.FirstFrame + index
	if o.thirds {
		o.drawThirds(p)
	}
	o.drawContacts(p, n)
	o.drawFlights(p, n)
	o.drawArcs(p, n)
	o.drawPlate(p, n)
	o.drawNotes(p, n)
}

// px is a number of pixels of the frame for one of 360 lines, at least one.
func (o *Overlay) px(n float64) int { return max(1, int(math.Round(n*o.unit))) }

func (o *Overlay) style(bold bool, size float64) style {
	return style{bold, math.Max(9, math.Round(size*o.unit))}
}

var white = color.RGBA{255, 255, 255, 255}

// dim is the share of ink behind words: dark enough for white to read on snow.
const dim = 0.7

// lines writes lines of words on a plate with its corner at a point, to the left
// or upward of it where asked, and returns what it takes.
func (o *Overlay) lines(p pen, at image.Point, up bool, styles []style, lines []string) {
	pad, y, w := o.px(5), 0, 0
	for i, l := range lines {
		y += int(styles[i].size*1.3 + 0.5)
		w = max(w, p.width(styles[i], l))
	}
	r := image.Rect(at.X, at.Y, at.X+w+2*pad, at.Y+y+pad)
	if up {
		r = r.Sub(image.Pt(0, y+pad))
	}
	p.fill(r, ink, dim)
	y = r.Min.Y + pad/2
	for i, l := range lines {
		high := int(styles[i].size*1.3 + 0.5)
		p.write(styles[i], l, r.Min.X+pad, y+high/2, white)
		y += high
	}
}

// NumberDigits is how many digits a frame's number has at least in a plate.
const NumberDigits = 4

// FrameNumber writes the number of a frame as it is drawn and as files are named
// by it.
func FrameNumber(n int) string {
	if n < 0 {
		return fmt.Sprintf("-%0*d", NumberDigits, -n)
	}
	return fmt.Sprintf("%0*d", NumberDigits, n)
}

// drawPlate writes the frame's number and its beat in the upper left corner.
func (o *Overlay) drawPlate(p pen, n int) {
	styles := []style{o.style(true, 20), o.style(false, 12)}
	lines := []string{FrameNumber(n), o.beatWords(n)}
	if o.title != "" {
		styles, lines = append(styles, o.style(false, 12)), append(lines, o.faces.fitted(o.style(false, 12), o.title, p.Rect.Dx()/2))
	}
	o.lines(p, image.Pt(o.px(8), o.px(8)), false, styles, lines)
}

// beatWords names the beat of a frame and how far it is.
func (o *Overlay) beatWords(n int) string {
	b := o.beats[n-o.sheet.Clip.FirstFrame]
	switch {
	case b == nil:
		return ""
	case b.Kind == sheet.KindHold:
		return fmt.Sprintf("hold, %d of %d", n-b.Start+1, b.Frames)
	case b.Peak != nil && *b.Peak == n:
		return fmt.Sprintf("move, %d of %d: peak", n-b.Start+1, b.Frames)
	}
	return fmt.Sprintf("move, %d of %d", n-b.Start+1, b.Frames)
}

func (o *Overlay) drawThirds(p pen) {
	first, rows := o.sheet.Clip.Shown()
	w, top, h, thick := p.Rect.Dx(), int(math.Round(first*o.sy)), int(math.Round(rows*o.sy)), o.px(1)
	for i := 1; i <= 2; i++ {
		x, y := i*w/3, top+i*h/3
		for _, r := range []image.Rectangle{image.Rect(x, top, x+thick, top+h), image.Rect(0, y, w, y+thick)} {
			p.fill(r.Add(image.Pt(thick, thick)), ink, 0.3)
			p.fill(r, white, 0.5)
		}
	}
}

// drawContacts draws a bar under what stands, with an arrow under what slides;
// of several that slide the foremost says how far.
func (o *Overlay) drawContacts(p pen, n int) {
	type slip struct {
		c    sheet.Contact
		x, y float64
	}
	var foremost *slip
	for i, c := range o.sheet.Contacts {
		if n < c.Start || n > c.End {
			continue
		}
		at := o.paths[i][n-c.Start]
		x, y := at.x*o.sx, at.y*o.sy+2*o.unit
		half := o.half(c)
		from, to := c.Slide()
		if c.State != sheet.StateSlide || n < from || n > to {
			o.bar(p, x-half, y, x+half, y, plant)
			continue
		}
		tip := x + way(c)*(half+12*o.unit)
		for _, to := range []float64{y - 5*o.unit, y + 5*o.unit} {
			o.bar(p, tip, y, tip-way(c)*7*o.unit, to, slide)
		}
		o.bar(p, x-half, y, tip, y, slide)
		if foremost == nil || way(c)*(x-foremost.x) > 0 {
			foremost = &slip{c, x, y}
		}
	}
	if foremost != nil {
		o.drawSlip(p, foremost.c, foremost.x, foremost.y)
	}
}

// half is half of what is drawn under a contact.
func (o *Overlay) half(c sheet.Contact) float64 {
	return soleShare * o.sheet.Figures[c.Figure-1].Height * o.sx
}

// way is 1 for a slip to the right, -1 to the left.
func way(c sheet.Contact) float64 { return math.Copysign(1, c.SlipPx) }

// bar is a line that is seen on any ground.
func (o *Overlay) bar(p pen, x0, y0, x1, y1 float64, with color.RGBA) {
	p.stroke(x0, y0, x1, y1, 5*o.unit, white)
	p.stroke(x0, y0, x1, y1, 3*o.unit, with)
}

// drawSlip says beside the tip of a contact's arrow how far it slips.
func (o *Overlay) drawSlip(p pen, c sheet.Contact, x, y float64) {
	words := fmt.Sprintf("slides %.1f %%", 100*math.Abs(c.SlipShare))
	s := o.style(true, 11)
	wide := p.width(s, words) + 2*o.px(5)
	left := int(x + way(c)*(o.half(c)+18*o.unit))
	if way(c) < 0 {
		left -= wide
	}
	left = min(max(left, 0), p.Rect.Dx()-wide)
	o.lines(p, image.Pt(left, int(y)-int(s.size)), false, []style{s}, []string{words})
}

// drawFlights draws how high a flight goes, where its figure left the ground.
func (o *Overlay) drawFlights(p pen, n int) {
	for _, f := range o.sheet.Flights {
		if n < f.Start || n > f.End {
			continue
		}
		at, ok := o.tookOff(f, n)
		if !ok {
			continue
		}
		x, y := at.x*o.sx, at.y*o.sy
		top := y - f.RisePx*o.sy
		for _, l := range []struct {
			thick float64
			with  color.RGBA
		}{{4, white}, {2, aloft}} {
			p.stroke(x, y, x, top, l.thick*o.unit, l.with)
			p.stroke(x-5*o.unit, y, x+5*o.unit, y, l.thick*o.unit, l.with)
			p.stroke(x-5*o.unit, top, x+5*o.unit, top, l.thick*o.unit, l.with)
		}
		o.lines(p, image.Pt(int(x+8*o.unit), int(top)), false, []style{o.style(true, 11)},
			[]string{fmt.Sprintf("up %.0f %%, %d of %d", 100*f.RiseShare, n-f.Start+1, f.Frames)})
	}
}

// tookOff is where the ground that a figure left is in a frame.
func (o *Overlay) tookOff(f sheet.Flight, n int) (at spot, ok bool) {
	best := -1
	for i, c := range o.sheet.Contacts {
		if c.Figure == f.Figure && c.Shot == f.Shot && c.End < f.Start && (best < 0 || c.End > o.sheet.Contacts[best].End) {
			best = i
		}
	}
	if best < 0 {
		return at, false
	}
	c := o.sheet.Contacts[best]
	at = o.paths[best][c.End-c.Start]
	for frame := c.End + 1; frame <= n; frame++ {
		at = o.carried(at, frame)
	}
	return at, true
}

const (
	// mostNotes is how many notes are shown at once, noteLines how many lines of
	// each: more would hide the picture.
	mostNotes = 2
	noteLines = 2
	// noteShare is the share of the picture's height at its lower edge where notes
	// stand, unless feet do.
	noteShare = 0.14
)

// drawNotes writes what there is to say of the frame at the lower edge, or at the
// upper one where feet stand low in the picture.
func (o *Overlay) drawNotes(p pen, n int) {
	s := o.style(false, 11)
	corner, up := image.Pt(o.px(8), p.Rect.Dy()-o.px(8)), true
	if o.low {
		corner, up = image.Pt(o.px(plateWidth), o.px(8)), false
	}
	room := p.Rect.Dx() - corner.X - o.px(8) - 2*o.px(5)
	var lines []string
	for _, words := range o.notes(n) {
		lines = append(lines, o.wrapped(p, s, words, room)...)
	}
	if len(lines) > 0 {
		o.lines(p, corner, up, slices.Repeat([]style{s}, len(lines)), lines)
	}
}

// plateWidth, of 640, is what the plate with the frame's number takes at most.
const plateWidth = 150

// notes are the remarks and notes of a frame.
func (o *Overlay) notes(n int) (said []string) {
	for _, r := range o.sheet.Remarks {
		if n >= r.Start && n <= r.End {
			said = append(said, "Remark: "+sheet.Visible(r.Text))
		}
	}
	for _, note := range o.sheet.Notes {
		if n >= note.Start && n <= note.End {
			said = append(said, strings.ToUpper(note.Weight[:1])+note.Weight[1:]+": "+sheet.Visible(note.Text))
		}
	}
	return said[:min(len(said), mostNotes)]
}

// lowFeet reports whether anything stands where notes would be.
func (o *Overlay) lowFeet() bool {
	for _, c := range o.sheet.Contacts {
		if c.Y > (1-noteShare)*float64(o.sheet.Clip.Height) {
			return true
		}
	}
	return false
}

// wrapped breaks words at spaces into lines of a width; what does not go into
// the lines there are is cut.
func (o *Overlay) wrapped(p pen, s style, words string, room int) (lines []string) {
	line := ""
	for _, word := range strings.Fields(words) {
		longer := strings.TrimPrefix(line+" "+word, " ")
		if p.width(s, longer) <= room || line == "" || len(lines) == noteLines-1 {
			line = longer
			continue
		}
		lines, line = append(lines, line), word
	}
	return append(lines, o.faces.fitted(s, line, room))
}
