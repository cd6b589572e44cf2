package draw

import (
	"image"
	"math"
	"sort"

	"holdfast/sheet"
)

// Measures of a page, pixels.
const (
	rowHeight  = 6
	breakRows  = 4 // rows' height where frames without anything that stands are left out
	leftSide   = 62
	rightSide  = 230
	topSide    = 118
	bottomSide = 28
	bandWidth  = 900 // wished for
	bandMost   = 2400
	bandLeast  = 520 // so that the head has room
	scaleMost  = 4.0 // pixels a column
)

const (
	// besideShare is how much ground is shown beside the outermost contacts, figure
	// heights.
	besideShare = 0.5
	// soleShare is half of what is coloured around a contact's middle, figure
	// heights: half of a foot's length of 0.152, and a third more for big shoes.
	soleShare = 0.1
)

// A layout says where things are on a page.
type layout struct {
	*Page
	contacts []mark
	flights  []sheet.Flight
	left     float64 // column at the band's left edge
	scale    float64 // pixels a column
	width    int     // of the band
	tops     []int   // of each row
}

// A mark is a contact as the strip shows it. Frames count from the clip's first,
// places are columns.
type mark struct {
	sheet.Contact
	start, end int
	from, to   int // between which it slides
	x0, x1     float64
	half       float64
}

// at is the middle of the mark in a frame.
func (m *mark) at(frame float64) float64 {
	u := (frame - float64(m.from)) / math.Max(1, float64(m.to-m.from))
	return m.x0 + math.Min(1, math.Max(0, u))*(m.x1-m.x0)
}

func (p *Page) layout() *layout {
	l := &layout{Page: p}
	first, last := p.number(p.rows[0].Frame), p.number(p.rows[len(p.rows)-1].Frame)
	for _, c := range p.sheet.Contacts {
		if c.Shot == p.strip.Shot+1 && c.Start <= last && c.End >= first && p.strip.Reaches(c.Start-p.number(0)) {
			l.contacts = append(l.contacts, p.mark(c))
		}
	}
	for _, f := range p.sheet.Flights {
		if f.Shot == p.strip.Shot+1 && f.Start <= last && f.End >= first {
			l.flights = append(l.flights, f)
		}
	}
	l.spread()
	y := topSide
	for i, r := range p.rows {
		if i > 0 && r.Frame-p.rows[i-1].Frame > p.strip.Every {
			y += breakRows * rowHeight
		}
		l.tops = append(l.tops, y)
		y += rowHeight
	}
	return l
}

// mark lays a contact of the sheet onto the strip.
func (p *Page) mark(c sheet.Contact) mark {
	sx := float64(p.strip.W) / float64(p.sheet.Clip.Width)
	sy := float64(p.strip.H) / float64(p.sheet.Clip.Height)
	m := mark{Contact: c, start: c.Start - p.number(0), end: c.End - p.number(0)}
	from, to := c.Slide()
	m.from, m.to = from-p.number(0), to-p.number(0)
	scale := p.strip.Scale(m.start)
	m.x0 = p.strip.Column(m.start, c.X*sx, c.Y*sy)
	m.x1 = m.x0 + c.SlipPx*sx*scale
	m.half = soleShare * p.strip.Height
	if i := c.Figure - 1; i >= 0 && i < len(p.sheet.Figures) {
		m.half = soleShare * p.sheet.Figures[i].Height * sy * scale
	}
	return m
}

// spread fits the ground around all contacts of the page into the band.
func (l *layout) spread() {
	beside := besideShare * l.strip.Height
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range l.contacts {
		m := &l.contacts[i]
		lo, hi = math.Min(lo, math.Min(m.x0, m.x1)), math.Max(hi, math.Max(m.x0, m.x1))
	}
	if len(l.contacts) == 0 { // all of them on other pages
		lo, hi = float64(l.rows[0].X0), float64(l.rows[0].X0+len(l.rows[0].Cells))
	}
	lo, hi = lo-beside, hi+beside
	l.scale = math.Min(scaleMost, math.Max(1, bandWidth/(hi-lo)))
	l.scale = math.Min(l.scale, bandMost/(hi-lo))
	l.width = max(bandLeast, int(math.Ceil((hi-lo)*l.scale)))
	l.left = (lo+hi)/2 - float64(l.width)/2/l.scale
}

func (l *layout) size() image.Point {
	return image.Pt(leftSide+l.width+rightSide, l.bottom()+bottomSide)
}

func (l *layout) bottom() int { return l.tops[len(l.tops)-1] + rowHeight }

// x is the pixel of a column, inside the band or at its edge.
func (l *layout) x(column float64) int {
	x := int(math.Round((column - l.left) * l.scale))
	return leftSide + min(max(x, 0), l.width)
}

// top and under are the upper edge of a frame's row and the lower one, at the
// page's edge where the frame is on another page.
func (l *layout) top(frame int) int {
	i := sort.Search(len(l.rows), func(i int) bool { return l.rows[i].Frame > frame }) - 1
	if i < 0 {
		return l.tops[0]
	}
	past := min(frame-l.rows[i].Frame, l.strip.Every)
	return l.tops[i] + past*rowHeight/l.strip.Every
}

func (l *layout) under(frame int) int {
	if frame < l.rows[0].Frame {
		return l.tops[0]
	}
	return max(l.top(frame)+rowHeight/l.strip.Every, l.top(frame)+1)
}

// has reports whether a frame lies on the page.
func (l *layout) has(frame int) bool {
	return frame >= l.rows[0].Frame && frame <= l.rows[len(l.rows)-1].Frame+l.strip.Every-1
}
