package figure

import (
	"image"
	"image/color"
	"math"

	"gocv.io/x/gocv"

	"holdfast/motion/camera"
	"holdfast/motion/travel"
)

// Where a part moves by more than its own width from one frame to the next, no
// flow can follow it. Three frames tell where it was and where it is: what
// moved into a frame and out of it again stood there (the double difference of
// frames, Y. Kameda, M. Minoh 1996, from memory). What arrived must have come
// from what was left, so the distances from one to the other say how far it
// went: the least work that turns one outline into the next (the earth mover's
// distance, Y. Rubner, C. Tomasi, L. Guibas 2000; here to the nearest pixel).

const (
	// farShare is the travel, in picture heights, beyond which what arrived and
	// what was left are not taken for the same part.
	farShare = 0.35
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
	seed    *Mask     // zero where distance is measured to

	toLeft, toArrived []float32
	labels, distance  gocv.Mat
}

func newShifter(layers []*Layer, path []camera.Similarity) (*shifter, error) {
	s := &shifter{layers: layers, slack: slackStill, labels: gocv.NewMat(), distance: gocv.NewMat()}
	for _, p := range path {
		if p != camera.Identity {
			s.slack = slackPixels
		}
		p.TX, p.TY = p.TX/Shrink, p.TY/Shrink
		s.path = append(s.path, p)
	}
	w, h := layers[0].W, layers[0].H
	var err error
	for i := range s.views {
		if s.views[i], err = NewLayer(w, h); err != nil {
			return s, err
		}
	}
	for _, m := range []**Mask{&s.changed[0], &s.changed[1], &s.changed[2], &s.seed} {
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
	for _, m := range append(s.changed[:], s.seed) {
		if m != nil {
			m.close()
		}
	}
	s.labels.Close()
	s.distance.Close()
}

// work returns the travel, summed over pixels, that led to frame t in the
// cells that flow lost, in layer pixels. maps are those of all frames.
func (s *shifter) work(t int, maps []*travel.Map) (float64, error) {
	m := maps[t]
	if t == 0 || m == nil || lost(m) < leastLost {
		return 0, nil
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
	step := s.path[f].Inverse().Then(s.path[as])
	if f == as || s.slack == slackStill {
		copy(s.views[k].Pix, s.layers[f].Pix)
		return
	}
	w, h := s.layers[0].W, s.layers[0].H
	mx, my := float64(w-1)/2, float64(h-1)/2
	tx, ty := step.Apply(-mx, -my)
	m := gocv.NewMatWithSize(2, 3, gocv.MatTypeCV64F)
	defer m.Close()
	for i, v := range [6]float64{step.A, -step.B, tx + mx, step.B, step.A, ty + my} {
		m.SetDoubleAt(i/3, i%3, v)
	}
	gocv.WarpAffineWithParams(s.layers[f].mat, &s.views[k].mat, m, image.Pt(w, h), gocv.InterpolationLinear, gocv.BorderConstant, color.RGBA{})
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
	open := gocv.GetStructuringElement(gocv.MorphRect, image.Pt(2, 2))
	defer open.Close()
	gocv.MorphologyEx(s.changed[k].mat, &s.changed[k].mat, gocv.MorphOpen, open)
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

// sum adds up how far the changed pixels of lost cells went.
func (s *shifter) sum(m *travel.Map, before, after bool) (float64, error) {
	d := [3][]uint8{s.changed[0].Pix, s.changed[1].Pix, s.changed[2].Pix}
	left := func(i int) bool { return d[1][i] != 0 && (before && d[0][i] != 0 || !before && d[2][i] == 0) }
	arrived := func(i int) bool { return d[1][i] != 0 && (after && d[2][i] != 0 || !after && d[0][i] == 0) }
	var err error
	if s.toLeft, err = s.distances(s.toLeft, left); err != nil {
		return 0, err
	}
	if s.toArrived, err = s.distances(s.toArrived, arrived); err != nil {
		return 0, err
	}
	far := float32(farShare * float64(s.seed.H))
	sum := 0.0
	for i, v := range d[1] {
		if v == 0 || !inLost(m, i%s.seed.W, i/s.seed.W) {
			continue
		}
		if a := s.toLeft[i]; arrived(i) && !left(i) && a <= far {
			sum += float64(a)
		}
		if a := s.toArrived[i]; left(i) && !arrived(i) && a <= far {
			sum += float64(a)
		}
	}
	return sum / 2, nil
}

// inLost reports whether a layer pixel lies in a lost cell.
func inLost(m *travel.Map, x, y int) bool {
	i, ok := m.Cell(x*Shrink, y*Shrink)
	return ok && m.Lost[i]
}

// distances sets dst to the distance of every pixel from the nearest one that
// is in; all are infinite where none is.
func (s *shifter) distances(dst []float32, in func(i int) bool) ([]float32, error) {
	dst = dst[:0]
	none := true
	for i := range s.seed.Pix {
		s.seed.Pix[i] = 255
		if in(i) {
			s.seed.Pix[i], none = 0, false
		}
	}
	if none {
		for range s.seed.Pix {
			dst = append(dst, float32(math.Inf(1)))
		}
		return dst, nil
	}
	gocv.DistanceTransform(s.seed.mat, &s.distance, &s.labels, gocv.DistL2, gocv.DistanceMask3, gocv.DistanceLabelCComp)
	d, err := s.distance.DataPtrFloat32()
	if err != nil {
		return nil, err
	}
	return append(dst, d...), nil
}
