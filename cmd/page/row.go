package page

import (
	"fmt"
	"html/template"
	"slices"

	"holdfast/sheet"
)

// A row is one line of the time axis. What is on it is laid out by the share of
// the clip's length, so that the page can stretch the axis as it likes.
type row struct {
	ID, Name string
	Lanes    int    // items that overlap go to lanes below each other
	Items    []item // in order of their frames
	Line     string // a curve: SVG path data over frames (from 0) by 0 to 100
	Frames   int    // of the clip
	Pictures []picture
	Bands    []picture // stretched over their frames
	Tall     int       // height in pixels
}

// laneHeight is that of one lane, pixels: what a finger hits.
const laneHeight = 26

// An item is one thing on a row. Whatever is on one can be gone to.
type item struct {
	Start, End int
	At         int    // the frame to go to
	Class      string // how it looks
	Label      string // in it, where there is room
	Text       string // all of it in words
	Shape      string // its outline in place of a bar: SVG path data over a square of 100
	Lane       int
	tall       int // height of its lane
	clip       *sheet.Clip
}

// X and W are where an item begins and how long it is, in per cent of the axis.
func (i item) X() string { return share(i.clip, i.Start) }
func (i item) W() string { return share(i.clip, i.clip.FirstFrame+i.End-i.Start+1) }

// Middle is the middle of an item of one frame, in per cent of the axis.
func (i item) Middle() string {
	return percent(float64(i.Start-i.clip.FirstFrame)+0.5, i.clip.Frames)
}

// Y is how far an item lies below the top of its row, pixels.
func (i item) Y() int { return i.Lane*i.tall + 2 }

// H is the height of an item, pixels.
func (i item) H() int { return i.tall - 4 }

// Base is where an item's label stands, pixels below its top.
func (i item) Base() int { return i.H() - 7 }

// A picture stands where its beat begins.
type picture struct {
	item
	URL           template.URL
	Width, Height int
}

// share is where a frame begins, in per cent of the axis.
func share(c *sheet.Clip, frame int) string {
	return percent(float64(frame-c.FirstFrame), c.Frames)
}

func percent(part float64, of int) string { return fmt.Sprintf("%.4f%%", 100*part/float64(of)) }

// rows are all rows that have something on them, from top to bottom. To add
// one, make a function that returns its items and name it here.
func (p *Page) rows() []row {
	s := p.Sheet
	var list []row
	add := func(r row) {
		if len(r.Items) > 0 || r.Line != "" || len(r.Pictures) > 0 || len(r.Bands) > 0 {
			list = append(list, r)
		}
	}
	add(p.pictures())
	for _, r := range beatRows(s) {
		add(r)
	}
	if p.Beside != nil {
		add(p.Beside.row(s))
	}
	add(curveRow(s))
	add(soundRow(s))
	add(itemRow(s, "words", "Speech", words(s)))
	add(itemRow(s, "exposure", "On ones, twos", exposure(s)))
	add(itemRow(s, "pops", "Pops", pops(s)))
	add(itemRow(s, "contacts", "Contacts", contacts(s)))
	add(itemRow(s, "steps", "Steps", steps(s)))
	add(p.ground())
	add(itemRow(s, "flights", "In the air", flights(s)))
	add(itemRow(s, "passages", "Enters and leaves", passages(s)))
	add(itemRow(s, "gaps", "Gaps between figures", gaps(s)))
	add(itemRow(s, "looks", "Looks", looks(s)))
	add(itemRow(s, "camera", "Camera", cameras(s)))
	add(itemRow(s, "notes", p.noteWord(), noteItems(p.notes())))
	// Remarks can be added on the page.
	return append(list, itemRow(s, "remarks", "Remarks", remarks(s)))
}

// itemRow lays items out on a row.
func itemRow(s *sheet.Sheet, id, name string, items []item) row {
	slices.SortStableFunc(items, func(a, b item) int { return a.Start - b.Start })
	var ends []int // of the last item in each lane
	for i := range items {
		lane := 0
		for lane < len(ends) && ends[lane] >= items[i].Start {
			lane++
		}
		if lane == len(ends) {
			ends = append(ends, 0)
		}
		ends[lane] = items[i].End
		items[i].Lane, items[i].clip = lane, &s.Clip
		if items[i].At == 0 {
			items[i].At = items[i].Start
		}
	}
	r := row{ID: id, Name: name, Items: items, Lanes: len(ends), Frames: s.Clip.Frames}
	return r.stretched(laneHeight)
}

// stretched gives the lanes of a row a height.
func (r row) stretched(tall int) row {
	for i := range r.Items {
		r.Items[i].tall = tall
	}
	r.Tall = r.Lanes * tall
	return r
}
