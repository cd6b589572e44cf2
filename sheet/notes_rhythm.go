package sheet

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
)

var rhythmRule = &Rule{
	Kind:     "step-rhythm",
	Measures: "the time of each step of a walk: one much longer or shorter than the others is a stumble; steps as even as a machine's are said where frames are short enough to tell",
	Weights:  []string{WeightLook},
	Thresholds: []*Threshold{
		rhythmSteps, rhythmSeconds, walkVariation, evenSteps, stumbleShare, stumbleFrames, missedStep,
	},
	find: (*review).rhythmNotes,
}

var (
	rhythmSteps = &Threshold{
		Name: "steps_least", Unit: inCount, Default: 6, Min: 3, Max: 1000, Whole: true,
		Reason: "so many steps in a row have a rhythm to speak of", Source: practice,
	}
	rhythmSeconds = &Threshold{
		Name: "step_seconds_most", Unit: inSeconds, Default: 1.5, Min: 0.1, Max: 60,
		Reason: "at 60 steps a minute, the slowest walkers' cadence, a step takes one second; half as much again is a pause",
		Source: "Murray, as quoted",
	}
	walkVariation = &Threshold{
		Name: "walking_variation", Unit: inShare, Default: 0.02, Min: 0.001, Max: 1,
		Reason: "coefficient of variation of people's step times, 2 to 3 %: frames must be short enough to show it",
		Source: "Hausdorff 2005, from memory",
	}
	evenSteps = &Threshold{
		Name: "variation_most", Unit: inShare, Default: 0.01, Min: 0, Max: 1,
		Reason: "coefficient of variation under which steps are even as a machine's: half of what people's vary by",
		Source: practice,
	}
	stumbleShare = &Threshold{
		Name: "stumble_share", Unit: inShare, Default: 0.25, Min: 0.02, Max: 10,
		Reason: "how far a step's time is from the median at least: ten times what walking varies by", Source: practice,
	}
	stumbleFrames = &Threshold{
		Name: "stumble_frames", Unit: inFrames, Default: 3, Min: 1, Max: 1000, Whole: true,
		Reason: "the same in frames: both ends of a step may be one off", Source: accuracy,
	}
	missedStep = &Threshold{
		Name: "missed_step_factor", Unit: inFactor, Default: 1.6, Min: 1, Max: 100,
		Reason: "a slow step this much longer than the median is more likely two, one of them not found", Source: accuracy,
	}
)

// rhythmNotes judges the timing of every walk.
func (r *review) rhythmNotes() []Note {
	var notes []Note
	for _, walk := range r.walks() {
		if len(walk) < r.whole(rhythmSteps) {
			continue
		}
		times, lengths := stepTimes(walk)
		stumbled := false
		for i := 1; i+1 < len(walk); i++ { // first and last differ by nature
			if r.stumbles(times[i], median(times)) && lengths[i] < r.at(missedStep)*median(lengths) {
				notes, stumbled = append(notes, r.stumbleNote(walk[i], times)), true
			}
		}
		if !stumbled && variation(times) <= r.at(evenSteps) && r.resolves(median(times)) {
			notes = append(notes, r.evenNote(walk, times))
		}
	}
	return notes
}

// walks returns the runs of timed steps that follow one another.
func (r *review) walks() [][]Step {
	var all [][]Step
	last := map[[2]int]int{} // walk of a figure's latest step
	for _, step := range r.Steps {
		if !step.Timed || step.Seconds > r.at(rhythmSeconds) {
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

func (r *review) stumbles(time, usual float64) bool {
	off := math.Abs(time - usual)
	return off >= r.at(stumbleFrames) && off >= r.at(stumbleShare)*usual
}

// resolves reports whether whole frames would show how a walker's steps of so
// many frames vary: by half a frame or more.
func (r *review) resolves(frames float64) bool { return r.at(walkVariation)*frames >= 0.5 }

func (r *review) stumbleNote(step Step, times []float64) Note {
	return Note{
		Start: step.Start, End: step.End, Weight: WeightLook,
		Text: fmt.Sprintf("%s stumbles: the step that lands on %d takes %s where the others take about %.0f",
			r.who(step.Figure), step.End, count(step.Frames, "frame"), median(times)),
		Measured: rhythm(times, map[string]any{"step_frames": step.Frames}),
	}
}

func (r *review) evenNote(walk []Step, times []float64) Note {
	first, last := walk[0], walk[len(walk)-1]
	return Note{
		Start: first.Start, End: last.End, Weight: WeightLook,
		Text: fmt.Sprintf("%s steps like a machine: %d steps of %.0f frames, with %.1f %% between them where people vary by %.0f %% or more",
			r.who(first.Figure), len(walk), stat.Mean(times, nil), 100*variation(times), 100*r.at(walkVariation)),
		Measured: rhythm(times, map[string]any{}),
	}
}

// rhythm adds to the numbers of a note those of its walk.
func rhythm(times []float64, measured map[string]any) map[string]any {
	measured["steps"] = len(times)
	measured["median_frames"] = median(times)
	measured["variation"] = round(variation(times), shareDigits)
	return measured
}
