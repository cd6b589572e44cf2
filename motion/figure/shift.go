package figure

import (
	"image"
	"image/color"
	"math"
	"slices"

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
		p.TX, p.TY = p.TX/Shrink, p.TY/Shrink
		s.path = append(s.path, p)
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

// A way is how far what flow lost went, in layer pixels.
type way struct {
	sum float64 // over all pixels
	top float64 // of the part that went farthest
}

// sum adds up how far the pixels that were left went.
func (s *shifter) sum(m *travel.Map, before, after bool) way {
	d := [3][]uint8{s.changed[0].Pix, s.changed[1].Pix, s.changed[2].Pix}
	s.left, s.arrived = s.left[:0], s.arrived[:0]
	for i, v := range d[1] {
		if v == 0 {
			continue
		}
		if before && d[0][i] != 0 || !before && d[2][i] == 0 {
			s.left = append(s.left, i)
			s.isLeft[i] = true
		}
		if after && d[2][i] != 0 || !after && d[0][i] == 0 {
			s.arrived = append(s.arrived, i)
		}
	}
	total := s.follow(m)
	for _, i := range s.left {
		s.isLeft[i] = false
	}
	return total
}

const (
	// mostFollowed and mostPlaces bound the pixels that are followed and the
	// places each is looked for at; of more only every second, third, ... is
	// taken. Large parts are told as well by a few hundred pixels as by all.
	mostFollowed = 300
	mostPlaces   = 1200
)

// follow matches the pixels that were left in the cells that flow lost.
func (s *shifter) follow(m *travel.Map) way {
	var total way
	w := s.layers[0].W
	s.ways = s.ways[:0]
	stride := 1 + len(s.left)/mostFollowed
	for k := 0; k < len(s.left); k += stride {
		if i := s.left[k]; inLost(m, i%w, i/w) {
			if far := s.match(i); far > 0 {
				total.sum += far * float64(stride)
				s.ways = append(s.ways, far)
			}
		}
	}
	if n, part := len(s.ways), (partPixels+stride-1)/stride; n >= part {
		slices.Sort(s.ways)
		total.top = s.ways[n-part]
	}
	return total
}

// partPixels is how many layer pixels of something must go far for it to be a
// part of the figure: a hand of a figure a fifth of the picture high.
const partPixels = 6

const (
	patchReach  = 3   // layer pixels either side: a patch of 7 by 7
	patchStride = 2   // between the pixels of a patch that are compared
	nearPrice   = 0.3 // levels a pixel of way: of like places the nearest
)

// match returns how far, in layer pixels, the patch around pixel i went: to the
// pixel that something arrived at around which the patch looks most alike. Only
// pixels of the patch that moved are compared.
func (s *shifter) match(i int) float64 {
	w, h := s.layers[0].W, s.layers[0].H
	x, y := i%w, i/w
	reach := int(farShare * float64(h))
	var offsets [16]int
	n := 0
	for dy := -patchReach; dy <= patchReach; dy += patchStride {
		for dx := -patchReach; dx <= patchReach; dx += patchStride {
			px, py := x+dx, y+dy
			if px < 0 || py < 0 || px >= w || py >= h || !s.isLeft[py*w+px] {
				continue
			}
			offsets[n] = dy*w + dx
			n++
		}
	}
	if n < 4 {
		return 0
	}
	a, b := s.views[1], s.views[2]
	best, far := math.Inf(1), 0.0
	for k := 0; k < len(s.arrived); k += 1 + len(s.arrived)/mostPlaces {
		j := s.arrived[k]
		jx, jy := j%w, j/w
		ddx, ddy := jx-x, jy-y
		if ddx > reach || ddx < -reach || ddy > reach || ddy < -reach || jx < patchReach || jy < patchReach || jx >= w-patchReach || jy >= h-patchReach {
			continue
		}
		way := math.Hypot(float64(ddx), float64(ddy))
		c := nearPrice * way * float64(n)
		for _, o := range offsets[:n] {
			if c >= best {
				break
			}
			c += differ(a, b, i+o, j+o)
		}
		if c < best {
			best, far = c, way
		}
	}
	return far
}

// differ is the difference of two pixels of two layers, levels.
func differ(a, b *Layer, i, j int) float64 {
	p, q := a.Pix[i*channels:i*channels+channels], b.Pix[j*channels:j*channels+channels]
	sum := 0
	for c := range channelSeen {
		d := int(p[c]) - int(q[c])
		sum += max(d, -d)
	}
	return float64(sum)
}

// inLost reports whether a layer pixel lies in a lost cell.
func inLost(m *travel.Map, x, y int) bool {
	i, ok := m.Cell(x*Shrink, y*Shrink)
	return ok && m.Lost[i]
}
