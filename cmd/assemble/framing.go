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
				s.AddFraming(hold, f.ID, m.boxes(f, hold.Start, hold.End))
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
