package sheet

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
)

const (
	// rhythmSteps is how many steps in a row have a rhythm to speak of.
	rhythmSteps = 6
	// rhythmSeconds is the longest step of a walk: at 60 steps a minute, the
	// slowest cadence of Murray's walkers, a step takes one; half as much again
	// is a pause.
	rhythmSeconds = 1.5
	// walkVariation is the coefficient of variation of the step times of healthy
	// walking: 2 to 3 % (Hausdorff 2005, from memory).
	walkVariation = 0.02
	// evenSteps is the coefficient of variation under which steps are even as a
	// machine's: half of walkVariation.
	evenSteps = walkVariation / 2
	// stumbleShare is how far a step's time is from the median of its walk at least,
	// as a share of it: ten times what walking varies by. stumbleFrames is the same
	// in frames: both ends of a step may be one off.
	stumbleShare, stumbleFrames = 0.25, 3.0
	// missedStep is the length, in median lengths, from which a long step is more
	// likely two, one of them not found.
	missedStep = 1.6
)

// rhythmNotes judges the timing of every walk.
func (s *Sheet) rhythmNotes() []Note {
	var notes []Note
	for _, walk := range s.walks() {
		if len(walk) < rhythmSteps {
			continue
		}
		times, lengths := stepTimes(walk)
		stumbled := false
		for i := 1; i+1 < len(walk); i++ { // first and last differ by nature
			if stumbles(times[i], median(times)) && lengths[i] < missedStep*median(lengths) {
				notes, stumbled = append(notes, s.stumbleNote(walk[i], times)), true
			}
		}
		if !stumbled && variation(times) <= evenSteps && s.resolves(median(times)) {
			notes = append(notes, s.evenNote(walk, times))
		}
	}
	return notes
}

// walks returns the runs of timed steps that follow one another.
func (s *Sheet) walks() [][]Step {
	var all [][]Step
	last := map[[2]int]int{} // walk of a figure's latest step
	for _, step := range s.Steps {
		if !step.Timed || step.Seconds > rhythmSeconds {
			continue
		}
		who := [2]int{step.Shot, step.Figure}
		k, ok := last[who]
		if !ok || all[k][len(all[k])-1].To != step.From {
			k = len(all)
			all, last[who] = append(all, nil), k
		}
		all[k] = append(all[k], step)
	}
	return all
}

func stepTimes(walk []Step) (frames, lengths []float64) {
	for _, step := range walk {
		frames, lengths = append(frames, float64(step.Frames)), append(lengths, step.Length)
	}
	return frames, lengths
}

func stumbles(time, usual float64) bool {
	off := math.Abs(time - usual)
	return off >= stumbleFrames && off >= stumbleShare*usual
}

// resolves reports whether whole frames would show how a walker's steps of so
// many frames vary: by half a frame or more.
func (s *Sheet) resolves(frames float64) bool { return walkVariation*frames >= 0.5 }

func (s *Sheet) stumbleNote(step Step, times []float64) Note {
	return Note{
		Kind: "step-rhythm", Start: step.Start, End: step.End, Weight: WeightLook,
		Text: fmt.Sprintf("%s stumbles: the step that lands on %d takes %s where the others take about %.0f",
			s.who(step.Figure), step.End, count(step.Frames, "frame"), median(times)),
		Measured: rhythm(times, map[string]any{
			"step_frames": step.Frames, "stumble_share": stumbleShare, "stumble_frames": stumbleFrames,
		}),
	}
}

func (s *Sheet) evenNote(walk []Step, times []float64) Note {
	first, last := walk[0], walk[len(walk)-1]
	return Note{
		Kind: "step-rhythm", Start: first.Start, End: last.End, Weight: WeightLook,
		Text: fmt.Sprintf("%s steps like a machine: %d steps of %.0f frames, with %.1f %% between them where people vary by %.0f %% or more",
			s.who(first.Figure), len(walk), stat.Mean(times, nil), 100*variation(times), 100*walkVariation),
		Measured: rhythm(times, map[string]any{"variation_most": evenSteps}),
	}
}

// rhythm adds to the numbers of a note those of its walk.
func rhythm(times []float64, measured map[string]any) map[string]any {
	measured["steps"] = len(times)
	measured["median_frames"] = median(times)
	measured["variation"] = round(variation(times), shareDigits)
	measured["walking_variation"] = walkVariation
	return measured
}
