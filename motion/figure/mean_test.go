package figure

import (
	"math"
	"slices"
	"testing"
)

// sleeve is an arm beside the block at 100, of a colour of its own.
func sleeve(y int) block { return block{Box{124, y, 144, y + 10}, 60, 150, 110} }

// A figure that speeds up and slows down travels as it does, frame by frame: what
// the measure is off by must be the same on all of them.
func TestMeanTravelFollowsSpeed(t *testing.T) {
	pace := func(t int) float64 { return 4 + 2*math.Sin(float64(t)/4) }
	walk := func(t int) (x int) {
		way := -20.0
		for k := 1; k <= t; k++ {
			way += pace(k)
		}
		return int(math.Round(way))
	}
	swing := func(t int) int { return 70 - int(math.Round(20*math.Sin(float64(t)/3))) }
	for name, c := range map[string]struct {
		clip
		way         func(t int) int // where the part that moves is
		first, last int
		within      float64 // of the median measure over the way, of half of the steps
	}{
		"a walk at changing speed": {
			clip{50, meadow, nil, func(t int) []block { return []block{red(walk(t), 40, 24, 84)} }, 2},
			walk, 12, 40, 0.12,
		},
		"an arm that swings": {
			clip{60, meadow, nil, func(t int) []block { return []block{red(100, 40, 24, 84), sleeve(swing(t))} }, 2},
			swing, 4, 58, 0.2,
		},
	} {
		found := c.find(t)
		var ratios []float64
		for frame := c.first; frame <= c.last; frame++ {
			way := math.Abs(float64(c.way(frame) - c.way(frame-1)))
			if way >= 2 {
				ratios = append(ratios, found.Mean[frame]/way)
			}
		}
		median := middling(ratios)
		var off []float64
		for _, r := range ratios {
			off = append(off, math.Abs(r/median-1))
		}
		if half := middling(off); half > c.within {
			t.Errorf("%s: half of the steps lie more than %.3f of the measure beside the others", name, half)
		}
	}
}

func middling(list []float64) float64 {
	slices.Sort(list)
	return list[len(list)/2]
}

// A part that jumps clear of where it was is carried, nearly the whole way.
func TestMeanTravelOfWhatFlowLoses(t *testing.T) {
	// Up and down between 40 and 103, first by 3 px a frame, then by 21.
	arm := func(t int) int {
		way := 3 * t
		if t >= 21 {
			way = 63 + 21*(t-21)
		}
		if way %= 126; way > 63 {
			return 40 + 126 - way
		}
		return 40 + way
	}
	c := clip{40, meadow, nil, func(t int) []block { return []block{red(100, 40, 24, 84), sleeve(arm(t))} }, 1}
	found := c.find(t)
	slow, fast := found.Mean[10], found.Mean[26]
	if ratio := fast / slow; ratio < 7*0.6 || ratio > 7*1.4 {
		t.Errorf("an arm that goes 7 times as far travels %.1f times as far (%.3f and %.3f)", ratio, fast, slow)
	}
}
