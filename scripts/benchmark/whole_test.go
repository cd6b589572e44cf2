package main

import (
	"image"
	"slices"
	"testing"

	"holdfast/motion/scene"
)

// Where a shot has one figure, the whole picture is that figure.
func TestWholeOfOneFigure(t *testing.T) {
	list, err := scene.Catalogue(image.Pt(320, 180))
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, sc := range list {
		truth := sc.Truth()
		for shot, s := range truth.Shots {
			f := only(truth, shot)
			if f == nil || f.Start != s.Start || f.End != s.End {
				continue
			}
			compared++
			got := newSeries(truth, shot).beats(sc.Rate.Float())
			if !slices.EqualFunc(got, f.Beats, sameBeat) {
				t.Errorf("%s, shot %d:\n got %+v\nwant %+v", sc.Name, shot, got, f.Beats)
			}
		}
	}
	if compared < len(list)/2 {
		t.Errorf("only %d shots of %d scenes could be compared", compared, len(list))
	}
}

// only returns the figure of a shot that has one, nil otherwise.
func only(t scene.Truth, shot int) (f *scene.FigureTruth) {
	for i := range t.Figures {
		if t.Figures[i].Shot != shot {
			continue
		}
		if f != nil {
			return nil
		}
		f = &t.Figures[i]
	}
	return f
}

func sameBeat(a, b scene.Beat) bool {
	return a.Hold == b.Hold && a.Start == b.Start && a.End == b.End && a.Moving == b.Moving && a.Peak == b.Peak && slices.Equal(a.Ties, b.Ties)
}

// Two figures, 100 and 200 pixels tall, that move one after the other: the
// picture holds where both do.
func TestWholeOfTwoFigures(t *testing.T) {
	figure := func(height float64, box scene.Box, steps ...float64) scene.FigureTruth {
		f := scene.FigureTruth{End: len(steps) - 1, Max: steps, Mean: steps}
		for range steps {
			f.Height, f.Box = append(f.Height, height), append(f.Box, box)
		}
		return f
	}
	truth := scene.Truth{Frames: 16, Shots: []scene.ShotTruth{{End: 15}}, Figures: []scene.FigureTruth{
		figure(100, scene.Box{X1: 50, Y1: 100}, 0, 0, 0, 0, 4, 8, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0),
		// 0.5 of 200 pixels is under the still share, 3 above it.
		figure(200, scene.Box{X1: 100, Y1: 200}, 0, 0, 0, 0, 0, 0, 0, 3, 9, 0.5, 0.5, 0.5, 0.5, 0, 0, 0),
	}}
	want := []scene.Beat{
		{Hold: true, Start: 0, End: 3, Peak: -1},
		{Start: 4, End: 7, Peak: 7, Ties: []int{7}},
		{Hold: true, Start: 8, End: 15, Peak: -1, Moving: true},
	}
	got := newSeries(truth, 0).beats(24)
	// In areas of 5000 and 20000: 8*0.2 = 1.6 on frame 5, 3*0.8 = 2.4 on frame 7.
	if !slices.EqualFunc(got, want, sameBeat) {
		t.Errorf("got %+v\nwant %+v", got, want)
	}
}
