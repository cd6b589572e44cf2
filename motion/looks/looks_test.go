package looks

import (
	"math"
	"slices"
	"testing"
)

// steps is a series of frames, most of them still, with a step of so many pixels to
// each of some.
func steps(frames int, x, y map[int]float64) Series {
	s := Series{X: make([]float64, frames), Y: make([]float64, frames), Width: 100, Rate: 24}
	for i, v := range x {
		s.X[i] = v
	}
	for i, v := range y {
		s.Y[i] = v
	}
	return s
}

func TestFind(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		series Series
		want   []Look
	}{
		"nothing": {steps(20, nil, nil), nil},
		"one frame, and back": {steps(20, map[int]float64{5: -6, 6: 6}, nil), []Look{
			{Dart, Left, 5, 5, 5, 0.06, 1, false}, {Dart, Right, 6, 6, 6, 0.06, 14, true}}},
		"two frames": {steps(20, map[int]float64{5: 2, 6: 4}, nil), []Look{{Dart, Right, 5, 6, 6, 0.06, 14, true}}},
		"up and down": {steps(20, nil, map[int]float64{5: -5, 12: 5}), []Look{
			{Dart, Up, 5, 5, 5, 0.05, 7, false}, {Dart, Down, 12, 12, 12, 0.05, 8, true}}},
		"on twos":     {steps(20, map[int]float64{4: 2, 6: 4, 8: 2}, nil), []Look{{Dart, Right, 4, 8, 6, 0.08, 12, true}}},
		"with a tail": {steps(20, map[int]float64{4: .7, 5: 6, 6: 1, 7: .7}, nil), []Look{{Dart, Right, 4, 7, 5, 0.084, 13, true}}},
		"a big turn":  {steps(20, map[int]float64{4: 8, 5: 12, 6: 8}, nil), []Look{{Turn, Right, 4, 6, 5, 0.28, 14, true}}},
		"too little":  {steps(20, map[int]float64{4: 1}, nil), nil},
		"lost after":  {steps(20, map[int]float64{4: 5, 9: nan}, nil), []Look{{Dart, Right, 4, 4, 4, 0.05, 5, true}}},
	} {
		got := Find(c.series)
		for i := range got {
			got[i].Size = math.Round(1000*got[i].Size) / 1000
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
}

// Eyes that go from corner to corner have no head to turn, and what trembles
// throughout does not look about.
func TestFindByWhatItIs(t *testing.T) {
	s := steps(20, map[int]float64{4: 40}, nil)
	s.Eyes = true
	if got := Find(s); len(got) != 1 || got[0].Kind != Dart {
		t.Errorf("eyes: %+v", got)
	}
	// A head that is swung about tips: its face crosses it a little.
	s = steps(20, map[int]float64{4: 3, 9: 12}, nil)
	s.Own = make([]float64, 20)
	s.Own[4], s.Own[9] = 9, 9
	if got := Find(s); len(got) != 1 || got[0].Start != 9 {
		t.Errorf("swung about: %+v", got)
	}
	s = steps(60, nil, nil)
	for i := range s.X {
		s.X[i] = 0.9 - 1.8*float64(i%2)
	}
	s.X[30] = 12
	if got := Find(s); len(got) != 1 || got[0].Start != 30 {
		t.Errorf("trembling: %+v", got)
	}
}
