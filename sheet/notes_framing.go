package sheet

import (
	"fmt"
	"math"
	"slices"
)

var lowFramingRule = &Rule{
	Kind:       "low-framing",
	Measures:   "how much of the picture is empty above a figure in all of its holds in a shot, against what is below it",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{lowHeadroom, lowFootRoom, lowSize},
	Gauge:      Gauge{Names: []string{"tilt_share"}},
	find:       (*review).lowFramingNotes,
}

var (
	lowHeadroom = &Threshold{
		Name: "headroom_share_least", Unit: inShare, Default: 0.4, Min: 0, Max: 1,
		Reason: "a head is looked for near the upper third line; this is a fifth lower still, more than boxes are off",
		Source: practice,
	}
	lowFootRoom = &Threshold{
		Name: "foot_room_ratio_most", Unit: inFactor, Default: 0.25, Min: 0, Max: 10,
		Reason: "room below against room above: a figure with room on both sides is a wide shot, and not low", Source: practice,
	}
	lowSize = &Threshold{
		Name: "size_share_least", Unit: inShare, Default: 0.25, Min: 0, Max: 1,
		Reason: "a figure smaller in the picture belongs to its landscape, which may want the sky", Source: practice,
	}
)

// upperThird is where the upper third line lies, a share of the height.
const upperThird = 1.0 / 3

// lowFramingNotes finds figures that sit low in the picture whenever they hold a
// pose: one that crouches once is acting.
func (r *review) lowFramingNotes() []Note {
	var notes []Note
	for _, holds := range r.framings() {
		least := holds[0]
		for _, f := range holds {
			if f.Headroom < least.Headroom {
				least = f
			}
		}
		low := least.Headroom >= r.at(lowHeadroom) && least.FootRoom <= r.at(lowFootRoom)*least.Headroom && least.Size >= r.at(lowSize)
		if !low {
			continue
		}
		tilt := least.Headroom - upperThird
		notes = append(notes, Note{
			Start: holds[0].Start, End: holds[len(holds)-1].End, Weight: WeightLook,
			Text: fmt.Sprintf("%sthe framing sits low: %.0f %% of the picture's height is empty above, %.0f %% below; tilt down %.0f %% of it to bring the head to the upper third line",
				r.of(least.Figure), 100*least.Headroom, 100*math.Max(0, least.FootRoom), 100*tilt),
			Measured: map[string]any{
				"figure": least.Figure, "headroom_share": least.Headroom, "foot_room_share": least.FootRoom,
				"size_share": least.Size, "tilt_share": round(tilt, shareDigits),
			},
		})
	}
	return notes
}

var tightHeadroomRule = &Rule{
	Kind:       "tight-headroom",
	Measures:   "how little room is over a figure whose feet are in the picture, while it holds a pose",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{tightHeadroom, tightFootRoom, tightSeconds},
	Gauge:      Gauge{Names: []string{"tilt_share"}},
	find:       (*review).tightHeadroomNotes,
}

var (
	tightHeadroom = &Threshold{
		Name: "headroom_share_most", Unit: inShare, Default: 0.02, Min: 0, Max: 1,
		Reason: "a head this near the edge seems to hit it", Source: practice,
	}
	tightFootRoom = &Threshold{
		Name: "foot_room_share_least", Unit: inShare, Default: 0.04, Min: 0, Max: 1,
		Reason: "with so much room below, the picture could go up; with less, the figure fills it, which is a close shot", Source: practice,
	}
	tightSeconds = &Threshold{
		Name: "held_seconds_least", Unit: inSeconds, Default: 0.5, Min: 0, Max: 600,
		Reason: "a pose that is up for less is not looked at for its framing", Source: practice,
	}
)

// tightHeadroomNotes finds figures with no room over them though there is some
// below.
func (r *review) tightHeadroomNotes() []Note {
	return r.framingNotes(tightSeconds, func(f Framing) bool {
		return f.Headroom <= r.at(tightHeadroom) && f.FootRoom >= r.at(tightFootRoom)
	}, func(f Framing) (string, map[string]any) {
		tilt := (f.FootRoom - f.Headroom) / 2
		return fmt.Sprintf("%sno room over the head: %.0f %% of the picture's height, with %.0f %% below the feet; tilt up %.0f %%",
				r.of(f.Figure), 100*math.Max(0, f.Headroom), 100*f.FootRoom, 100*tilt),
			map[string]any{"figure": f.Figure, "headroom_share": f.Headroom, "foot_room_share": f.FootRoom, "tilt_share": round(tilt, shareDigits)}
	})
}

var edgeCutRule = &Rule{
	Kind:       "edge-cut",
	Measures:   "whether the left or right edge of the picture touches or cuts a figure while it holds a pose",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{edgeSeconds, edgeSize},
	Gauge:      Gauge{Names: []string{"held_seconds"}},
	find:       (*review).edgeCutNotes,
}

var (
	edgeSeconds = &Threshold{
		Name: "held_seconds_least", Unit: inSeconds, Default: 0.5, Min: 0, Max: 600,
		Reason: "a pose that is up for less is not looked at for its framing", Source: practice,
	}
	edgeSize = &Threshold{
		Name: "size_share_most", Unit: inShare, Default: 0.95, Min: 0, Max: 1,
		Reason: "a figure that fills the picture's height is a close shot, which may be cut anywhere but at joints", Source: practice,
	}
)

// edgeCutNotes finds figures that one side edge touches or cuts. Both edges, or
// a figure as tall as the picture, are a close shot.
func (r *review) edgeCutNotes() []Note {
	return r.framingNotes(edgeSeconds, func(f Framing) bool {
		return slices.Contains(f.Touches, EdgeLeft) != slices.Contains(f.Touches, EdgeRight) && f.Size <= r.at(edgeSize)
	}, func(f Framing) (string, map[string]any) {
		edge := EdgeLeft
		if slices.Contains(f.Touches, EdgeRight) {
			edge = EdgeRight
		}
		return fmt.Sprintf("%sheld against the %s edge of the picture, which touches or cuts it", r.of(f.Figure), edge),
			map[string]any{"figure": f.Figure, "size_share": f.Size, "left_room_share": f.LeftRoom, "right_room_share": f.RightRoom}
	})
}

// framingNotes gives a note for each run of a figure's holds in which wrong is
// so and that last long enough together, worded after the longest of them.
func (r *review) framingNotes(least *Threshold, wrong func(Framing) bool, words func(Framing) (string, map[string]any)) []Note {
	var notes []Note
	for _, holds := range r.framings() {
		for len(holds) > 0 {
			n, held, longest := 0, 0, holds[0]
			for n < len(holds) && wrong(holds[n]) {
				held += holds[n].End - holds[n].Start + 1
				if holds[n].End-holds[n].Start > longest.End-longest.Start {
					longest = holds[n]
				}
				n++
			}
			if n > 0 && r.Clip.length(held) >= r.at(least) {
				text, measured := words(longest)
				measured["held_seconds"] = round(r.Clip.length(held), shareDigits)
				notes = append(notes, Note{Start: holds[0].Start, End: holds[n-1].End, Weight: WeightLook, Text: text, Measured: measured})
			}
			holds = holds[max(n, 1):]
		}
	}
	return notes
}

// framings are those of each figure that holds a pose and is no free object, in
// order of their frames.
func (r *review) framings() [][]Framing {
	var list [][]Framing
	place := map[int]int{}
	for _, f := range r.Framing {
		if r.bounces(track{shot: f.Shot, figure: f.Figure}) {
			continue
		}
		if _, ok := place[f.Figure]; !ok {
			place[f.Figure] = len(list)
			list = append(list, nil)
		}
		list[place[f.Figure]] = append(list[place[f.Figure]], f)
	}
	return list
}
