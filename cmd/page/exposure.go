package page

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"iter"
	"slices"
	"strings"

	"holdfast/sheet"
)

// An ExposureSheet is a beat sheet to print and to write on: a row a frame, as
// animators keep them, with poses that are held as runs, what stands, what is heard,
// the notes, and room for more. Its pages fit A4 and Letter.
type ExposureSheet struct {
	Sheet *sheet.Sheet
}

//go:embed parts/exposure.html
var exposureHTML string

//go:embed parts/exposure.css
var exposureCSS string

var exposureTemplate = parsed("exposure", exposureHTML)

// exposureLegend says what the signs mean, at the foot of each page.
const exposureLegend = "— a drawing comes up · ◆ the peak of a move · line: held; dotted: alive; double: moves; broken: slides; ring: in the air · ● stressed syllable, ○ syllable, ■ blow · notes in full at the end"

const (
	// rowsHigh is what the rows of a page take in all, millimetres: Letter, the lower
	// of the two, leaves 261 between its margins, and heads and foot want 29.
	rowsHigh = 232.0
	// tallestRow bounds a row, millimetres: more would waste paper.
	tallestRow = 6.5
	// mostRows is how many rows a page has at most: at four millimetres a row small
	// writing still fits.
	mostRows = 60
)

// Write writes the sheet as one HTML file that needs nothing else. All text in it is
// escaped.
func (e *ExposureSheet) Write(w io.Writer) error {
	if err := e.Sheet.Check(); err != nil {
		return err
	}
	if err := exposureTemplate.Execute(w, e.view()); err != nil {
		return fmt.Errorf("exposure sheet of %s: %w", sheet.Visible(e.Sheet.Clip.Name), err)
	}
	return nil
}

// An exposureView is what the template shows.
type exposureView struct {
	Policy, Name, Legend string
	CSS                  template.CSS
	Count                int
	Pages                iter.Seq[exposurePage]
	Notes, Remarks       []exposureWords
}

// exposureWords is a note or remark in full.
type exposureWords struct{ Frames, What, Text string }

// An exposurePage is a stretch of one shot.
type exposurePage struct {
	Number  int
	Words   string
	Heads   []exposureHead
	Columns []exposureColumn
	Rows    []exposureRow
}

// An exposureHead stands over one column or several.
type exposureHead struct {
	Name    string
	Columns int
}

// An exposureRow is one frame. A cell that goes on over rows stands in its first.
type exposureRow struct {
	Frame  int
	Second string // minutes and seconds, where one begins
	Cells  []exposureCell
}

type exposureCell struct {
	Span  int
	Class string
	Text  string
	Bar   string // its length, in per cent
	Lines int    // the most that its text may take; 0 where it is cut off
}

func (e *ExposureSheet) view() exposureView {
	rows := rowsOnPage(e.Sheet.Clip.FPS)
	css := fmt.Sprintf(":root { --row: %.2fmm; }\n%s", min(rowsHigh/float64(rows), tallestRow), exposureCSS)
	v := exposureView{
		Policy: policy("style-src '" + fingerprint(css) + "'"),
		CSS:    template.CSS(css), Name: sheet.Visible(e.Sheet.Clip.Name), Legend: exposureLegend,
		Pages: e.pages(rows),
	}
	for _, t := range e.Sheet.Shots {
		v.Count += (t.End - t.Start + rows) / rows
	}
	for _, n := range e.Sheet.Notes {
		v.Notes = append(v.Notes, exposureWords{frames(n.Start, n.End), noteName(n), sheet.Visible(n.Text)})
	}
	for _, r := range e.Sheet.Remarks {
		v.Remarks = append(v.Remarks, exposureWords{frames(r.Start, r.End), "remark", sheet.Visible(r.Text)})
	}
	return v
}

// frames writes a range of them in few characters: "43–51".
func frames(start, end int) string {
	if start == end {
		return fmt.Sprint(start)
	}
	return fmt.Sprintf("%d–%d", start, end)
}

// noteName is what a note is called on the rows and in the list: "3 fix: slide".
func noteName(n sheet.Note) string {
	return fmt.Sprintf("%d %s: %s", n.ID, n.Weight, sheet.Visible(n.Kind))
}

// rowsOnPage is how many frames a page has: as many whole seconds as go on it, or at
// high rates the largest even part of one.
func rowsOnPage(rate sheet.Rate) int {
	second := max(1, int(rate.Float()+0.5))
	if second <= mostRows {
		return mostRows / second * second
	}
	parts := (second + mostRows - 1) / mostRows
	return (second + parts - 1) / parts
}

// pages makes pages one by one: a long clip has thousands. A shot begins on a page of
// its own.
func (e *ExposureSheet) pages(rows int) iter.Seq[exposurePage] {
	return func(yield func(exposurePage) bool) {
		number := 0
		for _, t := range e.Sheet.Shots {
			columns := e.columns(t)
			for start := t.Start; start <= t.End; start += rows {
				number++
				if !yield(e.page(number, t, columns, start, min(start+rows-1, t.End))) {
					return
				}
			}
		}
	}
}

func (e *ExposureSheet) page(number int, t sheet.Shot, columns []exposureColumn, start, end int) exposurePage {
	s := e.Sheet
	p := exposurePage{Number: number, Heads: headsOf(columns), Columns: columns}
	shot := ""
	if len(s.Shots) > 1 {
		shot = fmt.Sprintf("shot %d of %d", t.ID, len(s.Shots))
	}
	p.Words = strings.Join(slices.DeleteFunc([]string{
		shot, fmt.Sprintf("frames %d–%d", start, end), s.Clip.FPS.Words() + " fps", "camera " + t.Camera.Kind,
	}, func(w string) bool { return w == "" }), " · ")
	for f := start; f <= end; f++ {
		p.Rows = append(p.Rows, exposureRow{Frame: f, Second: secondOf(s.Clip, f)})
	}
	for _, c := range columns {
		for f := start; f <= end; {
			cell := c.cell(f, start, end)
			r := &p.Rows[f-start]
			r.Cells = append(r.Cells, cell)
			f += cell.Span
		}
	}
	return p
}

// secondOf names the second that begins on a frame: "0:03".
func secondOf(c sheet.Clip, frame int) string {
	index := int64(frame - c.FirstFrame + c.Skipped)
	second := func(i int64) int64 { return i * c.FPS.Den / c.FPS.Num }
	if index > 0 && second(index) == second(index-1) {
		return ""
	}
	return fmt.Sprintf("%d:%02d", second(index)/60, second(index)%60)
}
