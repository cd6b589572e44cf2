package sheet

import (
	"slices"
	"strings"
	"testing"
)

// struck is a clip of one figure that holds poses of 12 frames with moves of 8 between,
// in which what moves goes 0.3 heights; each pose is the earlier one that back has, by
// index, or -1, and differs by contrast from the one before and by way on the way.
func struck(back []int, contrast, way float64) *Sheet {
	var parts []part
	for i := range back {
		if i > 0 {
			parts = append(parts, part{8, 0.3 + 0.1*float64(i%5)})
		}
		parts = append(parts, part{12 + 3*(i%4), alive})
	}
	s := acted(film, parts...)
	for i := range back {
		hold := s.Beats[2*i]
		p := Pose{Beat: 2*i + 1, Shot: 1, Figure: 1, Start: hold.Start, End: hold.End, Width: 0.3, Height: 1}
		if back[i] >= 0 {
			p.Back = 2*back[i] + 1
		}
		if i > 0 {
			p.Contrast, p.Way = &contrast, &way
			move := &s.Beats[2*i-1]
			move.Texture = &Texture{Spacing: &Spacing{Drawings: []int{move.Start, move.Start + 4}, Travel: []float64{0.0375, 0.0375}}}
		}
		s.Poses = append(s.Poses, p)
	}
	return s
}

func TestPoseNotes(t *testing.T) {
	const repeated, weak = "repeated-pose", "weak-pose-change"
	for name, c := range map[string]struct {
		s                  *Sheet
		kind, frames, text string // of the only note about poses, if any
	}{
		"all its own":                {s: struck([]int{-1, -1, -1, -1}, 0.4, 0.4)},
		"one repeated":               {struck([]int{-1, -1, -1, 1}, 0.4, 0.4), repeated, "70–90", "repeats the pose of 21–35"},
		"kept, and then repeated":    {struck([]int{-1, -1, 1, -1, 1}, 0.4, 0.4), repeated, "99–110", "repeats the pose of 21–35"},
		"rests twice":                {s: struck([]int{-1, -1, 0, -1, 0}, 0.4, 0.4)},
		"rests three times":          {struck([]int{-1, -1, 0, -1, 0, -1, 0}, 0.4, 0.4), repeated, "44–159", "44–61, 99–110, 142–159 repeats the pose of 1–12"},
		"hardly differs":             {struck([]int{-1, -1}, 0.05, 0.08), weak, "21–35", "that of 1–12, by 5 %, though what moves between goes 0.30 heights"},
		"comes back from a gesture":  {s: struck([]int{-1, -1}, 0.05, 0.3)},
		"differs":                    {s: struck([]int{-1, -1}, 0.12, 0.13)},
		"stirs":                      {s: going(0.004, struck([]int{-1, -1}, 0.05, 0.08))},
		"steps in between, repeated": {s: stepping(struck([]int{-1, -1, -1, 1}, 0.4, 0.4))},
		"steps in between, the same": {s: stepping(struck([]int{-1, -1}, 0.05, 0.08))},
	} {
		t.Run(name, func(t *testing.T) {
			notes := slices.DeleteFunc(c.s.review(t).Notes, func(n Note) bool { return !strings.Contains(n.Kind, "pose") })
			switch {
			case c.kind == "" && len(notes) == 0:
			case len(notes) != 1 || notes[0].Kind != c.kind || notes[0].Weight != WeightLook:
				t.Errorf("%+v, want one %s", notes, c.kind)
			case span(notes[0].Start, notes[0].End) != c.frames || !strings.Contains(notes[0].Text, c.text):
				t.Errorf("on %d–%d: %s, want %s: %s", notes[0].Start, notes[0].End, notes[0].Text, c.frames, c.text)
			}
		})
	}
}

// going lets what moves go so far on each frame of the moves, figure heights.
func going(travel float64, s *Sheet) *Sheet {
	for _, b := range s.Beats {
		if b.Texture != nil {
			b.Texture.Spacing.Travel = []float64{travel, travel}
		}
	}
	return s
}

// stepping lets the figure take a step in its last move.
func stepping(s *Sheet) *Sheet {
	move := s.Beats[len(s.Beats)-2]
	last := s.Beats[len(s.Beats)-1].End
	return s.stand(1, move.Start+1, 300, 0).stand(move.Start+5, last, 380, 0)
}
