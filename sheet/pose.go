package sheet

import (
	"fmt"
	"math"
	"strconv"

	"github.com/jedib0t/go-pretty/v6/text"

	"holdfast/sheet/internal/page"
)

// A Pose is what a figure holds in a hold of the whole picture. There is one only
// where a shot has one figure all of whose outline is known.
type Pose struct {
	Beat     int      `json:"beat"` // id of the hold
	Shot     int      `json:"shot"`
	Figure   int      `json:"figure"`
	Start    int      `json:"start"`
	End      int      `json:"end"`
	Lean     *float64 `json:"lean_degrees,omitempty"` // of the silhouette's principal axis from upright, positive with its top to the right; nil where it is as wide as tall
	Width    float64  `json:"width_share"`            // figure heights
	Height   float64  `json:"height_share"`           // figure heights
	Contrast *float64 `json:"contrast,omitempty"`     // one minus intersection over union with the pose before in the shot, laid on each other; nil for the first
	Way      *float64 `json:"way_contrast,omitempty"` // the most by which the silhouette differs from that pose on the way from it; nil where nothing lies between
	Back     int      `json:"back_to,omitempty"`      // id of the earlier hold whose pose comes back; 0 for none
}

// leanDigits are the decimals of a lean: it is known to a degree or two.
const leanDigits = 1

func (s *Sheet) completePoses() {
	for i := range s.Poses {
		p := &s.Poses[i]
		p.Width, p.Height = round(p.Width, shareDigits), round(p.Height, shareDigits)
		p.Lean = rounded(p.Lean, leanDigits)
		p.Contrast, p.Way = rounded(p.Contrast, shareDigits), rounded(p.Way, shareDigits)
	}
}

// checkPoses wants poses of holds, and of earlier ones where they come back.
func (s *Sheet) checkPoses() error {
	for i, p := range s.Poses {
		if err := s.inShot("poses", i, p.Shot, p.Figure, p.Start, p.End); err != nil {
			return err
		}
		if p.Beat < 1 || p.Beat > len(s.Beats) || s.Beats[p.Beat-1].Kind != KindHold {
			return bad(at("poses", i, "beat"), "is %d, no hold", p.Beat)
		}
		if p.Back < 0 || p.Back >= p.Beat || p.Back > 0 && s.Beats[p.Back-1].Kind != KindHold {
			return bad(at("poses", i, "back_to"), "is %d, no earlier hold", p.Back)
		}
		if p.Lean != nil && !(*p.Lean >= -90 && *p.Lean <= 90) {
			return bad(at("poses", i, "lean_degrees"), "is %g", *p.Lean)
		}
		if p.Contrast != nil && !(*p.Contrast >= 0 && *p.Contrast <= 1) {
			return bad(at("poses", i, "contrast"), "is %g", *p.Contrast)
		}
		if p.Way != nil && !(*p.Way >= 0 && *p.Way <= 1) {
			return bad(at("poses", i, "way_contrast"), "is %g", *p.Way)
		}
		if !(p.Width > 0) || !(p.Height > 0) {
			return bad(at("poses", i, ""), "is %g wide and %g high", p.Width, p.Height)
		}
	}
	return nil
}

// writePoses writes what is held, hold by hold.
func (s *Sheet) writePoses(p *page.Page) {
	if len(s.Poses) == 0 {
		return
	}
	right := text.AlignRight
	c := []page.Column{
		{Name: "pose", Align: right}, {Name: "frames"}, {Name: "lean", Align: right}, {Name: "width", Align: right, Spare: 1},
		{Name: "height", Align: right, Spare: 1}, {Name: "contrast", Align: right}, {Name: "comes back"},
	}
	for _, o := range s.Poses {
		back := ""
		if o.Back > 0 {
			b := s.Beats[o.Back-1]
			back = fmt.Sprintf("from %s", span(b.Start, b.End))
		}
		addRow(c, strconv.Itoa(o.Beat), span(o.Start, o.End), leanWords(o.Lean), wholePercent(o.Width), wholePercent(o.Height),
			percent(o.Contrast), back)
	}
	p.Table(c)
}

// leanWords writes a lean, "15° right".
func leanWords(degrees *float64) string {
	if degrees == nil {
		return ""
	}
	n := fmt.Sprintf("%.0f", math.Abs(*degrees))
	if n == "0" {
		return "upright"
	}
	return fmt.Sprintf("%s° %s", n, side(*degrees, "right", "left"))
}
