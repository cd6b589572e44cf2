package page

import (
	"encoding/base64"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"holdfast/sheet"
)

// span words frames: "frame 43", "frames 43–51".
func span(start, end int) string {
	if start == end {
		return fmt.Sprintf("frame %d", start)
	}
	return fmt.Sprintf("frames %d–%d", start, end)
}

// who names a figure at the end of what is said of it; figure 0 is the whole
// picture.
func who(figure int) string {
	if figure == 0 {
		return ""
	}
	return fmt.Sprintf("figure %d", figure)
}

// said joins parts with commas, without the empty ones.
func said(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), ", ")
}

func beatWords(b sheet.Beat) string {
	if b.Hold != "" {
		return b.Hold + " hold"
	}
	return b.Kind
}

// beatRows are the holds and moves: one row for the picture as a whole, and one
// for each figure that has beats of its own, counted within its shot.
func beatRows(s *sheet.Sheet) []row {
	var rows [][]item
	place := map[[2]int]int{} // shot and figure: which row
	next := map[int]int{}     // shot: the row of its next figure
	for _, b := range s.Beats {
		key := [2]int{b.Shot, b.Figure}
		k, ok := place[key]
		if !ok {
			if b.Figure > 0 {
				next[b.Shot]++
				k = next[b.Shot]
			}
			place[key] = k
		}
		for len(rows) <= k {
			rows = append(rows, nil)
		}
		rows[k] = append(rows[k], beatItem(b))
	}
	var list []row
	for k, items := range rows {
		name := "Holds and moves"
		if k > 0 {
			name = fmt.Sprintf("Figure %d of its shot", k)
		}
		list = append(list, itemRow(s, fmt.Sprintf("beats-%d", k), name, items).stretched(beatHeight))
	}
	return list
}

// beatHeight leaves room to tell big moves from small ones.
const beatHeight = 40

// beatItem draws a hold as a bar and a move as a hill with its top at the peak,
// as high as the move is big.
func beatItem(b sheet.Beat) item {
	i := item{
		Start: b.Start, End: b.End, Class: "move", Label: fmt.Sprint(b.Frames),
		Text: said(fmt.Sprintf("beat %d: %s", b.ID, beatWords(b)), span(b.Start, b.End), fmt.Sprintf("%d long", b.Frames), who(b.Figure)),
	}
	if b.Kind == sheet.KindHold {
		i.Class = "hold " + b.Hold
		return i
	}
	if b.Peak == nil || b.Size == nil {
		return i
	}
	// Even a small move is seen: its hill is at least a quarter high.
	const least = 25
	top := 100 - least - (100-least)**b.Size
	at := 100 * (float64(*b.Peak-b.Start) + 0.5) / float64(b.Frames)
	i.Shape = fmt.Sprintf("M0 100L%.1f %.1fL100 100Z", at, top)
	i.At = *b.Peak
	i.Text = said(i.Text, fmt.Sprintf("peak at %d", *b.Peak), b.SpacingWords())
	return i
}

// curveRow is the motion curve with a mark for each move's peak.
func curveRow(s *sheet.Sheet) row {
	r := row{ID: "curve", Name: "Motion", Frames: s.Clip.Frames, Tall: 64}
	// The largest steps are jumps of a frame or two, which would press the rest
	// flat: the curve is cut off above the 99th of a hundred.
	sorted := slices.Sorted(slices.Values(s.Curve.Motion))
	if len(sorted) == 0 {
		return r
	}
	top := sorted[(len(sorted)-1)*99/100]
	if top == 0 {
		top = max(sorted[len(sorted)-1], 1e-9)
	}
	var b strings.Builder
	for i, v := range s.Curve.Motion {
		fmt.Fprintf(&b, "%c%.1f %.1f", "ML"[min(i, 1)], float64(i)+0.5, 98-94*math.Min(v/top, 1))
	}
	r.Line = b.String()
	for _, beat := range s.Leading() {
		if beat.Peak != nil {
			r.Items = append(r.Items, item{
				Start: *beat.Peak, End: *beat.Peak, At: *beat.Peak, Class: "peak", clip: &s.Clip,
				Text: fmt.Sprintf("peak of beat %d, frame %d", beat.ID, *beat.Peak),
			})
		}
	}
	return r
}

func exposure(s *sheet.Sheet) (list []item) {
	for _, e := range s.Exposure {
		list = append(list, item{
			Start: e.Start, End: e.End, Class: "plain", Label: e.Pattern,
			Text: said(e.Pattern, span(e.Start, e.End), fmt.Sprintf("%.3g frames a drawing", e.FramesPerDrawing), who(e.Figure)),
		})
	}
	return list
}

func contacts(s *sheet.Sheet) (list []item) {
	for _, c := range s.Contacts {
		i := item{
			Start: c.Start, End: c.End, Class: c.State,
			Text: said(fmt.Sprintf("contact %d: %s", c.ID, c.State), span(c.Start, c.End), who(c.Figure)),
		}
		if c.State == sheet.StateSlide {
			list = append(list, slide(c, i)...)
		} else {
			list = append(list, i)
		}
	}
	for _, f := range s.FeetOut {
		list = append(list, item{Start: f.Start, End: f.End, Class: "unknown", Label: "out of frame", Text: said("feet out of frame", span(f.Start, f.End), who(f.Figure))})
	}
	return list
}

// slide draws a contact that slides as what it is: it stands, goes, and stands.
func slide(c sheet.Contact, whole item) (list []item) {
	from, to := c.Slide()
	part := func(class string, start, end int) *item {
		i := whole
		i.Class, i.Start, i.End = class, start, end
		list = append(list, i)
		return &list[len(list)-1]
	}
	if from > c.Start {
		part(sheet.StatePlant, c.Start, from-1)
	}
	slips := part(sheet.StateSlide, from, to)
	slips.Label = fmt.Sprintf("%.0f%%", 100*math.Abs(c.SlipShare))
	slips.Text = said(whole.Text, fmt.Sprintf("slips %.1f pixels over %s, %.1f %% of the figure's height", c.SlipPx, span(from, to), 100*c.SlipShare))
	if to < c.End {
		part(sheet.StatePlant, to+1, c.End)
	}
	return list
}

func flights(s *sheet.Sheet) (list []item) {
	for _, f := range s.Flights {
		list = append(list, item{
			Start: f.Start, End: f.End, Class: "flight", Label: fmt.Sprint(f.Frames), Shape: "M0 100Q50 -80 100 100Z",
			Text: said(fmt.Sprintf("flight %d", f.ID), span(f.Start, f.End), fmt.Sprintf("%d long", f.Frames),
				fmt.Sprintf("rises %.1f %% of the figure's height", 100*f.RiseShare), who(f.Figure)),
		})
	}
	for _, i := range s.Impacts {
		n := min(max(int(math.Round(i.Frame)), s.Clip.FirstFrame), s.Clip.Last())
		list = append(list, item{Start: n, End: n, At: n, Class: "impact", Shape: "M0 0L50 100L100 0Z", Text: said(fmt.Sprintf("impact at frame %.1f", i.Frame), who(i.Figure))})
	}
	return list
}

func steps(s *sheet.Sheet) (list []item) {
	for _, t := range s.Steps {
		start := t.Start
		if !t.Timed {
			start = t.End // how long it took is not known
		}
		list = append(list, item{
			Start: start, End: t.End, At: t.End, Class: "plain", Label: t.Direction,
			Text: said("step "+t.Direction, span(t.Start, t.End), fmt.Sprintf("%.2f figure heights long", t.Length), who(t.Figure)),
		})
	}
	return list
}

func pops(s *sheet.Sheet) (list []item) {
	for _, p := range s.Pops {
		list = append(list, item{Start: p.Start, End: p.End, Class: "plain", Label: "pop", Text: said("pop", span(p.Start, p.End))})
	}
	return list
}

// looks are the darts and turns of heads and eyes that were shown by hand.
func looks(s *sheet.Sheet) (list []item) {
	for _, p := range s.Parts {
		name := sheet.Visible(p.Name)
		for _, l := range p.Looks {
			list = append(list, item{
				Start: l.Start, End: l.End, At: l.Peak, Class: "plain", Label: name + " " + l.Way,
				Text: said(fmt.Sprintf("%s: %s %s", name, l.Kind, l.Way), span(l.Start, l.End), fmt.Sprintf("then rests for %d", l.Rest)),
			})
		}
	}
	return list
}

func cameras(s *sheet.Sheet) (list []item) {
	for _, t := range s.Shots {
		begins := ""
		if t.Join != nil {
			begins = "after a " + t.Join.Kind
		} else if t.ID > 1 {
			begins = "after a cut"
		}
		list = append(list, item{
			Start: t.Start, End: t.End, Class: "shot", Label: t.Camera.Kind,
			Text: said(fmt.Sprintf("shot %d", t.ID), span(t.Start, t.End), begins, "camera "+t.Camera.Kind),
		})
	}
	return list
}

func remarks(s *sheet.Sheet) (list []item) {
	for _, r := range s.Remarks {
		text := sheet.Visible(r.Text)
		list = append(list, item{Start: r.Start, End: r.End, Class: "remark", Label: text, Text: said(span(r.Start, r.End)) + ": " + text})
	}
	return list
}

// groundTall is the height at which ground strips show, pixels.
const groundTall = 104

// ground is the row of ground strips.
func (p *Page) ground() row {
	r := row{ID: "ground", Name: "Ground at the feet, left above, right below", Frames: p.Sheet.Clip.Frames, Tall: groundTall}
	for _, g := range p.Ground {
		r.Bands = append(r.Bands, picture{
			item:   item{Start: g.Start, End: g.End, clip: &p.Sheet.Clip, Text: "ground strip, " + span(g.Start, g.End)},
			URL:    template.URL("data:image/png;base64," + base64.StdEncoding.EncodeToString(g.PNG)),
			Height: groundTall,
		})
	}
	return r
}

// maxThumbs bounds the thumbnails of a page; at some five kilobytes each they
// are most of it.
const maxThumbs = 240

// thumbTall is the height at which thumbnails show, pixels.
const thumbTall = 54

// ThumbFrames names the frames to have thumbnails of: the middle of each hold,
// the peak of each move, and of too many an even choice.
func ThumbFrames(s *sheet.Sheet) []int {
	var list []int
	for _, b := range s.Leading() {
		list = append(list, thumbFrame(b))
	}
	slices.Sort(list)
	list = slices.Compact(list)
	if len(list) <= maxThumbs {
		return list
	}
	var chosen []int
	for i := range maxThumbs {
		chosen = append(chosen, list[i*len(list)/maxThumbs])
	}
	return chosen
}

func thumbFrame(b sheet.Beat) int {
	if b.Peak != nil {
		return *b.Peak
	}
	return (b.Start + b.End) / 2
}

// pictures is the row of thumbnails, each where its beat begins.
func (p *Page) pictures() row {
	s := p.Sheet
	r := row{ID: "pictures", Name: "Pictures", Tall: thumbTall + 20, Frames: s.Clip.Frames}
	wide := thumbTall * s.Clip.Width / s.Clip.Height
	seen := map[int]bool{}
	for _, b := range s.Leading() {
		n := thumbFrame(b)
		jpeg, ok := p.Thumbs[n]
		if !ok || seen[n] {
			continue
		}
		seen[n] = true
		r.Pictures = append(r.Pictures, picture{
			item: item{
				Start: b.Start, End: b.End, At: n, Label: fmt.Sprint(n), clip: &s.Clip,
				Text: said(fmt.Sprintf("picture of frame %d", n), beatWords(b)),
			},
			URL:   template.URL("data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(jpeg)),
			Width: max(wide, 20), Height: thumbTall,
		})
	}
	slices.SortStableFunc(r.Pictures, func(a, b picture) int { return a.Start - b.Start })
	return r
}
