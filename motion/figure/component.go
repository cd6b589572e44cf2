package figure

import (
	"gocv.io/x/gocv"
)

// leastArea is the smallest share of the picture that counts as part of a
// figure: a head of a figure a tenth of the picture high covers about as much.
const leastArea = 0.0004

// A component is one connected piece of a mask.
type component struct {
	box  Box // layer pixels
	area int // layer pixels
	id   int // its label
}

// labeller finds the components of masks of one size.
type labeller struct {
	labels, stats, centroids gocv.Mat
}

func newLabeller() *labeller {
	return &labeller{labels: gocv.NewMat(), stats: gocv.NewMat(), centroids: gocv.NewMat()}
}

func (l *labeller) close() {
	for _, m := range []*gocv.Mat{&l.labels, &l.stats, &l.centroids} {
		m.Close()
	}
}

// components appends the pieces of m that are large enough to dst.
func (l *labeller) components(dst []component, m *Mask) []component {
	return l.pieces(dst, m, max(4, int(leastArea*float64(m.W*m.H))))
}

// pieces appends the pieces of m of at least that many pixels to dst.
func (l *labeller) pieces(dst []component, m *Mask, least int) []component {
	// Sixteen-bit labels, as Go can read them in place; a picture of 230,000
	// pixels has far fewer pieces than they can name.
	n := gocv.ConnectedComponentsWithStatsWithParams(m.mat, &l.labels, &l.stats, &l.centroids, 8, gocv.MatTypeCV16U, gocv.CCL_DEFAULT)
	for i := 1; i < n; i++ { // 0 is the background
		at := func(c int) int { return int(l.stats.GetIntAt(i, c)) }
		if area := at(4); area >= least {
			x, y := at(0), at(1)
			dst = append(dst, component{box: Box{x, y, x + at(2), y + at(3)}, area: area, id: i})
		}
	}
	return dst
}

// each calls f with the index of every pixel of c, a component of the mask
// labelled last.
func (l *labeller) each(c component, w int, f func(i int)) error {
	labels, err := l.labels.DataPtrUint16()
	if err != nil {
		return err
	}
	for y := c.box.Y0; y < c.box.Y1; y++ {
		for x := c.box.X0; x < c.box.X1; x++ {
			if i := y*w + x; labels[i] == uint16(c.id) {
				f(i)
			}
		}
	}
	return nil
}
