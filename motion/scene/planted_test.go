package scene

import (
	"image"
	"math"
	"slices"
	"testing"
)

// planted returns the clips by name, each with the beats of its figure.
func planted(t *testing.T) map[string]struct {
	Planted
	figure FigureTruth
} {
	t.Helper()
	list, err := Plant(image.Pt(320, 180))
	if err != nil {
		t.Fatal(err)
	}
	clips := map[string]struct {
		Planted
		figure FigureTruth
	}{}
	for _, p := range list {
		clips[p.Name] = struct {
			Planted
			figure FigureTruth
		}{p, p.Truth().Figures[0]}
	}
	return clips
}

// every lists a number of each beat for which keep says so.
func every(beats []Beat, keep func(Beat) bool, of func(Beat) float64) (list []float64) {
	for _, b := range beats {
		if keep(b) {
			list = append(list, of(b))
		}
	}
	return list
}

// spread is how far values lie from their mean at most, as a share of it.
func spread(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	mean, most := sum/float64(len(v)), 0.0
	for _, x := range v {
		most = math.Max(most, math.Abs(x-mean)/mean)
	}
	return most
}

func isMove(b Beat) bool { return !b.Hold }

func frames(b Beat) float64 { return float64(b.End - b.Start + 1) }

// Each fault is there by the truth of what is drawn, on the frames it says, and
// only where it says.
func TestPlantedFaultsAreThere(t *testing.T) {
	const rate = 24
	clips := planted(t)
	if len(clips) != 16 {
		t.Fatalf("%d clips", len(clips))
	}
	intervals := func(beats []Beat) []float64 {
		starts := every(beats, isMove, func(b Beat) float64 { return float64(b.Start) })
		for i := len(starts) - 1; i > 0; i-- {
			starts[i] -= starts[i-1]
		}
		return starts[1:]
	}
	travel := func(b Beat) float64 { return b.Travel }
	for name, c := range clips {
		f := c.figure
		if dead := every(f.Beats, func(b Beat) bool { return b.Hold && b.Alive < 0.05 && frames(b) >= 2*rate }, frames); (len(dead) > 0) != (c.Fault == "dead-hold") {
			t.Errorf("%s: frozen for %v frames", name, dead)
		}
		if short := every(f.Beats, func(b Beat) bool { return b.Hold && frames(b) < 6 }, frames); (len(short) > 0) != (c.Fault == "hold-too-short") {
			t.Errorf("%s: holds of %v frames", name, short)
		}
		if long := every(f.Beats, func(b Beat) bool { return isMove(b) && frames(b) > 4*rate }, frames); (len(long) > 0) != (c.Fault == "long-without-hold" || name == "calm-walk") {
			t.Errorf("%s: %v frames without a hold", name, long)
		}
		if c.Fault == "long-without-hold" && !slices.ContainsFunc(f.Beats, func(b Beat) bool { return b.Start == c.Start && b.End == c.End }) {
			t.Errorf("%s: beats %v, the fault from %d to %d", name, f.Beats, c.Start, c.End)
		}
		list := intervals(f.Beats)
		if even := len(list) >= 4 && spread(list) < 0.08; even != (c.Fault == "even-timing") {
			t.Errorf("%s: moves set in %v frames apart", name, list)
		}
		sizes := every(f.Beats, isMove, travel)
		if same := len(sizes) >= 5 && spread(sizes) < 0.15; same != (c.Fault == "same-size-moves") {
			t.Errorf("%s: moves of %v", name, sizes)
		}
	}
	pop, hitch := clips["pop"], clips["hitch"]
	there, back := pop.figure.Max[pop.Start], pop.figure.Max[pop.End+1]
	if h := pop.figure.Height[0]; there < 0.05*h || back < 0.05*h || pop.figure.Max[pop.Start-1] > StillShare*h || pop.figure.Max[pop.End+2] > StillShare*h {
		t.Errorf("the pop goes %g there and %g back of %g", there, back, h)
	}
	mean, at := hitch.figure.Mean, hitch.Start
	if mean[at] > 0.05*math.Min(mean[at-1], mean[at+1]) || mean[at-1] < mean[at-2] || mean[at+1] < mean[at+2] {
		t.Errorf("the hitch is one of %v", mean[at-3:at+4])
	}
}
