package sheet

import "fmt"

var popRule = &Rule{
	Kind:       "pop",
	Measures:   "a frame or two that jump out of the move or the hold around them and are undone",
	Weights:    []string{WeightFix},
	Thresholds: []*Threshold{popFrames, popJump, popFactor, popLeft},
	Gauge:      Gauge{Names: []string{"jump_share"}},
	find:       (*review).popNotes,
}

var (
	popFrames = &Threshold{
		Name: "pop_frames_most", Unit: inFrames24, Default: 2, Min: 1, Max: 2,
		Reason: "so short a change is no acting: a blink takes more", Source: practice,
	}
	popJump = &Threshold{
		Name: "jump_least", Unit: inHeights, Default: 0.02, Min: 0.003, Max: 1,
		Reason: "travel there and back of the part that goes farthest: what goes less in all is no move either",
		Source: practice,
	}
	popFactor = &Threshold{
		Name: "jump_factor_least", Unit: inFactor, Default: 3, Min: 2, Max: 1000,
		Reason: "against the fastest step nearby: nothing speeds up so much for a frame and slows down again by itself", Source: practice,
	}
	popLeft = &Threshold{
		Name: "left_most", Unit: inShare, Default: 0.5, Min: 0, Max: 0.7,
		Reason: "how much of the change may be left when it is over: what goes on while it lasts", Source: accuracy,
	}
)

// popNotes finds frames that jump out.
func (r *review) popNotes() []Note {
	var notes []Note
	for _, p := range r.Pops {
		frames := p.End - p.Start + 1
		if frames > r.frames24(popFrames) || p.Jump < r.at(popJump) ||
			p.Jump < r.at(popFactor)*p.Around || p.Left > r.at(popLeft) {
			continue
		}
		notes = append(notes, Note{
			Start: p.Start, End: p.End, Weight: WeightFix,
			Text: fmt.Sprintf("%s: something jumps by %.0f %% of the figure's height and is back at once",
				popWords(frames), 100*p.Jump),
			Measured: map[string]any{
				"frames": frames, "jump_share": p.Jump, "around_share": p.Around, "left_share": p.Left,
			},
		})
	}
	return notes
}

func popWords(frames int) string {
	if frames == 1 {
		return "one frame pops"
	}
	return fmt.Sprintf("%d frames pop", frames)
}
