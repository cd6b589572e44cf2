package assemble

import (
	"holdfast/motion"
	"holdfast/motion/figure"
	"holdfast/sheet"
)

// framing adds how each figure stands in the picture while a pose is held.
func (m *Measured) framing(s *sheet.Sheet) {
	for _, hold := range s.Beats {
		if hold.Kind != sheet.KindHold || hold.Figure != 0 {
			continue
		}
		for _, f := range m.result.Figures {
			if f.Shot+1 == hold.Shot && outlined(f, m.result.Shots[f.Shot].Camera.Kind) {
				if f.Bare != nil {
					f.Boxes = f.Bare // of the copy: a shadow is no part of a figure
				}
				boxes := m.boxes(f, hold.Start, hold.End)
				if m.result.Shots[f.Shot].Camera.Kind != "tilt" {
					endAtSoles(boxes, hold, s.Contacts, f.ID)
				}
				s.AddFraming(hold, f.ID, boxes)
			}
		}
	}
}

// outlined reports whether all of a figure is in its boxes. What is known by its
// motion alone, or never leaves its place, is known as far as it moves: of
// people who stand and talk that is often no more than arms. Under a camera that
// travels, the set beside a figure passes for a part of it.
func outlined(f motion.Figure, camera string) bool {
	if f.Method == figure.ByHand {
		return true
	}
	return f.Method == figure.ByPlate && !f.Rooted && (camera == "still" || camera == "pan" || camera == "tilt" || camera == "handheld")
}

// soleShare is how far below its soles, in shares of its own height, a figure's
// box may end for the ground's dark rim there to be taken off: the contact shadow
// under a foot is a few hundredths of a height deep, what hangs lower is a part of
// the figure.
const soleShare = 0.04

// endAtSoles lets boxes of a hold end where their figure stands. Legs of the
// colour of the ground behind them may be missing from its outline where its feet
// were found all the same, and the shadow right under a foot passes for a part of
// it. Spots keep their height in the picture unless the camera tilts.
func endAtSoles(boxes [][4]float64, hold sheet.Beat, contacts []sheet.Contact, figure int) {
	soles := make([]float64, len(boxes)) // the lowest on each frame
	for _, c := range contacts {
		if c.Shot != hold.Shot || c.Figure != figure {
			continue
		}
		for n := max(c.Start, hold.Start); n <= min(c.End, hold.End); n++ {
			soles[n-hold.Start] = max(soles[n-hold.Start], c.Y)
		}
	}
	for i := range boxes {
		b, sole := &boxes[i], soles[i]
		if b[2] > 0 && sole > b[1] && b[1]+b[3]-sole <= soleShare*b[3] {
			b[3] = sole - b[1]
		}
	}
}

// boxes returns a figure's box on each of some frames, as AddFraming wants them.
func (m *Measured) boxes(f motion.Figure, start, end int) [][4]float64 {
	sx, sy := m.scale()
	list := make([][4]float64, 0, end-start+1)
	for n := start; n <= end; n++ {
		box := [4]float64{}
		if k := n - m.number(f.Start); k >= 0 && k < len(f.Boxes) && !f.Boxes[k].Empty() {
			b := f.Boxes[k]
			box = [4]float64{float64(b.X0) * sx, float64(b.Y0) * sy, float64(b.W()) * sx, float64(b.H()) * sy}
		}
		list = append(list, box)
	}
	return list
}
