package compare

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"holdfast/sheet"
)

// A line is the beats of a clip, one after the other, and how much moves on
// each of its frames. Frames count from 0.
type line struct {
	clip  sheet.Clip
	rate  float64 // frames a second
	beats []beat
	curve []float64 // motion from the frame before, spread over a few frames
	fast  float64   // the motion that a tenth of the frames exceed
}

// A beat is one of a line. What the clip itself cuts off has no known length:
// it lasted at least as long as is seen.
type beat struct {
	sheet.Beat
	from, to float64 // first frame, and the one after the last
	cut      bool    // by the first or the last frame of the clip
	shape    [shapePoints]float64
}

func (b beat) length() float64 { return b.to - b.from }
func (b beat) hold() bool      { return b.Kind == sheet.KindHold }
func (b beat) slight() bool    { return slight(b.Beat) }

// slightMove is the size, against the clip's biggest move, under which a move is
// hardly seen: whether it is found at all hangs on the picture.
const slightMove = 0.05

func slight(b sheet.Beat) bool { return b.Size != nil && *b.Size < slightMove }

// shapePoints is how many points tell the shape of a move: enough to tell where
// its peak lies, few enough that a move of a few frames fills them.
const shapePoints = 12

// spreadSeconds is the time over which motion is spread before two curves are
// held against each other: a drawing on threes at 24 frames a second, so that a
// pass on ones is like one on twos.
const spreadSeconds = 0.125

// fastShare is the share of a clip's frames that are not among its fastest: a tenth
// of the frames is a move or two, however much of the rest is held.
const fastShare = 0.9

// quantile is the value that a share of a list does not exceed; 0 for none.
func quantile(share float64, list []float64) float64 {
	if len(list) == 0 {
		return 0
	}
	return stat.Quantile(share, stat.Empirical, slices.Sorted(slices.Values(list)), nil)
}

// lineOf returns the beats of a sheet that stand for the whole picture: those
// of figure 0 where a shot has them, else those of its first figure.
func lineOf(s *sheet.Sheet) *line {
	l := &line{clip: s.Clip, rate: s.Clip.FPS.Float()}
	l.curve = spread(s.Curve.Motion, int(math.Round(spreadSeconds*l.rate)))
	l.fast = quantile(fastShare, l.curve)
	leads := leads(s)
	for _, b := range s.Beats {
		if b.Figure != leads[b.Shot] {
			continue
		}
		n := beat{Beat: b, from: float64(b.Start - s.Clip.FirstFrame), to: float64(b.End + 1 - s.Clip.FirstFrame)}
		n.cut = b.Start == s.Clip.FirstFrame || b.End == s.Clip.Last()
		if !n.hold() {
			n.shape = l.shape(n.from, n.to)
		}
		l.beats = append(l.beats, n)
	}
	return l
}

// leads returns whose beats stand for each shot.
func leads(s *sheet.Sheet) map[int]int {
	lead := map[int]int{}
	for _, b := range s.Beats {
		if f, ok := lead[b.Shot]; !ok || b.Figure < f {
			lead[b.Shot] = b.Figure
		}
	}
	return lead
}

// spread returns the running mean of a curve over width frames.
func spread(curve []float64, width int) []float64 {
	width = max(width, 1)
	sums := make([]float64, len(curve)+1)
	for i, v := range curve {
		sums[i+1] = sums[i] + v
	}
	out := make([]float64, len(curve))
	for i := range out {
		from, to := max(0, i-(width-1)/2), min(len(curve), i+width/2+1)
		out[i] = (sums[to] - sums[from]) / float64(to-from)
	}
	return out
}

// at returns the curve at a fraction of a frame; beyond its ends it is at rest.
func (l *line) at(frame float64) float64 {
	i := int(math.Floor(frame))
	if i < 0 || i+1 >= len(l.curve) {
		if i == len(l.curve)-1 {
			return l.curve[i]
		}
		return 0
	}
	u := frame - float64(i)
	return l.curve[i]*(1-u) + l.curve[i+1]*u
}

// shape samples the curve over a stretch and takes mean and size out of it, so
// that the product of two shapes is their correlation.
func (l *line) shape(from, to float64) (s [shapePoints]float64) {
	for i := range s {
		s[i] = l.at(from + (to-from)*(float64(i)+0.5)/shapePoints)
	}
	normalise(s[:])
	return s
}

// normalise takes the mean out of a list and scales it to the length 1; a flat
// list becomes zeros.
func normalise(list []float64) {
	mean, square := 0.0, 0.0
	for _, v := range list {
		mean += v / float64(len(list))
	}
	for i := range list {
		list[i] -= mean
		square += list[i] * list[i]
	}
	for i := range list {
		if square < 1e-18 {
			list[i] = 0
		} else {
			list[i] /= math.Sqrt(square)
		}
	}
}

// product is the correlation of two normalised lists.
func product(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
