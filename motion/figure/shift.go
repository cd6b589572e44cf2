package figure

import (
	"math"

	"holdfast/motion/camera"
	"holdfast/motion/travel"
)

// Where a part moves by more than its own width from one frame to the next, no
// flow can follow it. Three frames tell where it was and where it is: what
// moved into a frame and out of it again stood there (the double difference of
// frames, Y. Kameda, M. Minoh 1996, from memory). What was left is then looked
// for among what arrived (patch.go).

const (
	// leastLost is how many cells flow must lose before outlines are compared.
	leastLost = 3
	// repeatReach is how many frames a drawing may stay up: threes.
	repeatReach = 3
)

// shifter measures how far parts went that flow lost.
type shifter struct {
	layers  []*Layer
	path    []camera.Similarity // layer pixels
	slack   float64
	views   [4]*Layer // before, from, to, after, all as frame from sees them
	changed [3]*Mask  // before-from, from-to, to-after

	left, arrived []int // pixels
	isLeft        []bool
	ways          []float64
}

func newShifter(layers []*Layer, path []camera.Similarity) (*shifter, error) {
	s := &shifter{layers: layers, slack: slackStill}
	for _, p := range path {
		if p != camera.Identity {
			s.slack = slackPixels
		}
		s.path = append(s.path, shrunk(p))
	}
	w, h := layers[0].W, layers[0].H
	s.isLeft = make([]bool, w*h)
	var err error
	for i := range s.views {
		if s.views[i], err = NewLayer(w, h); err != nil {
			return s, err
		}
	}
	for _, m := range []**Mask{&s.changed[0], &s.changed[1], &s.changed[2]} {
		if *m, err = newMask(w, h); err != nil {
			return s, err
		}
	}
	return s, nil
}

func (s *shifter) close() {
	for _, v := range s.views {
		if v != nil {
			v.Close()
		}
	}
	for _, m := range s.changed {
		if m != nil {
			m.close()
		}
	}
}

// work returns the travel, summed over pixels, that led to frame t in the
// cells that flow lost, in layer pixels. maps are those of all frames.
func (s *shifter) work(t int, maps []*travel.Map) way {
	m := maps[t]
	if t == 0 || m == nil || lost(m) < leastLost {
		return way{}
	}
	from := t - 1
	s.view(1, from, from)
	s.view(2, t, from)
	before, after := drawingBefore(maps, from), drawingAfter(maps, t)
	s.change(1, true)
	s.view(0, max(before, 0), from)
	s.change(0, before >= 0)
	s.view(3, min(after, len(s.layers)-1), from)
	s.change(2, after < len(s.layers))
	return s.sum(m, before >= 0, after < len(s.layers))
}

// lost counts the cells whose change flow does not explain.
func lost(m *travel.Map) int {
	n := 0
	for _, l := range m.Lost {
		if l {
			n++
		}
	}
	return n
}

// drawingBefore returns the last frame that shows another drawing than the
// given one, -1 where it stood still before.
func drawingBefore(maps []*travel.Map, frame int) int {
	for f := frame; f > max(0, frame-repeatReach); f-- {
		if maps[f] != nil && stirs(maps[f]) {
			return f - 1
		}
	}
	return -1
}

// drawingAfter is the same looking forward; len(maps) says that it stands still.
func drawingAfter(maps []*travel.Map, frame int) int {
	for f := frame + 1; f < min(len(maps), frame+1+repeatReach); f++ {
		if maps[f] != nil && stirs(maps[f]) {
			return f
		}
	}
	return len(maps)
}

// stirs reports whether anything moved, followed or lost.
func stirs(m *travel.Map) bool {
	if lost(m) >= leastLost {
		return true
	}
	for i := range m.Travel {
		if m.Supported(i) > slowStep {
			return true
		}
	}
	return false
}

// slowStep is the travel, in working pixels, under which outlines do not change.
const slowStep = 1.0

// view sets views[k] to frame f as frame as sees it.
func (s *shifter) view(k, f, as int) {
	if f == as || s.slack == slackStill {
		copy(s.views[k].Pix, s.layers[f].Pix)
		return
	}
	m := middle(s.layers[0].W, s.layers[0].H)
	s.views[k].warp(s.layers[f], s.path[f].Inverse().Then(s.path[as]), m, m, 0)
}

// change marks in changed[k] what differs between views k and k+1; nothing
// where known is false.
func (s *shifter) change(k int, known bool) {
	a, b := s.views[k], s.views[k+1]
	w := a.W
	for i := range s.changed[k].Pix {
		s.changed[k].Pix[i] = 0
		x, y := i%w, i/w
		if !known || x == 0 || y == 0 || x == w-1 || y == a.H-1 {
			continue
		}
		if a.Pix[i*channels+channelSeen] == 255 && b.Pix[i*channels+channelSeen] == 255 && unlike(a, b, i) > leastFigure+s.slack*slope(a, i) {
			s.changed[k].Pix[i] = 255
		}
	}
	s.changed[k].despeckle()
}

// unlike is the difference between two layers at pixel i, levels.
func unlike(a, b *Layer, i int) float64 {
	p, q := a.Pix[i*channels:i*channels+channels], b.Pix[i*channels:i*channels+channels]
	d := func(c int) float64 { return math.Abs(float64(p[c]) - float64(q[c])) }
	return max(d(channelY), chromaWeight*d(channelCb), chromaWeight*d(channelCr))
}

// slope is the larger difference across pixel i, levels over two pixels.
func slope(l *Layer, i int) float64 {
	at := func(j int) float64 { return float64(l.Pix[j*channels]) }
	return max(math.Abs(at(i+1)-at(i-1)), math.Abs(at(i+l.W)-at(i-l.W)))
}
