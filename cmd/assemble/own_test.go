package assemble

import (
	"slices"
	"testing"

	"holdfast/extract"
	"holdfast/motion"
	"holdfast/motion/beats"
	"holdfast/motion/figure"
	"holdfast/sheet"
)

// TestGapsBetweenOwnBeatsAreTold: of a figure that rests in its place, before it is
// seen to stir as well as after; what lies outside of its beats and its time is not.
func TestGapsBetweenOwnBeatsAreTold(t *testing.T) {
	doubt := make([]figure.Doubt, 100)
	for i := range doubt {
		if doubt[i] = figure.Known; i >= 40 && i < 55 {
			doubt[i] = figure.Crossing
		}
	}
	f := motion.Figure{Start: 50, End: 80, Own: &motion.Own{Start: 0, Doubt: doubt, Beats: []beats.Beat{
		{Start: 10, End: 39, Kind: beats.Hold}, {Start: 55, End: 78, Kind: beats.Move},
	}}}
	m := New(extract.Clip{}, &motion.Result{})
	m.First = 1
	want := []sheet.Unknown{{Start: 41, End: 55, Why: string(figure.Crossing)}, {Start: 80, End: 81, Why: sheet.UnknownShort}}
	if got := m.unknown(f); !slices.Equal(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
}
