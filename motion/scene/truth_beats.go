package scene

import "math"

// The definitions of the beat sheet, in its words: a step from one frame to the
// next is still when no visible part travels StillShare of the figure's height
// or more; a hold is a run of at least HoldFrames joined by still steps.
const (
	StillShare = 0.003 // figure heights
	HoldFrames = 4     // at 24 frames a second, in proportion elsewhere, at least 2
)

// MinHold is the least length of a hold, in frames.
func MinHold(rate float64) int { return max(2, int(math.Round(HoldFrames*rate/24))) }

// PeakTie is the share of the peak's mean travel within which another frame is
// as good a peak: a walk at an even pace has many, and an even number of steps
// through half a cosine has two.
const PeakTie = 0.05

// visible is the travel in pixels from which a step shows at all: what rounding
// of the reckoning leaves is far below, any drawn drift far above.
const visible = 1e-3

// A Beat is a hold or a move of one figure. A hold starts on the first frame
// that shows the held pose; the step that lands on it therefore belongs to the
// hold's first frame, and a pose that pops has no move before it.
type Beat struct {
	Hold       bool
	Start, End int
	Moving     bool    // hold: alive on at least half of its steps, counting a drawing's frames as one stretch
	Alive      float64 // hold: the share of its steps that show a change
	Peak       int     // move: the frame whose mean travel from the frame before is largest; -1 for a hold
	Ties       []int   // move: the frames whose mean travel comes within PeakTie of the peak's, it included
	Travel     float64 // move: sum of mean travel in figure heights, the landing included
	Size       float64 // move: Travel against the largest of the clip, 0..1
}

// patternAt is how many frames the pattern keeps a drawing up at shown frame f;
// stepped poses have no pattern.
func (sc *Scene) patternAt(sh *shot, a *actor, f int) int {
	_, on, stepped := drawingAt(a.exposure, float64(sc.spec.Conform.source(f)-sh.start))
	if stepped {
		return 1
	}
	return on * sc.spec.Conform.times()
}

// beats divides a figure's frames into holds and moves. On twos and threes the
// travel of a pop is judged spread over the frames that the pattern keeps the
// drawing up, so a drift below the threshold stays a hold; a run that is no
// longer than the pattern is the pattern and no hold.
func (sc *Scene) beats(ft *FigureTruth, sh *shot, a *actor) []Beat {
	n := ft.End - ft.Start + 1
	pattern := make([]int, n)
	for i := range pattern {
		pattern[i] = sc.patternAt(sh, a, ft.Start+i)
	}
	var list []Beat
	move := 0 // first frame not yet in a beat
	for i := 0; i < n; {
		j, alive, longest := i, 0, pattern[i]
		for j+1 < n && ft.Max[j+1]/float64(pattern[j+1]) < StillShare*ft.Height[j+1] {
			j++
			longest = max(longest, pattern[j])
			if ft.Max[j] > visible {
				alive += pattern[j]
			}
		}
		if length := j - i + 1; length >= MinHold(sc.Rate.Float()) && length > longest {
			if move < i {
				list = append(list, ft.move(move, i-1))
			}
			share := math.Min(1, float64(alive)/float64(j-i))
			list = append(list, Beat{Hold: true, Start: ft.Start + i, End: ft.Start + j, Peak: -1, Alive: share, Moving: share >= 0.5})
			move = j + 1
		}
		i = j + 1
	}
	if move < n {
		list = append(list, ft.move(move, n-1))
	}
	return list
}

// move makes the beat of a move from index i to index j.
func (ft *FigureTruth) move(i, j int) Beat {
	b := Beat{Start: ft.Start + i, End: ft.Start + j, Peak: ft.Start + i}
	for k := i; k <= min(j+1, len(ft.Mean)-1); k++ {
		b.Travel += ft.Mean[k] / ft.Height[k]
		if k <= j && ft.Mean[k] > ft.Mean[b.Peak-ft.Start] {
			b.Peak = ft.Start + k
		}
	}
	for k := i; k <= j; k++ {
		if ft.Mean[k] >= (1-PeakTie)*ft.Mean[b.Peak-ft.Start] {
			b.Ties = append(b.Ties, ft.Start+k)
		}
	}
	return b
}

// sizeMoves sets each move's size against the clip's biggest.
func sizeMoves(figures []FigureTruth) {
	most := 0.0
	for _, ft := range figures {
		for _, b := range ft.Beats {
			most = math.Max(most, b.Travel)
		}
	}
	for _, ft := range figures {
		for i := range ft.Beats {
			if most > 0 {
				ft.Beats[i].Size = ft.Beats[i].Travel / most
			}
		}
	}
}

// reckonExposure lists the stretches of the figure's frames by pattern.
func (sc *Scene) reckonExposure(ft *FigureTruth, sh *shot, a *actor) {
	type key struct {
		on      int
		stepped bool
	}
	var last key
	shown := math.NaN()
	drawings := 0
	for f := ft.Start; f <= ft.End; f++ {
		t, on, stepped := drawingAt(a.exposure, float64(sc.spec.Conform.source(f)-sh.start))
		k := key{on, stepped}
		if len(ft.Exposure) == 0 || k != last {
			drawings, shown, last = 0, math.NaN(), k
			ft.Exposure = append(ft.Exposure, Exposure{Start: f, Pattern: patternName(on, stepped)})
		}
		// A stepped drawing changes with its pose, not with its frame.
		if changed := t != shown; changed && (!stepped || drawings == 0 || ft.Max[f-ft.Start] > visible) {
			drawings++
		}
		shown = t
		e := &ft.Exposure[len(ft.Exposure)-1]
		e.End = f
		e.FramesPerDrawing = float64(e.End-e.Start+1) / float64(drawings)
	}
}

func patternName(on int, stepped bool) string {
	names := []string{"", "ones", "twos", "threes", "fours"}
	if stepped || on >= len(names) {
		return "stepped"
	}
	return names[on]
}
