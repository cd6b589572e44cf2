package sheet

import (
	"fmt"
	"math"
	"strconv"

	"holdfast/sheet/internal/page"
)

// Marks of the line of motion.
const (
	heldMark   = '·'
	motionBars = "▁▂▃▄▅▆▇█"
)

// tickLeast is how many characters lie between two frame numbers under the line
// of motion, at least: the longest number and room around it.
const tickLeast = 8

// writeMotion draws how much moves over the clip's time as one line with frame
// numbers under it. A character stands for one frame or, where the page has not
// room for all, for several: the one of them that moves most.
func (s *Sheet) writeMotion(p *page.Page) {
	n := min(len(s.Curve.Motion), s.Clip.Frames)
	most := 0.0
	for _, v := range s.Curve.Motion[:n] {
		most = max(most, v)
	}
	if n < 2 || most <= 0 {
		return
	}
	cells := min(n, p.Width())
	line := make([]rune, cells)
	held := s.heldFrames(n)
	for c := range line {
		line[c] = motionMark(s.Curve.Motion, held, c*n/cells, (c+1)*n/cells, most)
	}
	p.WriteString("\n")
	p.Line("Motion to %.2g heights a frame%s, %c held", most, s.perMark(n, cells), heldMark)
	p.WriteString(string(line) + "\n")
	p.WriteString(ticks(s.Clip.FirstFrame, n, cells) + "\n")
}

// perMark says for how many frames a character stands.
func (s *Sheet) perMark(frames, cells int) string {
	if frames == cells {
		return ""
	}
	return fmt.Sprintf(", %.1f frames a mark", float64(frames)/float64(cells))
}

// heldFrames says of each of the first n frames whether every figure holds.
func (s *Sheet) heldFrames(n int) []bool {
	held := make([]bool, n)
	for _, kind := range []string{KindHold, KindMove} { // what moves beside a hold is seen
		for _, b := range s.Beats {
			for f := max(b.Start-s.Clip.FirstFrame, 0); b.Kind == kind && f <= min(b.End-s.Clip.FirstFrame, n-1); f++ {
				held[f] = kind == KindHold
			}
		}
	}
	return held
}

// motionMark is the character of the frames from one index up to another.
func motionMark(motion []float64, held []bool, from, to int, most float64) rune {
	v, still := 0.0, true
	for f := from; f < to; f++ {
		if !held[f] {
			v, still = max(v, motion[f]), false
		}
	}
	if still {
		return heldMark
	}
	bars := []rune(motionBars)
	return bars[max(int(math.Ceil(v/most*float64(len(bars))))-1, 0)]
}

// ticks writes frame numbers under the characters that show them: those of the
// first frame and of round ones.
func ticks(first, frames, cells int) string {
	step := roundStep(float64(tickLeast) * float64(frames) / float64(cells))
	line := strconv.Itoa(first)
	for f := (first/step + 1) * step; f < first+frames; f += step {
		number := strconv.Itoa(f)
		// The character whose frames hold this one: c*frames/cells <= f-first.
		at := ((f-first+1)*cells - 1) / frames
		if at <= len(line) || at+len(number) > cells {
			continue
		}
		line = fmt.Sprintf("%-*s%s", at, line, number)
	}
	return line
}

// roundStep is the smallest of 1, 2, 5, 10, 20, 50 and so on that reaches least.
func roundStep(least float64) int {
	ten := math.Pow(10, math.Floor(math.Log10(max(least, 1))))
	for _, m := range []float64{1, 2, 5} {
		if m*ten >= least {
			return int(m * ten)
		}
	}
	return int(10 * ten)
}
