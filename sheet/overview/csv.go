package overview

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"

	"holdfast/sheet"
)

var head = []string{
	"clip", "results", "shot", "pass", "newest", "frames", "seconds", "fps", "width", "height", "shots", "beats", "holds", "held_frames", "moves",
	"slides", "hops", "notes_fix", "notes_look", "kinds", "since", "fixed", "better", "still", "worse", "new",
	"reference", "likeness", "differences", "same_as", "error", "hint",
}

// WriteCSV writes a row a clip under a head, as the other tables are written:
// RFC 4180, and no cell that a spreadsheet takes for a formula.
func (o *Overview) WriteCSV(w io.Writer) error {
	var b bytes.Buffer
	b.WriteString(strings.Join(head, ",") + "\r\n")
	for _, list := range [][]Row{o.Rows, o.Same, o.Failed} {
		for _, r := range list {
			b.WriteString(strings.Join(r.cells(), ",") + "\r\n")
		}
	}
	if _, err := w.Write(b.Bytes()); err != nil {
		return fmt.Errorf("write the overview as CSV: %w", err)
	}
	return nil
}

// cells are those of a row; empty is what is not known.
func (r Row) cells() []string {
	cells := []string{sheet.CSVText(r.Path), sheet.CSVText(r.Name), sheet.CSVText(r.Shot), "", ""}
	switch {
	case r.Reference:
		cells[3] = reference
	case r.Pass > 0:
		cells[3] = strconv.Itoa(r.Pass)
	}
	if r.Newest {
		cells[4] = "yes"
	}
	cells = append(cells, r.counts()...)
	cells = append(cells, r.Since.cells()...)
	cells = append(cells, r.Against.cells()...)
	fail := Fail{}
	if r.Fail != nil {
		fail = *r.Fail
	}
	for _, text := range []string{r.Same, fail.Error, fail.Hint} {
		cells = append(cells, textCell(text))
	}
	return cells
}

// textCell is empty for no text.
func textCell(text string) string {
	if text == "" {
		return ""
	}
	return sheet.CSVText(text)
}

// counts are the cells from the frames to the kinds of notes.
func (r Row) counts() []string {
	const cells = 15
	if r.Clip.Frames == 0 {
		return make([]string, cells)
	}
	list := []string{strconv.Itoa(r.Clip.Frames), decimal(r.Clip.Seconds), r.Clip.FPS.String()}
	for _, n := range []int{r.Clip.Width, r.Clip.Height, r.Shots, r.Beats, r.Holds, r.Held, r.Moves, r.Slides, r.Hops, r.Fix, r.Look} {
		list = append(list, strconv.Itoa(n))
	}
	return append(list, textCell(strings.Join(r.Kinds, " ")))
}

func (c *Change) cells() []string {
	if c == nil {
		return make([]string, 6)
	}
	list := []string{sheet.CSVText(c.Name)}
	for _, n := range []int{c.Fixed, c.Better, c.Still, c.Worse, c.New} {
		if !c.Related {
			list = append(list, "")
			continue
		}
		list = append(list, strconv.Itoa(n))
	}
	return list
}

func (a *Agreement) cells() []string {
	switch {
	case a == nil:
		return make([]string, 3)
	case !a.Related:
		return []string{sheet.CSVText(a.Name), "", ""}
	}
	return []string{sheet.CSVText(a.Name), decimal(a.Likeness), strconv.Itoa(a.Changes)}
}

func decimal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
