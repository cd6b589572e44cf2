package extract

import (
	"errors"
	"io"
	"math/big"
	"reflect"
	"slices"
	"testing"
)

func ignoreEOF(err error) error {
	if errors.Is(err, io.EOF) {
		return nil
	}
	return err
}

// conformAll runs a conformer over times and gives, for each output frame,
// the index of the source frame that it shows.
func conformAll(t *testing.T, times []int64, tb timeBase, rate, last, even Rate) []int {
	t.Helper()
	i, held := 0, 0
	index := map[*picture]int{}
	c := &conformer{
		rate: rate, last: last, even: even, tb: tb,
		take: func() (*picture, error) {
			if i == len(times) {
				return nil, io.EOF
			}
			p := &picture{time: frameTime{pts: times[i]}}
			index[p] = i
			i++
			held++
			return p, nil
		},
		give: func(*picture) { held-- },
	}
	var shown []int
	for {
		p, err := c.frame()
		if err == io.EOF {
			return shown
		}
		if err != nil {
			t.Fatal(err)
		}
		if held > 2 {
			t.Fatalf("%d pictures held", held)
		}
		shown = append(shown, index[p])
	}
}

// nearest works the rule out frame by frame with exact fractions.
func nearest(times []int64, tb timeBase, rate Rate, frames int) []int {
	var shown []int
	for k := range frames {
		at := big.NewRat(int64(k)*rate.Den, rate.Num)
		best, bestGap := 0, (*big.Rat)(nil)
		for i, t := range times {
			gap := new(big.Rat).Sub(big.NewRat((t-times[0])*tb.Num, tb.Den), at)
			gap.Abs(gap)
			if bestGap == nil || gap.Cmp(bestGap) < 0 {
				best, bestGap = i, gap
			}
		}
		shown = append(shown, best)
	}
	return shown
}

func TestConformShowsTheNearestFrame(t *testing.T) {
	for _, c := range []struct {
		name      string
		from, to  Rate
		tb        timeBase
		n, frames int
	}{
		{"30 to 24", Rate{30, 1}, Rate{24, 1}, timeBase{1, 30}, 60, 48},
		{"59.94 to 24", Rate{60000, 1001}, Rate{24, 1}, timeBase{1, 60000}, 240, 97}, // 4.004 s
		{"25 to 24 in milliseconds", Rate{25, 1}, Rate{24, 1}, timeBase{1, 1000}, 100, 96},
		{"12 to 24", Rate{12, 1}, Rate{24, 1}, timeBase{1, 12}, 24, 48},
		{"24 to 25", Rate{24, 1}, Rate{25, 1}, timeBase{1, 24}, 48, 50},
		{"24 to 24 in milliseconds", Rate{24, 1}, Rate{24, 1}, timeBase{1, 1000}, 240, 240},
		{"29.97 to 24 in milliseconds", Rate{30000, 1001}, Rate{24, 1}, timeBase{1, 1000}, 300, 241}, // 10.01 s
		{"one frame", Rate{24, 1}, Rate{24, 1}, timeBase{1, 24}, 1, 1},
	} {
		times := stamps(c.n, c.from, c.tb)
		for i := range times {
			times[i] += 777 // the first frame need not be at zero
		}
		got := conformAll(t, times, c.tb, c.to, c.from, Rate{})
		if want := nearest(times, c.tb, c.to, c.frames); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %d frames %v\nwant %d frames %v", c.name, len(got), got, len(want), want)
		}
		// Where the rate is known, rounded time stamps do as well as exact ones.
		got = conformAll(t, times, c.tb, c.to, c.from, c.from)
		exact := timeBase{c.from.Den, c.from.Num}
		if want := nearest(stamps(c.n, c.from, exact), exact, c.to, c.frames); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %d frames %v\nwant %d frames %v", c.name, len(got), got, len(want), want)
		}
	}
}

func TestConformOddTimes(t *testing.T) {
	tb := timeBase{1, 24}
	for _, c := range []struct {
		name  string
		times []int64
		want  []int
	}{
		{"a frame is held until the next", []int64{0, 1, 5, 6}, []int{0, 1, 1, 1, 1, 2, 3}},
		{"poses are held until the next", []int64{0, 24, 30, 31, 32}, append(slices.Concat(slices.Repeat([]int{0}, 24), slices.Repeat([]int{1}, 6)), 2, 3, 4)},
		{"of equal times the first is shown", []int64{0, 1, 1, 2}, []int{0, 1, 3}},
		{"a time that falls back is left out", []int64{0, 1, 0, 2}, []int{0, 1, 3}},
		{"a hole of ten hours is closed", []int64{0, 1, 864000, 864001}, []int{0, 1, 2, 3}},
	} {
		if got := conformAll(t, c.times, tb, Rate{24, 1}, Rate{24, 1}, Rate{}); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}
