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

// togetherMost is by how many frames the starts of two moves may lie apart and be one
// start: either is known within a frame, and so the eye reads it too (common practice,
// no source). It is the error of the measure, which is in frames at any rate.
const togetherMost = 1

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

// A Together is two moves of two figures that set off on one frame, as far as that is
// known.
type Together struct {
	Shot     int `json:"shot"`
	Figure   int `json:"figure"`
	Beat     int `json:"beat"` // its move
	With     int `json:"with_figure"`
	WithBeat int `json:"with_beat"` // that one's move
	Start    int `json:"start"`     // the frame on which Figure sets off
	Apart    int `json:"apart"`     // frames from the other's start, -1 to 1
}

// reactions pairs each move of a figure with the last move of each other figure that
// set off before it, no more than reactionMost after that one's peak. Only moves out
// of a hold count: of others it is not known when they set off. Two that set off
// together answer nothing, and none answers a move before that one for the other.
func (s *Sheet) reactions() []Reaction {
	var list []Reaction
	most := int(reactionMost * s.Clip.FPS.Float())
	s.eachAnswer(func(a, b Beat) {
		if startsApart(a, b) <= togetherMost || b.Start-*a.Peak > most || s.answered(list, b.Figure, a.ID) {
			return
		}
		list = append(list, Reaction{
			Shot: b.Shot, Figure: b.Figure, Beat: b.ID, To: a.Figure, ToBeat: a.ID,
			Start: b.Start, FromMove: b.Start - a.Start, FromPeak: b.Start - *a.Peak,
		})
	})
	return list
}

// together pairs the moves of two figures that set off together, each pair once, under
// the figure with the higher number.
func (s *Sheet) together() []Together {
	var list []Together
	s.eachAnswer(func(a, b Beat) {
		if startsApart(a, b) <= togetherMost && a.Figure < b.Figure {
			list = append(list, Together{
				Shot: b.Shot, Figure: b.Figure, Beat: b.ID, With: a.Figure, WithBeat: a.ID,
				Start: b.Start, Apart: b.Start - a.Start,
			})
		}
	})
	return list
}

// eachAnswer calls do with each move b of a figure that sets off, and of each other
// figure the last move a that set off before it or together with it.
func (s *Sheet) eachAnswer(do func(a, b Beat)) {
	for i, b := range s.Beats {
		if !s.setsOff(i) {
			continue
		}
		last := map[int]Beat{} // of each other figure
		for k, a := range s.Beats {
			if a.Shot == b.Shot && a.Figure != b.Figure && a.Start <= b.Start+togetherMost && s.setsOff(k) {
				last[a.Figure] = a
			}
		}
		for figure := 1; figure <= len(s.Figures); figure++ {
			if a, ok := last[figure]; ok {
				do(a, b)
			}
		}
	}
}

// startsApart is by how many frames the starts of two beats lie apart.
func startsApart(a, b Beat) int { return max(a.Start-b.Start, b.Start-a.Start) }

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

// checkReactions wants two moves of two figures of one shot, as far apart as is told.
func (s *Sheet) checkReactions() error {
	for i, r := range s.Reactions {
		if err := s.checkPair("reactions", i, r.Shot, [2]int{r.Beat, r.ToBeat}, [2]int{r.Figure, r.To}); err != nil {
			return err
		}
		if r.Start != s.Beats[r.Beat-1].Start || r.Start-r.FromMove != s.Beats[r.ToBeat-1].Start {
			return bad(at("reactions", i, "start"), "does not lie %d frames after beat %d", r.FromMove, r.ToBeat)
		}
	}
	for i, g := range s.Together {
		if err := s.checkPair("together", i, g.Shot, [2]int{g.Beat, g.WithBeat}, [2]int{g.Figure, g.With}); err != nil {
			return err
		}
		if g.Start != s.Beats[g.Beat-1].Start || g.Start-g.Apart != s.Beats[g.WithBeat-1].Start {
			return bad(at("together", i, "start"), "does not lie %d frames after beat %d", g.Apart, g.WithBeat)
		}
	}
	return nil
}

// checkPair wants two beats to be moves of two figures of a shot.
func (s *Sheet) checkPair(list string, i, shot int, beats, figures [2]int) error {
	names := map[string][2]string{"reactions": {"beat", "to_beat"}, "together": {"beat", "with_beat"}}[list]
	for k, beat := range beats {
		if beat < 1 || beat > len(s.Beats) {
			return bad(at(list, i, names[k]), "is %d; there are %d beats", beat, len(s.Beats))
		}
		if b := s.Beats[beat-1]; b.Kind != KindMove || b.Figure != figures[k] || b.Shot != shot {
			return bad(at(list, i, names[k]), "%d is no move of figure %d in shot %d", beat, figures[k], shot)
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

// writeTogether writes who sets off together with whom.
func (s *Sheet) writeTogether(p *page.Page) {
	if len(s.Together) == 0 {
		return
	}
	right := text.AlignRight
	c := []page.Column{
		{Name: "figure", Align: right}, {Name: "sets off", Align: right}, {Name: "together with figure", Align: right},
		{Name: "move"}, {Name: "apart", Align: right},
	}
	for _, g := range s.Together {
		a := s.Beats[g.WithBeat-1]
		addRow(c, strconv.Itoa(g.Figure), strconv.Itoa(g.Start), strconv.Itoa(g.With), span(a.Start, a.End), fmt.Sprintf("%+d f", g.Apart))
	}
	p.Table(c)
}
