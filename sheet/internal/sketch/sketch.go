// Package sketch makes small beat sheets for tests.
package sketch

import (
	"math"
	"strconv"
	"strings"

	"holdfast/sheet"
)

// speed is how fast a move goes at its peak, figure heights a frame.
const speed = 0.05

// Of returns the sheet of a clip whose beats are written in words: "h12 m8" is a
// hold of 12 frames and a move of 8, in one shot at 24 frames a second that begins
// on frame 1. Words that say neither are a mistake of the test's, and panic.
func Of(beats string) *sheet.Sheet {
	s := &sheet.Sheet{Clip: sheet.Clip{Name: "lantern.mp4", Width: 640, Height: 360, FPS: sheet.Rate{Num: 24, Den: 1}, FirstFrame: 1}}
	frame := 1
	for word := range strings.FieldsSeq(beats) {
		n, err := strconv.Atoi(word[1:])
		if err != nil || word[0] != 'h' && word[0] != 'm' {
			panic("no beat: " + word)
		}
		end := frame + n - 1
		if word[0] == 'h' {
			s.Beats = append(s.Beats, sheet.NewHold(1, 0, frame, end, sheet.HoldFrozen))
		} else {
			s.Beats = append(s.Beats, sheet.NewMove(1, 0, frame, end, frame+n/2, 1))
		}
		s.Curve.Motion = append(s.Curve.Motion, motion(word[0] == 'm', n)...)
		frame = end + 1
	}
	s.Clip.Frames = frame - 1
	s.Curve.Camera = make([][4]float64, s.Clip.Frames)
	for i := range s.Curve.Camera {
		s.Curve.Camera[i][3] = 1
	}
	s.Shots = []sheet.Shot{{Start: 1, End: frame - 1, Camera: sheet.Camera{Kind: "still", Zoom: 1}}}
	s.Complete()
	return s
}

// motion is the curve of a beat: half a wave of a move, nothing of a hold.
func motion(moves bool, frames int) []float64 {
	list := make([]float64, frames)
	for i := range list {
		if moves {
			list[i] = speed * math.Sin(math.Pi*(float64(i)+0.5)/float64(frames))
		}
	}
	return list
}
