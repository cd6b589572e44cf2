package page

import (
	"fmt"
	"math"
	"strings"

	"holdfast/sheet"
)

// A ladder is the timing chart of a move, laid out in pixels: a line from the pose that
// it leaves to the one it lands on, a tick for each drawing.
type ladder struct {
	From, To int // frames of the two poses
	Width    int
	End      int // where the line ends; it begins at ladderEdge
	Ticks    []ladderTick
	Text     string
}

type ladderTick struct {
	X    string
	Peak bool
}

const (
	// ladderEdge is the room on either side of the line.
	ladderEdge = 4
	// A line is as long as that its ticks can be told apart, where they lie evenly, and
	// no longer than lets the table go on paper.
	ladderShort, ladderLong, ladderTickRoom = 180, 320, 5
)

// ladderOf is the timing chart of a beat; nil where it has none.
func ladderOf(b sheet.Beat) *ladder {
	c, ok := b.TimingChart()
	if !ok {
		return nil
	}
	line := min(max(ladderShort, ladderTickRoom*len(c.Ticks)), ladderLong)
	l := &ladder{From: c.From, To: c.Ticks[len(c.Ticks)-1].Frame, Width: line + 2*ladderEdge, End: line + ladderEdge}
	var shares []string
	for _, t := range c.Ticks {
		peak := b.Peak != nil && *b.Peak == t.Frame
		l.Ticks = append(l.Ticks, ladderTick{fmt.Sprintf("%.1f", ladderEdge+t.Share*float64(line)), peak})
		shares = append(shares, fmt.Sprint(math.Round(100*t.Share)))
	}
	l.Text = fmt.Sprintf("timing from %d to %d: drawings at %s per cent of the way", l.From, l.To, strings.Join(shares, ", "))
	return l
}
