package figure

import (
	"math"

	"holdfast/motion/camera"
	"holdfast/motion/travel"
)

// stirLeast is the displacement, in layer pixels, from which flow is believed
// beside the cells that changed: the inside of a plain part shows no change.
const stirLeast = 0.15

const (
	// crowdWay is the displacement, in layer pixels, from which it is asked
	// whether what flow takes a pixel for is still elsewhere.
	crowdWay = 1.0
	// crowdMost is how many pixels may have come from nine neighbouring ones:
	// one each, and half of them twice for rounding and for what comes nearer.
	crowdMost = 13
)

// A walker measures how far figures went: by flow where that explains what is
// seen, by what was carried elsewhere.
type walker struct {
	*follower
	carrier carrier
	changed *Mask
	pixels  []int   // of the figures in a frame
	near    []bool  // of each, whether its cell moves
	marks   []mark  // by pixel of the layer
	takers  []uint8 // by pixel of the frame before, how many came from it
}

// A mark says what flow knows of a pixel.
type mark uint8

const (
	told  mark = 1 << iota // it is a figure's, and flow says where it came from
	taken                  // something came from here
)

func newWalker(layers []*Layer, path []camera.Similarity) (*walker, error) {
	f, err := newFollower(layers, path)
	n := layers[0].W * layers[0].H
	w := &walker{follower: f, marks: make([]mark, n), takers: make([]uint8, n)}
	if err != nil {
		return w, err
	}
	w.changed, err = newMask(layers[0].W, layers[0].H)
	return w, err
}

func (w *walker) close() {
	w.follower.close()
	if w.changed != nil {
		w.changed.close()
	}
}

// went returns how far the figures went on the way to frame t, layer pixels
// summed over their pixels.
func (s *search) went(w *walker, found *Found, t int) (gone, error) {
	m := s.maps[t]
	if m.Same {
		return gone{}, nil
	}
	// A step shows where things were as well as where they went.
	region := newRegion(s.grid)
	region.Add(found.Regions[t-1])
	region.Add(found.Regions[t])
	if !stirs(m, region) {
		return gone{}, nil
	}
	if err := w.look(t, region.bounds(s.grid)); err != nil {
		return gone{}, err
	}
	s.pick(w, region, t)
	if len(w.pixels) == 0 {
		return gone{}, nil
	}
	return w.follow().plus(w.carry(m, region)), nil
}

// stirs reports whether anything moves in a region.
func stirs(m *travel.Map, r Region) bool {
	for i, in := range r.Cells {
		if in && moves(m, i) {
			return true
		}
	}
	return false
}

// pick sets w.pixels to the figures' pixels in the moving cells of frame t and
// beside them.
func (s *search) pick(w *walker, region Region, t int) {
	m := s.maps[t]
	moving := newRegion(m)
	for i := range moving.Cells {
		moving.Cells[i] = moves(m, i)
	}
	beside := moving.Grown()
	w.pixels, w.near = w.pixels[:0], w.near[:0]
	for y := w.crop.Min.Y; y < w.crop.Max.Y; y++ {
		for x := w.crop.Min.X; x < w.crop.Max.X; x++ {
			i, ok := m.Cell(x*Shrink, y*Shrink)
			if !ok || !region.Cells[i] || !beside.Cells[i] {
				continue
			}
			if s.silhouettes[t].At(x, y) {
				w.pixels, w.near = append(w.pixels, y*w.now.W+x), append(w.near, moving.Cells[i])
			}
		}
	}
}

// follow returns the way of the pixels that flow tells, and marks them.
func (w *walker) follow() (sum gone) {
	clear(w.marks)
	w.changed.changes(w.before, w.now, w.slack)
	lost := w.lost(w.pixels)
	w.count(lost)
	for k, i := range w.pixels {
		u, v := w.from(i)
		if lost(k) || w.crowded(i, u, v) {
			continue
		}
		if far := math.Hypot(u, v); w.near[k] || far > stirLeast {
			sum.add(far, 1)
		}
		w.marks[i] |= told
		w.take(i, u, v)
	}
	return sum
}

// count counts how many pixels flow takes for each pixel of the frame before;
// what did not change is its own.
func (w *walker) count(lost func(k int) bool) {
	for i, v := range w.changed.Pix {
		w.takers[i] = 1 - v/255
	}
	for _, i := range w.pixels {
		w.takers[i] = 0
	}
	for k, i := range w.pixels {
		if lost(k) {
			continue
		}
		u, v := w.from(i)
		if j, ok := w.source(i, u, v); ok && w.takers[j] < math.MaxUint8 {
			w.takers[j]++
		}
	}
}

// source is the pixel that displacement (u, v) takes pixel i to; ok is false on
// the rim and outside.
func (w *walker) source(i int, u, v float64) (j int, ok bool) {
	x, y := i%w.now.W+int(math.Round(u)), i/w.now.W+int(math.Round(v))
	return y*w.now.W + x, x > 0 && y > 0 && x < w.now.W-1 && y < w.now.H-1
}

// crowded reports whether pixel i is said to come a way from where others came
// from as well: flow took something plain for its likeness.
func (w *walker) crowded(i int, u, v float64) bool {
	j, ok := w.source(i, u, v)
	if !ok || math.Hypot(u, v) < crowdWay {
		return false
	}
	n := 0
	for row := j - w.now.W; row <= j+w.now.W; row += w.now.W {
		n += int(w.takers[row-1]) + int(w.takers[row]) + int(w.takers[row+1])
	}
	return n > crowdMost
}

// take marks the pixels that pixel i covered before it went.
func (w *walker) take(i int, u, v float64) {
	x, y := i%w.now.W+int(math.Round(u)), i/w.now.W+int(math.Round(v))
	for row := max(0, y-1); row <= min(w.now.H-1, y+1); row++ {
		for col := max(0, x-1); col <= min(w.now.W-1, x+1); col++ {
			w.marks[row*w.now.W+col] |= taken
		}
	}
}

// carry returns the way of what changed and flow does not tell: pixels that it
// lost, and ground from which nothing is known to have come.
func (w *walker) carry(m *travel.Map, region Region) gone {
	for _, i := range w.pixels {
		// What flow lost is carried even where something else came from.
		w.marks[i] &^= taken
	}
	var places []int
	for y := w.crop.Min.Y; y < w.crop.Max.Y; y++ {
		for x := w.crop.Min.X; x < w.crop.Max.X; x++ {
			i := y*w.now.W + x
			if w.changed.Pix[i] == 0 || w.marks[i] != 0 {
				continue
			}
			if c, ok := m.Cell(x*Shrink, y*Shrink); ok && region.Cells[c] {
				places = append(places, i)
			}
		}
	}
	area := 0.0
	for _, i := range w.pixels {
		if w.marks[i]&told == 0 {
			area++
		}
	}
	return w.carrier.carry(w.before, w.now, places).over(area)
}
