package page

import (
	"fmt"
	"slices"
	"strings"

	"holdfast/sheet"
)

// An exposureColumn is a column of one shot. Of a frame it gives the cell that begins
// there, on a page that goes from one frame to another.
type exposureColumn struct {
	Head  string // columns of one head stand beside each other
	share float64
	cell  func(frame, start, end int) exposureCell
	Width string // in per cent
}

// headsOf joins the heads of neighbours.
func headsOf(columns []exposureColumn) []exposureHead {
	var list []exposureHead
	for _, c := range columns {
		if n := len(list); n > 0 && list[n-1].Name == c.Head {
			list[n-1].Columns++
			continue
		}
		list = append(list, exposureHead{c.Head, 1})
	}
	return list
}

// frameShare is the width of the column of frame numbers, per cent; the template has it.
const frameShare = 9

// columns are those of a shot that have something on them, and the empty one to
// write in. Their shares of the width are those of an A4 page that reads well.
func (e *ExposureSheet) columns(t sheet.Shot) []exposureColumn {
	s := e.Sheet
	list := []exposureColumn{e.travel(t), runs("drawing", 7.5, drawings(s, t))}
	for _, figure := range figuresOf(s, t) {
		head := "beats"
		if figure > 0 {
			head = fmt.Sprintf("figure %d", figure)
		}
		list = append(list, runs(head, 16, beatRuns(s, t, figure)))
	}
	list = append(list, lanes("feet", 18, s, within(feetRuns(s), t))...)
	list = append(list, lanes("looks", 14, s, within(looks(s), t))...)
	if s.Sound != nil {
		list = append(list, runs("sound", 4, within(words(s), t)), runs("sound", 5, within(accents(s), t)))
	}
	list = append(list, e.notes(t), exposureColumn{Head: "by hand", share: 24, cell: blank})
	sum := 0.0
	for _, c := range list {
		sum += c.share
	}
	for i := range list {
		list[i].Width = fmt.Sprintf("%.2f%%", (100-frameShare)*list[i].share/sum)
	}
	return list
}

// within are the items of a shot.
func within(items []item, t sheet.Shot) []item {
	return slices.DeleteFunc(slices.Clone(items), func(i item) bool { return i.Start < t.Start || i.Start > t.End })
}

// figuresOf are the figures that have beats in a shot, 0 for the picture as a whole.
func figuresOf(s *sheet.Sheet, t sheet.Shot) []int {
	var list []int
	for _, b := range s.Beats {
		if b.Shot == t.ID && !slices.Contains(list, b.Figure) {
			list = append(list, b.Figure)
		}
	}
	slices.Sort(list)
	return list
}

// beatRuns are the holds and moves of one figure, in words.
func beatRuns(s *sheet.Sheet, t sheet.Shot, figure int) (list []item) {
	for _, b := range s.Beats {
		if b.Shot != t.ID || b.Figure != figure {
			continue
		}
		i := item{Start: b.Start, End: b.End, Class: "move", Label: fmt.Sprintf("%s, %d", beatWords(b), b.Frames)}
		if b.Kind == sheet.KindHold {
			i.Class = b.Hold
		} else if words := b.SpacingWords(); words != "" {
			i.Label += ": " + words
		}
		list = append(list, i)
	}
	return list
}

// feetRuns are what stands, slides and flies, in words.
func feetRuns(s *sheet.Sheet) []item {
	list := contacts(s)
	for k := range list {
		if i := &list[k]; i.Class == sheet.StatePlant || i.Class == sheet.StateSlide {
			i.Label = strings.TrimSuffix(i.Class+" "+i.Label, " ")
		}
	}
	for _, f := range s.Flights {
		list = append(list, item{Start: f.Start, End: f.End, Class: "flight", Label: fmt.Sprintf("air, %d", f.Frames)})
	}
	return list
}

// lanes puts items that overlap into columns beside each other.
func lanes(head string, share float64, s *sheet.Sheet, items []item) []exposureColumn {
	r := itemRow(s, "", "", items)
	var list []exposureColumn
	for k := range r.Lanes {
		lane := slices.DeleteFunc(slices.Clone(r.Items), func(i item) bool { return i.Lane != k })
		list = append(list, runs(head, share/float64(r.Lanes), lane))
	}
	return list
}

func blank(frame, start, end int) exposureCell { return exposureCell{Span: 1} }

// classDrawn is the look of what is on one frame: a sign in place of a line.
const classDrawn = "drawn"

// runs is a column of things that follow each other, in order, and last.
func runs(head string, share float64, items []item) exposureColumn {
	return exposureColumn{Head: head, share: share, cell: func(frame, start, end int) exposureCell {
		k, ok := slices.BinarySearchFunc(items, frame, func(i item, f int) int { return i.End - f })
		if !ok && (k == len(items) || items[k].Start > frame) {
			return exposureCell{Span: 1}
		}
		i := items[k]
		c := exposureCell{Span: min(i.End, end) - frame + 1, Class: "run " + i.Class, Text: i.Label}
		if i.Start < frame {
			c.Class += " goes-on"
			c.Text = strings.TrimSuffix("… "+i.Label, "… ")
		}
		c.Lines = min(c.Span, mostLines)
		if strings.HasPrefix(i.Class, classDrawn) {
			c.Class, c.Text, c.Lines = i.Class, i.Label, 0
		}
		return c
	}}
}

// drawings are what is up: a pose as a run, the drawings of a move one by one.
func drawings(s *sheet.Sheet, t sheet.Shot) (list []item) {
	var track []sheet.Beat // of the picture, or of the figure that comes first
	for _, b := range s.Leading() {
		if b.Shot == t.ID && (len(track) == 0 || track[0].Figure == b.Figure) {
			track = append(track, b)
		}
	}
	landed := t.Start - 1 // the frame on which the last move's pose comes up
	for _, b := range track {
		if b.Kind == sheet.KindHold {
			if b.Start != landed {
				list = append(list, item{Start: b.Start, End: b.Start, Class: classDrawn, Label: "—"})
			}
			if b.Start < b.End {
				list = append(list, item{Start: b.Start + 1, End: b.End, Class: b.Hold})
			}
			continue
		}
		for _, f := range drawnFrames(b) {
			i := item{Start: f, End: f, Class: classDrawn, Label: "—"}
			if b.Peak != nil && *b.Peak == f {
				i.Class, i.Label = classDrawn+" peak", "◆"
			}
			list = append(list, i)
			landed = f
		}
	}
	return list
}

// drawnFrames are the first frames of a move's drawings: of poses that replace each
// other, which have no spacing, that of the move.
func drawnFrames(b sheet.Beat) []int {
	list := []int{b.Start}
	if b.Texture != nil && b.Texture.Spacing != nil {
		list = slices.Clone(b.Texture.Spacing.Drawings)
	}
	if b.Peak != nil && !slices.Contains(list, *b.Peak) {
		list = append(list, *b.Peak)
	}
	slices.Sort(list)
	return list
}

// accents are the instants on which the sound sets in anew.
func accents(s *sheet.Sheet) (list []item) {
	for _, a := range s.Sound.Accents {
		i := item{Start: a.Frame, End: a.Frame, Class: classDrawn, Label: "○"}
		switch {
		case !a.Spoken:
			i.Label = "■"
		case a.Stressed:
			i.Label = "●"
		}
		if n := len(list); n > 0 && list[n-1].Start == a.Frame {
			list[n-1].Label += i.Label
			continue
		}
		list = append(list, i)
	}
	return list
}

// travel is how far the picture's figures go to each frame, against the shot's
// farthest step.
func (e *ExposureSheet) travel(t sheet.Shot) exposureColumn {
	c := e.Sheet.Clip
	curve := e.Sheet.Curve.Motion
	most := slices.Max(curve[t.Start-c.FirstFrame : t.End-c.FirstFrame+1])
	return exposureColumn{Head: "travel", share: 6, cell: func(frame, start, end int) exposureCell {
		cell := exposureCell{Span: 1}
		if v := curve[frame-c.FirstFrame]; most > 0 && v >= most/100 {
			cell.Bar = fmt.Sprintf("%.0f%%", 100*v/most)
		}
		return cell
	}}
}

// mostLines is how many lines of one cell's words are shown; the style has a class for
// each.
const mostLines = 6

// notes says on its first row what there is to say of frames, and on the first row of a
// page what goes on there. The words take the rows that are free below.
func (e *ExposureSheet) notes(t sheet.Shot) exposureColumn {
	said := e.said(t)
	return exposureColumn{Head: "notes", share: 26, cell: func(frame, start, end int) exposureCell {
		c := exposureCell{Span: 1}
		var texts []string
		for _, w := range said {
			if max(w.Start, start) == frame && w.End >= frame {
				texts = append(texts, w.words(start))
			}
		}
		if len(texts) == 0 {
			return c
		}
		begins := func(i item) bool { return i.Start == frame+c.Span }
		for frame+c.Span <= end && c.Span < mostLines && !slices.ContainsFunc(said, begins) {
			c.Span++
		}
		c.Class, c.Text, c.Lines = "says", strings.Join(texts, "; "), c.Span
		return c
	}}
}

// said are the notes and remarks on a shot.
func (e *ExposureSheet) said(t sheet.Shot) (list []item) {
	add := func(start, end int, label string) {
		if start <= t.End && end >= t.Start {
			list = append(list, item{Start: max(start, t.Start), End: min(end, t.End), Label: label})
		}
	}
	for _, n := range e.Sheet.Notes {
		add(n.Start, n.End, noteName(n))
	}
	for _, r := range e.Sheet.Remarks {
		add(r.Start, r.End, "remark: "+sheet.Visible(r.Text))
	}
	return list
}

// words says what a note is and how far it goes, on a page from a frame on.
func (i item) words(start int) string {
	words := i.Label
	if i.Start < start {
		words = "… " + words
	}
	if i.End > i.Start {
		words += fmt.Sprintf(" (to %d)", i.End)
	}
	return words
}
