package figure

import (
	"holdfast/motion/camera"
	"holdfast/motion/travel"
)

// Where a part moves by more than its own width from one frame to the next, no
// flow can follow it. What changed between the two frames then is the part where
// it was and where it is, and the ground that it covers and uncovers. How far
// all of that went is the least work that carries the colours of the one frame
// to the places of the other (transport.go).

// shifter measures how far parts went that flow lost.
type shifter struct {
	layers   []*Layer
	path     []camera.Similarity // layer pixels
	slack    float64
	from, to *Layer // two frames, both as the first sees them
	changed  *Mask
	carrier  carrier
}

func newShifter(layers []*Layer, path []camera.Similarity) (*shifter, error) {
	s := &shifter{layers: layers, slack: slackOf(path)}
	for _, p := range path {
		s.path = append(s.path, shrunk(p))
	}
	w, h := layers[0].W, layers[0].H
	var err error
	if s.to, err = NewLayer(w, h); err != nil {
		return s, err
	}
	s.changed, err = newMask(w, h)
	return s, err
}

// slackOf is how far frames on a path may lie beside each other, layer pixels.
func slackOf(path []camera.Similarity) float64 {
	for _, p := range path {
		if p != camera.Identity {
			return slackPixels
		}
	}
	return slackStill
}

func (s *shifter) close() {
	if s.to != nil {
		s.to.Close()
	}
	if s.changed != nil {
		s.changed.close()
	}
}

// work returns the way that led to frame t in the cells that flow lost; m is
// the travel to that frame.
func (s *shifter) work(t int, m *travel.Map) way {
	if t == 0 || m == nil {
		return way{}
	}
	cells, any := lostCells(m)
	if !any {
		return way{}
	}
	s.look(t)
	s.changed.changes(s.from, s.to, s.slack)
	out := s.carrier.carry(s.from, s.to, s.places(m, cells))
	out.cells = cells
	return out
}

// look sets the views of frames t-1 and t, in the light of the first: what
// fades or flickers does not travel.
func (s *shifter) look(t int) {
	s.from = s.layers[t-1]
	if s.slack == slackStill {
		copy(s.to.Pix, s.layers[t].Pix)
	} else {
		m := middle(s.from.W, s.from.H)
		s.to.warp(s.layers[t], s.path[t].Inverse().Then(s.path[t-1]), m, m, 0)
	}
	s.to.relight(light(s.from, s.to))
}

// changes marks what differs between two layers, the second lying no farther than
// slack beside the first; nothing in the outermost pixels, whose slope is not
// known.
func (m *Mask) changes(a, b *Layer, slack float64) {
	clear(m.Pix)
	for y := 1; y < a.H-1; y++ {
		for i := y*a.W + 1; i < (y+1)*a.W-1; i++ {
			if a.Pix[i*channels+channelSeen] != 255 || b.Pix[i*channels+channelSeen] != 255 {
				continue
			}
			// Most pixels are alike, and need no slope.
			if d := unlike(a, b, i); d > leastFigure && d > leastFigure+slack*slope(a, i) {
				m.Pix[i] = 255
			}
		}
	}
	m.despeckle()
}

// places returns the changed pixels in the given cells.
func (s *shifter) places(m *travel.Map, cells []bool) []int {
	var list []int
	for i, v := range s.changed.Pix {
		if v == 0 {
			continue
		}
		x, y := i%s.changed.W, i/s.changed.W
		if c, ok := m.Cell(x*Shrink, y*Shrink); ok && cells[c] {
			list = append(list, i)
		}
	}
	return list
}

// unlike is the difference between two layers at pixel i, levels.
func unlike(a, b *Layer, i int) float64 {
	p, q := a.Pix[i*channels:i*channels+channels], b.Pix[i*channels:i*channels+channels]
	luma := apartBytes(p[channelY], q[channelY])
	chroma := max(apartBytes(p[channelCb], q[channelCb]), apartBytes(p[channelCr], q[channelCr]))
	return max(float64(luma), chromaWeight*float64(chroma))
}

// slope is the larger difference across pixel i, levels over two pixels.
func slope(l *Layer, i int) float64 {
	at := func(j int) uint8 { return l.Pix[j*channels] }
	return float64(max(apartBytes(at(i+1), at(i-1)), apartBytes(at(i+l.W), at(i-l.W))))
}

func apartBytes(a, b uint8) int {
	d := int(a) - int(b)
	return max(d, -d)
}
