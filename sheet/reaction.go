package sheet

import (
	"fmt"
	"strconv"

	"github.com/jedib0t/go-pretty/v6/text"

	"holdfast/sheet/internal/page"
)

// reactionMost is how long after the peak of a move another figure may set off and
// still be answering it, seconds: a simple reaction takes 0.23 (D. Woods et al.,
// "Factors influencing the latency of simple reaction time", 2015), a thought
// before it a few times as long (common practice, no source).
const reactionMost = 0.75

// A Reaction is a move of one figure that sets off after another figure's.
type Reaction struct {
	Shot     int `json:"shot"`
	Figure   int `json:"figure"`    // that reacts
	Beat     int `json:"beat"`      // its move
	To       int `json:"to_figure"` // that moved first
	ToBeat   int `json:"to_beat"`   // its move
	Start    int `json:"start"`     // the frame on which the reaction sets off
	FromMove int `json:"from_move"` // frames from the start of the move before
	FromPeak int `json:"from_peak"` // frames from its peak; below 0 where it sets off before that
}

// reactions pairs each move of a figure with the last move of each other figure that
// set off before it, no more than reactionMost after that one's peak. Only moves out
// of a hold count: of others it is not known when they set off. Two that set off on
// one frame answer nothing.
func (s *Sheet) reactions() []Reaction {
	var list []Reaction
	most := int(reactionMost * s.Clip.FPS.Float())
	for i, b := range s.Beats {
		if !s.setsOff(i) {
			continue
		}
		last := map[int]Beat{} // of each other figure
		for k, a := range s.Beats {
			if a.Shot == b.Shot && a.Figure != b.Figure && a.Start < b.Start && s.setsOff(k) {
				last[a.Figure] = a
			}
		}
		for figure := 1; figure <= len(s.Figures); figure++ {
			a, ok := last[figure]
			if !ok || b.Start-*a.Peak > most || s.answered(list, b.Figure, a.ID) {
				continue
			}
			list = append(list, Reaction{
				Shot: b.Shot, Figure: b.Figure, Beat: b.ID, To: a.Figure, ToBeat: a.ID,
				Start: b.Start, FromMove: b.Start - a.Start, FromPeak: b.Start - *a.Peak,
			})
		}
	}
	return list
}

// setsOff reports whether a beat is a move of a single figure out of a hold.
func (s *Sheet) setsOff(i int) bool {
	b := s.Beats[i]
	return b.Figure > 0 && b.Kind == KindMove && b.Peak != nil && s.followsHold(i)
}

// answered reports whether a figure's reaction to a move is in the list.
func (s *Sheet) answered(list []Reaction, figure, to int) bool {
	for _, r := range list {
		if r.Figure == figure && r.ToBeat == to {
			return true
		}
	}
	return false
}

// checkReactions wants two moves of two figures of one shot.
func (s *Sheet) checkReactions() error {
	for i, r := range s.Reactions {
		for _, m := range []struct {
			name         string
			beat, figure int
		}{{"beat", r.Beat, r.Figure}, {"to_beat", r.ToBeat, r.To}} {
			if m.beat < 1 || m.beat > len(s.Beats) {
				return bad(at("reactions", i, m.name), "is %d; there are %d beats", m.beat, len(s.Beats))
			}
			if b := s.Beats[m.beat-1]; b.Kind != KindMove || b.Figure != m.figure || b.Shot != r.Shot {
				return bad(at("reactions", i, m.name), "%d is no move of figure %d in shot %d", m.beat, m.figure, r.Shot)
			}
		}
		if r.Start != s.Beats[r.Beat-1].Start || r.Start-r.FromMove != s.Beats[r.ToBeat-1].Start {
			return bad(at("reactions", i, "start"), "does not lie %d frames after beat %d", r.FromMove, r.ToBeat)
		}
	}
	return nil
}

// writeReactions writes who sets off after whom.
func (s *Sheet) writeReactions(p *page.Page) {
	if len(s.Reactions) == 0 {
		return
	}
	right := text.AlignRight
	c := []page.Column{
		{Name: "figure", Align: right}, {Name: "sets off", Align: right}, {Name: "after figure", Align: right},
		{Name: "move"}, {Name: "from start", Align: right}, {Name: "from peak", Align: right},
	}
	for _, r := range s.Reactions {
		a := s.Beats[r.ToBeat-1]
		addRow(c, strconv.Itoa(r.Figure), strconv.Itoa(r.Start), strconv.Itoa(r.To), span(a.Start, a.End),
			fmt.Sprintf("%+d f", r.FromMove), fmt.Sprintf("%+d f", r.FromPeak))
	}
	p.Table(c)
}
