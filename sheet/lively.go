package sheet

import (
	"fmt"
	"strconv"

	"github.com/jedib0t/go-pretty/v6/text"

	"holdfast/sheet/internal/page"
)

// How lively a stretch is, against the mean of its figure in the shot.
const (
	LivelyWord = "lively"
	Quiet      = "quiet"
)

// A Lively is a stretch of a shot over which a figure, or the whole picture, is as
// lively throughout. They are told where that changes within the shot.
type Lively struct {
	Shot   int     `json:"shot"`
	Figure int     `json:"figure"` // 0: the whole picture
	Start  int     `json:"start"`
	End    int     `json:"end"`
	Pace   float64 `json:"heights_per_second"` // mean travel
	Word   string  `json:"word"`               // lively, quiet
}

// checkLively wants the stretches of a figure in order, two at least, inside its shot.
func (s *Sheet) checkLively() error {
	type who struct{ shot, figure int }
	last, count := map[who]int{}, map[who]int{}
	for i, l := range s.Lively {
		if l.Shot < 1 || l.Shot > len(s.Shots) {
			return bad(at("lively", i, "shot"), "is %d; there are %d shots", l.Shot, len(s.Shots))
		}
		shot := s.Shots[l.Shot-1]
		if err := within("lively", i, l.Start, l.End, shot.Start, shot.End); err != nil {
			return err
		}
		w := who{l.Shot, l.Figure}
		switch {
		case l.Figure < 0 || l.Figure > len(s.Figures):
			return bad(at("lively", i, "figure"), "is %d; there are %d figures", l.Figure, len(s.Figures))
		case count[w] > 0 && l.Start <= last[w]:
			return bad(at("lively", i, "start"), "is %d: the stretch before ends on %d", l.Start, last[w])
		case l.Word != LivelyWord && l.Word != Quiet:
			return bad(at("lively", i, "word"), "is %q", Visible(l.Word))
		case l.Pace < 0:
			return bad(at("lively", i, "heights_per_second"), "is %g", l.Pace)
		}
		last[w] = l.End
		count[w]++
	}
	for w, n := range count {
		if n < 2 {
			return bad("lively", "holds a single stretch of figure %d in shot %d", w.figure, w.shot)
		}
	}
	return nil
}

// writeLively writes where something turns lively or quiet.
func (s *Sheet) writeLively(p *page.Page) {
	if len(s.Lively) == 0 {
		return
	}
	right := text.AlignRight
	c := []page.Column{{Name: "shot", Align: right}, {Name: "figure"}, {Name: "is"}, {Name: "frames"}, {Name: "heights a second", Align: right}}
	for _, l := range s.Lively {
		figure := "all"
		if l.Figure > 0 {
			figure = strconv.Itoa(l.Figure)
		}
		addRow(c, strconv.Itoa(l.Shot), figure, l.Word, span(l.Start, l.End), fmt.Sprintf("%.2f", l.Pace))
	}
	p.Table(c)
}
