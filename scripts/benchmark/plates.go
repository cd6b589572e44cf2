package main

import (
	"io"
	"slices"
)

// Plates is how the contacts of people who walked over force plates came out.
// An instant that lies outside the recording is left out.
type Plates struct {
	Stands  Share     `json:"stands"`   // of those that plates saw, how many were found
	Starts  Offsets   `json:"starts"`   // found less the first frame at or after the instant
	Ends    Offsets   `json:"ends"`     // found less the last frame at or before the instant
	StartMS []float64 `json:"start_ms"` // half a frame before the found start, less the instant
	EndMS   []float64 `json:"end_ms"`   // half a frame after the found end, less the instant
	Stance  []float64 `json:"stance"`   // share of its stride that a foot stands, as found
	True    []float64 `json:"true"`     // the same by the plates
}

func (p *Plates) add(o *Plates) {
	p.Stands.add(o.Stands)
	p.Starts = append(p.Starts, o.Starts...)
	p.Ends = append(p.Ends, o.Ends...)
	p.StartMS = append(p.StartMS, o.StartMS...)
	p.EndMS = append(p.EndMS, o.EndMS...)
	p.Stance = append(p.Stance, o.Stance...)
	p.True = append(p.True, o.True...)
}

// judgePlates compares the stands that plates saw by themselves: unlike all
// others their instants were measured.
func judgePlates(t *trial) {
	if t.feet == nil {
		return
	}
	for i := range t.stands {
		if k := &t.feet.Stands[i]; k.Plate {
			t.comparePlate(&t.stands[i], k.Whole)
			t.compareStride(i)
		}
	}
}

// comparePlate takes the offsets of those instants that the recording holds.
func (t *trial) comparePlate(s *stand, whole [2]bool) {
	p := &t.score.Plates
	if !s.open {
		p.Stands.count(s.pair >= 0)
	}
	if s.pair < 0 {
		return
	}
	c := &t.sheet.Contacts[s.pair]
	if whole[0] {
		p.Starts = append(p.Starts, c.Start-s.Start)
		p.StartMS = append(p.StartMS, 1000*(float64(c.Start)-0.5-s.From)/t.rate)
	}
	if whole[1] {
		p.Ends = append(p.Ends, c.End-s.End)
		p.EndMS = append(p.EndMS, 1000*(float64(c.End)+0.5-s.To)/t.rate)
	}
}

// compareStride takes the stance share of the stride that begins with stand i,
// where both it and the next one of the same foot are known and found.
func (t *trial) compareStride(i int) {
	s, k := &t.stands[i], &t.feet.Stands[i]
	next := slices.IndexFunc(t.stands[i+1:], func(o stand) bool { return o.Figure == s.Figure && o.Foot == s.Foot })
	if next < 0 || k.Whole != [2]bool{true, true} {
		return
	}
	next += i + 1
	n, found := &t.stands[next], t.sheet.Contacts
	if !t.feet.Stands[next].Plate || !t.feet.Stands[next].Whole[0] || s.pair < 0 || n.pair < 0 {
		return
	}
	a, b := &found[s.pair], &found[n.pair]
	p := &t.score.Plates
	p.True = append(p.True, (s.To-s.From)/(n.From-s.From))
	p.Stance = append(p.Stance, float64(a.End+1-a.Start)/float64(b.Start-a.Start))
}

// plateColumns are those of the table of force plates.
var plateColumns = []column{
	{"stands\nfound", func(s *Score) string { return outOf(s.Plates.Stands.Right, s.Plates.Stands.Of) }},
	{"instants", func(s *Score) string { return count(len(s.Plates.Starts) + len(s.Plates.Ends)) }},
	{"\n±1", func(s *Score) string { return share(both(s.Plates.Starts, s.Plates.Ends).Within(1)) }},
	{"\n±2", func(s *Score) string { return share(both(s.Plates.Starts, s.Plates.Ends).Within(2)) }},
	{"start\nmedian", func(s *Score) string { return signed(s.Plates.Starts.Median()) }},
	{"end\nmedian", func(s *Score) string { return signed(s.Plates.Ends.Median()) }},
	{"start\nms", func(s *Score) string { return milliseconds(median(s.Plates.StartMS)) }},
	{"end\nms", func(s *Score) string { return milliseconds(median(s.Plates.EndMS)) }},
	{"stance\nfound", func(s *Score) string { return percent(median(s.Plates.Stance)) }},
	{"stance\nby plates", func(s *Score) string { return percent(median(s.Plates.True)) }},
}

// reportPlates prints how contact times from the drawn walks over force plates
// compare with what the plates measured; nothing where there was no such walk.
func reportPlates(w io.Writer, trials []*trial) error {
	plated := slices.DeleteFunc(slices.Clone(trials), func(t *trial) bool { return t.score.Plates.Stands.Of == 0 })
	if len(plated) == 0 {
		return nil
	}
	name := func(t *trial) string { return t.scene + ", " + condition(t) }
	total := gather(plated, func(*trial) string { return "all" })
	return render(w, scoreTable("FEET AGAINST FORCE PLATES, frames; published: 94 % of instants within ±1, 98 % within ±2, stance about 60 %",
		"scene", plateColumns, gather(plated, name), total))
}
