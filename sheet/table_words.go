package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"

	"holdfast/sheet/internal/page"
)

// writeHead says what the clip is.
func (s *Sheet) writeHead(p *page.Page) {
	c := s.Clip
	p.Line("%s", c.Name)
	p.Line("%d × %d pixels, %s fps, %s (%s), %.2f s", c.Width, c.Height, c.FPS.Words(),
		count(c.Frames, "frame"), span(c.FirstFrame, c.Last()), c.Seconds)
	if c.Bars != nil {
		p.Line("Black bars of %d rows above the picture and %d below.", c.Bars.Above, c.Bars.Below)
	}
	if c.SourceFPS != nil {
		p.Line("Made at %s fps; frames below count at %s fps.", c.SourceFPS.Words(), c.FPS.Words())
	}
	holds, held := 0, 0
	beats := s.Leading()
	for _, b := range beats {
		if b.Kind == KindHold {
			holds, held = holds+1, held+b.Frames
		}
	}
	p.Line("%s: %s (%s), %s", count(len(beats), "beat"), count(holds, "hold"), count(held, "frame"),
		count(len(beats)-holds, "move"))
}

// shotColumns is the table of shots.
func (s *Sheet) shotColumns() []page.Column {
	c := []page.Column{
		{Name: "shot", Align: text.AlignRight}, {Name: "frames"}, {Name: "length", Align: text.AlignRight},
		{Align: text.AlignRight, Spare: 1}, {Name: "camera", Wraps: true}, {Name: "figures", Wraps: true},
	}
	for _, shot := range s.Shots {
		frames := shot.End - shot.Start + 1
		for i, cell := range []string{
			strconv.Itoa(shot.ID), span(shot.Start, shot.End), fmt.Sprintf("%d f", frames),
			secondWords(s.Clip.length(frames)), shot.words(), s.figureWords(shot.ID),
		} {
			c[i].Cells = append(c[i].Cells, cell)
		}
	}
	return c
}

// figureWords names the figures of a shot: "1 (412 px)". One shown by
// hand, or told from its background by motion alone, says so.
func (s *Sheet) figureWords(shot int) string {
	var words []string
	for _, f := range s.Figures {
		if f.Shot != shot {
			continue
		}
		by := ""
		switch f.Method {
		case ByHand:
			by = ", shown"
		case ByMotion:
			by = ", by motion"
		}
		words = append(words, fmt.Sprintf("%d (%.0f px%s)", f.ID, f.Height, by))
	}
	if len(words) == 0 {
		return "none"
	}
	return strings.Join(words, ", ")
}

// words says what the camera does, and how the shot begins where that is no cut.
func (s Shot) words() string {
	if s.Join == nil {
		return s.Camera.words()
	}
	return s.Camera.words() + "; " + s.Join.words()
}

// words says what the camera does: "pan, 120 px right".
func (c Camera) words() string {
	w := []string{c.Kind}
	if c.Kind == "still" || c.Kind == "unknown" {
		return c.Kind
	}
	if x := math.Round(c.TravelX); x != 0 {
		w = append(w, fmt.Sprintf("%.0f px %s", math.Abs(x), side(x, "right", "left")))
	}
	if y := math.Round(c.TravelY); y != 0 {
		w = append(w, fmt.Sprintf("%.0f px %s", math.Abs(y), side(y, "down", "up")))
	}
	if z := fmt.Sprintf("%.2f", c.Zoom); z != "1.00" {
		w = append(w, "zoom "+z)
	}
	return strings.Join(w, ", ")
}

func side(x float64, positive, negative string) string {
	if x < 0 {
		return negative
	}
	return positive
}

// beatColumns is the table of beats. Shot and figure stand in it only where
// the rest leaves them open.
func (s *Sheet) beatColumns() []page.Column {
	right := text.AlignRight
	shot := page.Column{Name: "shot", Align: right, Spare: 1}
	figure := page.Column{Name: "figure", Align: right}
	c := []page.Column{
		{Name: "beat", Align: right}, {Name: "frames"}, {Name: "length", Align: right}, {Align: right, Spare: 2},
		{Name: "timecode", Spare: 5}, {Name: "kind"}, {Name: "in", Align: right, Spare: 3},
		{Name: "peak", Align: right}, {Name: "out", Align: right, Spare: 3},
		{Name: "size", Align: right}, {Spare: 4},
	}
	spacing := page.Column{Name: "spacing", Spare: 6}
	spaced := false
	for _, b := range s.Beats {
		shot.Cells = append(shot.Cells, strconv.Itoa(b.Shot))
		figure.Cells = append(figure.Cells, figureName(b.Figure))
		for i, cell := range []string{
			strconv.Itoa(b.ID), span(b.Start, b.End), fmt.Sprintf("%d f", b.Frames), secondWords(b.Seconds),
			b.Timecode, b.words(),
			optional(b.EaseIn), optional(b.Peak), optional(b.EaseOut), percent(b.Size), bar(b.Size),
		} {
			c[i].Cells = append(c[i].Cells, cell)
		}
		spacing.Cells = append(spacing.Cells, b.SpacingWords())
		spaced = spaced || b.SpacingWords() != ""
	}
	if spaced {
		c = append(c, spacing)
	}
	if s.crowded() {
		c = append([]page.Column{figure}, c...)
	}
	if len(s.Shots) > 1 {
		c = append([]page.Column{shot}, c...)
	}
	return c
}

// crowded reports whether a shot has beats of more than one figure.
func (s *Sheet) crowded() bool {
	seen := map[int]int{}
	for _, b := range s.Beats {
		if figure, ok := seen[b.Shot]; ok && figure != b.Figure {
			return true
		}
		seen[b.Shot] = b.Figure
	}
	return false
}

func figureName(figure int) string {
	if figure == 0 {
		return "all"
	}
	return strconv.Itoa(figure)
}

func percent(share *float64) string {
	if share == nil {
		return ""
	}
	if *share > 0 && *share < 0.01 {
		return "<1 %" // a move all the same, however small against the biggest
	}
	return fmt.Sprintf("%.0f %%", 100**share)
}

// barCells is the width of a full bar.
const barCells = 12

// bar draws a size of 0 to 1 in eighths of a character.
func bar(size *float64) string {
	if size == nil {
		return ""
	}
	eighths := int(math.Round(*size * barCells * 8))
	b := strings.Repeat("█", eighths/8)
	if rest := eighths % 8; rest > 0 {
		b += string([]rune("▏▎▍▌▋▊▉")[rest-1])
	}
	return b
}

// writeFoot says how the drawings are exposed, then notes and warnings.
func (s *Sheet) writeFoot(p *page.Page) {
	lines := append(s.exposureLines(), s.unknownLines()...)
	if len(lines)+len(s.Notes)+len(s.Remarks)+len(s.Clip.Warnings) > 0 || s.Repeats != nil {
		p.WriteString("\n")
	}
	for _, l := range lines {
		p.Line("%s", l)
	}
	if s.Repeats != nil {
		p.Line("Conformed by repeating frames: one in every %d repeats the frame before, the first at %d. Repeats are no holds.",
			s.Repeats.Every, s.Repeats.First)
	}
	for _, n := range s.Notes {
		p.Line("%s, %s: %s", capital(n.Weight), frameWords(n.Start, n.End), n.Text)
	}
	for _, r := range s.Remarks {
		p.Line("Remark, %s: %s", frameWords(r.Start, r.End), r.Text)
	}
	for _, w := range s.Clip.Warnings {
		p.Line("Warning: %s", w)
	}
}

// exposureLines returns one line for each figure and pattern, in the order
// they first come: "On twos: frames 12–31, 40–55 (2.0 frames a drawing)".
func (s *Sheet) exposureLines() []string {
	type voice struct {
		figure  int
		pattern string
	}
	var order []voice
	spans := map[voice][]string{}
	frames, drawings := map[voice]float64{}, map[voice]float64{}
	for _, e := range s.Exposure {
		v := voice{pattern: e.Pattern}
		if s.crowded() {
			v.figure = e.Figure
		}
		if spans[v] == nil {
			order = append(order, v)
		}
		n := float64(e.End - e.Start + 1)
		spans[v] = append(spans[v], span(e.Start, e.End))
		frames[v], drawings[v] = frames[v]+n, drawings[v]+n/e.FramesPerDrawing
	}
	var lines []string
	for _, v := range order {
		who := patternWords(v.pattern)
		switch {
		case !s.crowded():
		case v.figure == 0:
			who = "the whole picture " + who
		default:
			who = "figure " + figureName(v.figure) + " " + who
		}
		lines = append(lines, fmt.Sprintf("%s: frames %s (%.1f frames a drawing)",
			capital(who), strings.Join(spans[v], ", "), frames[v]/drawings[v]))
	}
	return lines
}

func patternWords(pattern string) string {
	switch pattern {
	case "ones", "twos", "threes", "fours":
		return "on " + pattern
	}
	return pattern
}

func secondWords(seconds float64) string { return fmt.Sprintf("%.2f s", seconds) }

func span(start, end int) string { return page.Span(start, end) }

func frameWords(start, end int) string { return page.Frames(start, end) }

func count(n int, what string) string { return page.Count(n, what) }

func capital(s string) string { return page.Capital(s) }
