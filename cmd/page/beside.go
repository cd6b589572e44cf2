package page

import (
	"math"

	"holdfast/sheet"
	"holdfast/sheet/compare"
)

// Beside is the reference of a pass, played in step with it and laid on its time
// axis. The page is then of the pass, with the differences in place of notes.
type Beside struct {
	Called     string       // what it is to the pass: "reference", "pass before"
	Sheet      *sheet.Sheet // of the reference
	Video      Video
	Comparison *compare.Comparison
}

// besideData is what the script needs to keep the reference in step.
type besideData struct {
	First  int   `json:"first"`
	Num    int64 `json:"num"`
	Den    int64 `json:"den"`
	Frames []int `json:"frames"` // of each frame of the pass: the reference's, from 0
}

func (b *Beside) data(pass *sheet.Clip) *besideData {
	if b == nil {
		return nil
	}
	c := b.Sheet.Clip
	d := &besideData{First: c.FirstFrame, Num: c.FPS.Num, Den: c.FPS.Den}
	i := 0
	for n := pass.FirstFrame; n <= pass.Last(); n++ {
		// The last frame of the reference that has begun by the middle of the pass's.
		for i+1 < c.Frames && b.passFrame(pass, c.FirstFrame+i+1) <= float64(n)+0.5 {
			i++
		}
		d.Frames = append(d.Frames, i)
	}
	return d
}

// passFrame is where a frame of the reference begins in the pass; clips that have
// nothing to do with each other begin together.
func (b *Beside) passFrame(pass *sheet.Clip, reference int) float64 {
	if at, ok := b.Comparison.PassFrame(reference); ok {
		return at
	}
	seconds := b.Sheet.Clip.FPS.Seconds(reference - b.Sheet.Clip.FirstFrame)
	return float64(pass.FirstFrame) + seconds*pass.FPS.Float()
}

// row is the reference's beats laid on the pass.
func (b *Beside) row(pass *sheet.Sheet) row {
	clip := &pass.Clip
	place := func(frame int) int { return int(math.Round(b.passFrame(clip, frame))) }
	var items []item
	for _, beat := range b.Sheet.Beats {
		if beat.Figure != 0 {
			continue
		}
		i := beatItem(beat)
		if i.At == 0 {
			i.At = beat.Start
		}
		i.Start, i.End, i.At = place(beat.Start), place(beat.End+1)-1, place(i.At)
		i.Start, i.End = max(i.Start, clip.FirstFrame), min(max(i.End, i.Start), clip.Last())
		if i.Start > i.End {
			continue // the pass has nothing there
		}
		i.At, i.Text = min(max(i.At, i.Start), i.End), b.Called+", "+i.Text
		items = append(items, i)
	}
	return itemRow(pass, "reference", "Holds and moves of the "+b.Called+", laid on the pass", items).stretched(beatHeight)
}

// differences are what there is to say of the pass, as notes.
func (b *Beside) differences() (list []noteLine) {
	for _, d := range b.Comparison.Differences {
		n := sheet.Note{ID: d.ID, Kind: d.Kind, Start: d.At, End: d.At, Weight: d.Weight, Text: d.Text}
		if d.Pass != nil {
			n.Start, n.End = d.Pass.Start, d.Pass.End
		}
		list = append(list, noteLine{Note: n})
	}
	return list
}
