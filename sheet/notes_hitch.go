package sheet

import "fmt"

var hitchRule = &Rule{
	Kind:       "hitch",
	Measures:   "a frame or two on which a move stalls in full swing; how smooth its arc is stands beside (spectral arc length)",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{hitchDepth},
	Gauge:      Gauge{Names: []string{"depth"}},
	find:       (*review).hitchNotes,
}

var hitchDepth = &Threshold{
	Name: "depth_least", Unit: inShare, Default: 0.5, Min: 0.3, Max: 1,
	Reason: "how much slower than on both sides a stall is: speeds of single frames are known to a tenth or two", Source: accuracy,
}

// hitchNotes finds moves that stall, told once for a move.
func (r *review) hitchNotes() []Note {
	var notes []Note
	for _, b := range r.Beats {
		stalls := r.stalls(b)
		if len(stalls) == 0 {
			continue
		}
		worst := stalls[0]
		var frames []int
		for _, h := range stalls {
			frames = append(frames, h.Start)
			if h.Depth > worst.Depth {
				worst = h
			}
		}
		notes = append(notes, Note{
			Start: worst.Start, End: worst.End, Weight: WeightLook,
			Text: fmt.Sprintf("%sthe move %s hitches%s in full swing: for %s it %s",
				r.of(b.Figure), span(b.Start, b.End), timesWords(len(stalls)), count(worst.End-worst.Start+1, "frame"), worst.words()),
			Measured: map[string]any{
				"beat": b.ID, "hitch_frames": frames, "depth": worst.Depth, "smoothness": *b.Texture.Smoothness,
			},
		})
	}
	return notes
}

// stood is the depth, a share, from which a hitch is said to stand still: grain and
// coding leave some speed in a picture that repeats.
const stood = 0.95

func (h Hitch) words() string {
	if h.Depth >= stood {
		return "stands still"
	}
	return fmt.Sprintf("is %.0f %% slower than on both sides", 100*h.Depth)
}

func timesWords(n int) string {
	switch n {
	case 1:
		return ""
	case 2:
		return " twice"
	}
	return fmt.Sprintf(" %d times", n)
}

// stalls are the hitches of a move that are deep enough. A figure that walks or
// hops stalls at every landing, and so does a ball.
func (r *review) stalls(b Beat) []Hitch {
	t := track{shot: b.Shot, figure: b.Figure}
	if b.Texture == nil || b.Texture.Smoothness == nil || r.bounces(t) || r.goes(t, b.Start, b.End) > 0 {
		return nil
	}
	var list []Hitch
	for _, h := range b.Texture.Hitches {
		if h.Depth >= r.at(hitchDepth) {
			list = append(list, h)
		}
	}
	return list
}
