package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"
)

// writeHead says what the clip is.
func (s *Sheet) writeHead(p *page) {
	c := s.Clip
	p.line("%s", c.Name)
	p.line("%d × %d pixels, %s fps, %s, frames %s", c.Width, c.Height, c.FPS.Words(),
		lengthWords(c.Frames, c.Seconds), span(c.FirstFrame, c.Last()))
	if c.SourceFPS != nil {
		p.line("Made at %s fps; frames below count at %s fps.", c.SourceFPS.Words(), c.FPS.Words())
	}
	holds, held := 0, 0
	for _, b := range s.Beats {
		if b.Kind == KindHold {
			holds, held = holds+1, held+b.Frames
		}
	}
	p.line("%s: %s (%d frames), %s", count(len(s.Beats), "beat"), count(holds, "hold"), held,
		count(len(s.Beats)-holds, "move"))
}

// shotColumns is the table of shots.
func (s *Sheet) shotColumns() []column {
	c := []column{{name: "shot", align: text.AlignRight}, {name: "frames"}, {name: "length", align: text.AlignRight},
		{name: "camera"}, {name: "figures"}}
	for _, shot := range s.Shots {
		frames := shot.End - shot.Start + 1
		for i, cell := range []string{
			strconv.Itoa(shot.ID), span(shot.Start, shot.End),
			lengthWords(frames, s.Clip.length(frames)), shot.Camera.words(), s.figureWords(shot.ID),
		} {
			c[i].cells = append(c[i].cells, cell)
		}
	}
	return c
}

// figureWords names the figures of a shot: "1 (412 px)". One told from its
// background by motion alone says so.
func (s *Sheet) figureWords(shot int) string {
	var words []string
	for _, f := range s.Figures {
		if f.Shot != shot {
			continue
		}
		by := ""
		if f.Method == ByMotion {
			by = ", by motion"
		}
		words = append(words, fmt.Sprintf("%d (%.0f px%s)", f.ID, f.Height, by))
	}
	if len(words) == 0 {
		return "none"
	}
	return strings.Join(words, ", ")
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

// beatColumns is the table of beats.
func (s *Sheet) beatColumns() []column {
	right := text.AlignRight
	shot := column{name: "shot", align: right, spare: 1}
	figure := column{name: "figure", align: right}
	c := []column{
		{name: "beat", align: right}, {name: "frames"}, {name: "length", align: right},
		{name: "timecode", spare: 3}, {name: "kind"}, {name: "peak", align: right},
		{name: "ease in", align: right, spare: 2}, {name: "out", align: right, spare: 2},
		{name: "size", spare: 4}, {name: "", align: right},
	}
	for _, b := range s.Beats {
		figure.cells = append(figure.cells, strconv.Itoa(b.Figure))
		shot.cells = append(shot.cells, strconv.Itoa(b.Shot))
		for i, cell := range append([]string{
			strconv.Itoa(b.ID), span(b.Start, b.End), lengthWords(b.Frames, b.Seconds), b.Timecode, b.words(),
		}, moveWords(b)...) {
			c[i].cells = append(c[i].cells, cell)
		}
	}
	if len(s.Figures) > 1 {
		c = append([]column{figure}, c...)
	}
	if len(s.Shots) > 1 {
		c = append([]column{shot}, c...)
	}
	return c
}

// moveWords returns the cells only a move fills: peak, eases, bar, size.
func moveWords(b Beat) []string {
	size := ""
	if b.Size != nil {
		size = fmt.Sprintf("%.0f %%", 100**b.Size)
	}
	return []string{optional(b.Peak), optional(b.EaseIn), optional(b.EaseOut), bar(b.Size), size}
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
func (s *Sheet) writeFoot(p *page) {
	if len(s.Exposure)+len(s.Notes)+len(s.Clip.Warnings) > 0 || s.Repeats != nil {
		p.WriteString("\n")
	}
	for _, e := range s.Exposure {
		who := ""
		if len(s.Figures) > 1 {
			who = fmt.Sprintf("figure %d, ", e.Figure)
		}
		p.line("Exposure: %sframes %s %s, %.1f frames a drawing", who, span(e.Start, e.End),
			patternWords(e.Pattern), e.FramesPerDrawing)
	}
	if s.Repeats != nil {
		p.line("Conformed by repeating frames: one in every %d repeats the frame before, the first at %d. Repeats are no holds.",
			s.Repeats.Every, s.Repeats.First)
	}
	for _, n := range s.Notes {
		p.line("%s, frames %s: %s", strings.ToUpper(n.Weight[:1])+n.Weight[1:], span(n.Start, n.End), n.Text)
	}
	for _, w := range s.Clip.Warnings {
		p.line("Warning: %s", w)
	}
}

func patternWords(pattern string) string {
	switch pattern {
	case "ones", "twos", "threes", "fours":
		return "on " + pattern
	}
	return pattern
}

// span writes a range of frames with both ends.
func span(start, end int) string {
	if start == end {
		return strconv.Itoa(start)
	}
	return fmt.Sprintf("%d–%d", start, end)
}

// lengthWords writes a length in frames and in seconds: "25  1.04 s".
func lengthWords(frames int, seconds float64) string {
	return fmt.Sprintf("%d f %6.2f s", frames, seconds)
}

func count(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%d %s", n, what)
}
