package sheet

import (
	"fmt"
	"strings"
)

var repeatedPoseRule = &Rule{
	Kind:       "repeated-pose",
	Measures:   "a hold whose silhouette is that of an earlier one once more, with others between and no step; the pose that a shot begins with may be come back to",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{poseRepeats, restReturns},
	Gauge:      Gauge{Names: []string{"repeats"}},
	find:       (*review).repeatedPoseNotes,
}

var weakPoseRule = &Rule{
	Kind:       "weak-pose-change",
	Measures:   "a pose whose silhouette hardly differs from that of the pose before, though something goes far in between and the outline never differs",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{weakContrast, weakWay, weakMove},
	Gauge:      Gauge{Less: true, Names: []string{"contrast"}},
	find:       (*review).weakPoseNotes,
}

var (
	poseRepeats = &Threshold{
		Name: "repeats_most", Unit: inCount, Default: 0, Min: 0, Max: 1000, Whole: true,
		Reason: "how often a pose may come back: each is to say something of its own", Source: practice,
	}
	restReturns = &Threshold{
		Name: "rest_returns_most", Unit: inCount, Default: 2, Min: 0, Max: 1000, Whole: true,
		Reason: "how often the pose that the shot begins with may come back: a figure rests as it rested before", Source: practice,
	}
	weakContrast = &Threshold{
		Name: "contrast_most", Unit: inShare, Default: 0.1, Min: 0, Max: 1,
		Reason: "under it two outlines are hard to tell apart; a pose that is kept measures up to 0.06", Source: accuracy,
	}
	weakWay = &Threshold{
		Name: "way_contrast_most", Unit: inShare, Default: 0.15, Min: 0, Max: 1,
		Reason: "where the outline differs by more on the way, the move is a gesture that comes back", Source: practice,
	}
	weakMove = &Threshold{
		Name: "move_travel_least", Unit: inHeights, Default: 0.05, Min: 0, Max: 10,
		Reason: "what moves goes half as far as a hand is long: less keeps a pose alive and is not meant to change it", Source: practice,
	}
)

// shotPoses are the poses of a shot, in order.
func (r *review) shotPoses(shot int) (list []Pose) {
	for _, p := range r.Poses {
		if p.Shot == shot {
			list = append(list, p)
		}
	}
	return list
}

// repeatedPoseNotes finds poses that are held again, told once for each pose.
func (r *review) repeatedPoseNotes() []Note {
	var notes []Note
	for _, shot := range r.Shots {
		list := r.shotPoses(shot.ID)
		for i, p := range list {
			again := r.repeats(list, i)
			most := poseRepeats
			if i == 0 {
				most = restReturns
			}
			if len(again) <= r.whole(most) {
				continue
			}
			var spans []string
			for _, a := range again {
				spans = append(spans, span(a.Start, a.End))
			}
			notes = append(notes, Note{
				Start: again[0].Start, End: again[len(again)-1].End, Weight: WeightLook,
				Text: fmt.Sprintf("%sthe hold at %s repeats the pose of %s; another would say more",
					r.of(p.Figure), strings.Join(spans, ", "), span(p.Start, p.End)),
				Measured: map[string]any{"beat": p.Beat, "repeats": len(again)},
			})
		}
	}
	return notes
}

// repeats are the later poses of a list that are its i-th once more, each with another
// between it and the one before it, and no step or flight. A pose that is itself an
// earlier one has none: they are that one's.
func (r *review) repeats(list []Pose, i int) (again []Pose) {
	if list[i].Back > 0 {
		return nil
	}
	last := i
	same := map[int]bool{list[i].Beat: true} // beats that hold it
	for k := i + 1; k < len(list); k++ {
		p := list[k]
		if !same[p.Back] {
			continue
		}
		same[p.Beat] = true
		if t := (track{shot: p.Shot, figure: p.Figure}); k > last+1 && r.goes(t, list[last].End, p.Start) == 0 {
			again = append(again, p)
		}
		last = k
	}
	return again
}

// weakPoseNotes finds moves that leave the outline as it was.
func (r *review) weakPoseNotes() []Note {
	var notes []Note
	for _, shot := range r.Shots {
		list := r.shotPoses(shot.ID)
		for i := 1; i < len(list); i++ {
			before, p := list[i-1], list[i]
			if p.Contrast == nil || p.Way == nil || *p.Contrast > r.at(weakContrast) || *p.Way > r.at(weakWay) {
				continue
			}
			travel := r.travel(before, p)
			if travel < r.at(weakMove) || r.goes(track{shot: p.Shot, figure: p.Figure}, before.End, p.Start) > 0 {
				continue
			}
			notes = append(notes, Note{
				Start: p.Start, End: p.End, Weight: WeightLook,
				Text: fmt.Sprintf("%sthe outline of the pose hardly differs from that of %s, by %.0f %%, though what moves between goes %.2f heights; push it until it reads",
					r.of(p.Figure), span(before.Start, before.End), 100**p.Contrast, travel),
				Measured: map[string]any{"beat": p.Beat, "contrast": *p.Contrast, "way_contrast": *p.Way, "move_travel": round(travel, shareDigits)},
			})
		}
	}
	return notes
}

// travel is how far what moves goes in the biggest move of the whole picture between two
// poses, figure heights.
func (r *review) travel(before, after Pose) float64 {
	most := 0.0
	for _, b := range r.Beats[before.Beat : after.Beat-1] {
		if b.Kind == KindMove && b.Figure == 0 && b.Texture != nil {
			most = max(most, b.Texture.Spacing.travel())
		}
	}
	return most
}
