// Package staging tells who comes into the picture and goes out of it, and who walks
// up to whom, from where figures are frame by frame. Boxes come in, numbers go out.
package staging

import (
	"holdfast/motion/camera"
	"holdfast/motion/figure"
	"holdfast/motion/rank"
)

// A Path is where one figure is: its box on each frame from Start, empty where it was
// not seen. Lengths are pixels of the picture.
type Path struct {
	Start  int
	Boxes  []figure.Box
	Height float64
	Rooted bool // it never leaves its place, so it is there from the start and to the end
}

// A Shot is what the figures are seen in. Frames are counted as those of the paths.
type Shot struct {
	Start, End int
	W, H       int // of the picture
	Rate       float64
	Camera     []camera.Step // to each frame from Start, from the frame before
}

// Settings are the thresholds, by the names they have in a sheet.
func Settings() map[string]any {
	return map[string]any{
		"enter_rim_px": rim, "enter_seen_share": seenShare, "enter_grow_share": growShare, "enter_slack_s": slackSeconds, "enter_pace_s": paceSeconds, "enter_lead_s": leadSeconds, "enter_back_share": backShare,
		"approach_window_s": windowSeconds, "approach_pace_heights_s": pace, "approach_rest_s": restSeconds,
		"approach_least_heights": least, "approach_stir_heights": stir, "approach_alone_share": aloneShare,
	}
}

// rim is how near to an edge a box touches it, pixels: outlines are told from every
// second pixel, and a picture's outermost are its worst.
const rim = 4

// end is the last frame of a path.
func (p *Path) end() int { return p.Start + len(p.Boxes) - 1 }

// at is the box on a frame, empty where there is none.
func (p *Path) at(f int) figure.Box {
	if f < p.Start || f > p.end() {
		return figure.Box{}
	}
	return p.Boxes[f-p.Start]
}

// cutAt says which sides of the picture cut a box: left, right, top, bottom.
func (s *Shot) cutAt(b figure.Box) [4]bool {
	return [4]bool{b.X0 <= rim, b.X1 >= s.W-rim, b.Y0 <= rim, b.Y1 >= s.H-rim}
}

// within is how far a box reaches into the picture from a side, pixels.
func (s *Shot) within(b figure.Box, side Side) int {
	switch side {
	case Left:
		return b.X1
	case Right:
		return s.W - b.X0
	case Top:
		return b.Y1
	default:
		return s.H - b.Y0
	}
}

// size is how far a box reaches across the edge of a side, pixels.
func (side Side) size(b figure.Box) int {
	if side == Left || side == Right {
		return b.W()
	}
	return b.H()
}

// whole is the median size of a path across the edge of a side where that does not
// cut it; 0 where it always does.
func (s *Shot) whole(p *Path, side Side) int {
	var list []int
	for _, b := range p.Boxes {
		if !b.Empty() && !s.cutAt(b)[side] && !s.cutAt(b)[side.other()] {
			list = append(list, side.size(b))
		}
	}
	if len(list) == 0 {
		return 0
	}
	return rank.Median(list)
}
