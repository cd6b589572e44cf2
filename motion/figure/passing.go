package figure

import (
	"math"

	"holdfast/motion/camera"
	"holdfast/motion/travel"
)

const (
	// passingShare is the most of a figure's cells that a passing change may
	// touch: both eyelids of a face that fills the picture.
	passingShare = 0.05
	// sameShare is how much of the passing change may be left when it is over.
	sameShare = 0.25
	// sameNoise is how many times the noise of a step two frames that show the
	// same may differ.
	sameNoise = 2.0
)

// Passing tells for each frame of a stretch whether all that travels on the way
// to it by limit pixels or more is a small spot that looks, within the given
// number of frames, as it did before: a blink, a flash, a fault of the coding.
// The pose is the same after it. regions are the figures' cells as in Found.
func Passing(layers []*Layer, path []camera.Similarity, maps []*travel.Map, regions []Region, limit float64, within int) []bool {
	p := passer{layers: layers, path: path, maps: maps}
	for t, m := range maps {
		p.spots = append(p.spots, spot(m, regions[max(0, t-1)], limit))
	}
	passing := make([]bool, len(maps))
	for t, s := range p.spots {
		r := regions[max(0, t-1)]
		if len(s) == 0 || float64(len(s)) > passingShare*float64(r.Size()) {
			continue
		}
		from, to := p.bracket(t, r, within)
		for i := from + 1; i <= to; i++ {
			passing[i] = true
		}
	}
	return passing
}

// spot lists the cells of r that travel by limit or more.
func spot(m *travel.Map, r Region, limit float64) (cells []int) {
	if m == nil {
		return nil
	}
	for i, in := range r.Cells {
		if in && m.Supported(i) >= limit {
			cells = append(cells, i)
		}
	}
	return cells
}

// passer looks for passing changes in one stretch.
type passer struct {
	layers []*Layer
	path   []camera.Similarity
	maps   []*travel.Map
	spots  [][]int // the cells that travel on the way to each frame
}

// bracket returns the closest frames at rest before and after the step to frame
// t between which nothing travels but what that step moves, and which show it
// alike; from equals to where there are none.
func (p *passer) bracket(t int, r Region, within int) (from, to int) {
	near := Region{r.Cols, r.Rows, make([]bool, len(r.Cells))}
	for _, i := range p.spots[t] {
		near.Cells[i] = true
	}
	near = near.Grown()
	for length := 2; length <= within; length++ {
		for from := max(0, t-length); from < t; from++ {
			to := from + length
			if to >= len(p.maps) || !p.rests(from) || !p.rests(to+1) {
				continue
			}
			if p.stays(from, to, near) && p.alike(from, to, p.spots[t]) {
				return from, to
			}
		}
	}
	return t, t
}

// rests reports whether nothing travels on the way to frame t.
func (p *passer) rests(t int) bool { return t >= len(p.spots) || len(p.spots[t]) == 0 }

// stays reports whether nothing travels between two frames but cells of r.
func (p *passer) stays(from, to int, r Region) bool {
	for _, s := range p.spots[from+1 : to+1] {
		for _, i := range s {
			if !r.Cells[i] {
				return false
			}
		}
	}
	return true
}

// alike reports whether cells look the same in two frames against how they look
// in between.
func (p *passer) alike(from, to int, cells []int) bool {
	between, noise := 0.0, 0.0
	for t := from + 1; t < to; t++ {
		between = math.Max(between, p.difference(from, t, cells))
	}
	for _, m := range p.maps[from+1 : to+1] {
		noise = math.Max(noise, m.Noise)
	}
	left := p.difference(from, to, cells)
	return between > sameNoise*noise && left <= math.Max(sameShare*between, sameNoise*noise)
}

// difference is the largest mean difference in luma of a cell between two
// frames, levels, the camera taken out; infinite where it cannot be told.
func (p *passer) difference(from, to int, cells []int) float64 {
	way := shrunk(p.path[from].Inverse().Then(p.path[to]))
	most := 0.0
	for _, i := range cells {
		x, y := p.maps[to].Bounds(i)
		most = math.Max(most, difference(p.layers[from], p.layers[to], way, x/Shrink, y/Shrink))
	}
	return most
}

// difference is the mean difference of the cell at (x0, y0) in two layers.
func difference(a, b *Layer, way camera.Similarity, x0, y0 int) float64 {
	cx, cy := float64(a.W-1)/2, float64(a.H-1)/2
	sum := 0.0
	for y := y0; y < y0+cellSide; y++ {
		for x := x0; x < x0+cellSide; x++ {
			qx, qy := way.Apply(float64(x)-cx, float64(y)-cy)
			v, ok := b.luma(qx+cx, qy+cy)
			if !ok {
				return math.Inf(1)
			}
			sum += math.Abs(v - float64(a.Pix[(y*a.W+x)*channels+channelY]))
		}
	}
	return sum / cellArea
}

// luma returns the luma between pixels; ok is false outside.
func (l *Layer) luma(x, y float64) (v float64, ok bool) {
	ix, iy := int(x), int(y)
	if x < 0 || y < 0 || ix >= l.W-1 || iy >= l.H-1 {
		return 0, false
	}
	at := func(x, y int) float64 { return float64(l.Pix[(y*l.W+x)*channels+channelY]) }
	fx, fy := x-float64(ix), y-float64(iy)
	top := at(ix, iy) + fx*(at(ix+1, iy)-at(ix, iy))
	bottom := at(ix, iy+1) + fx*(at(ix+1, iy+1)-at(ix, iy+1))
	return top + fy*(bottom-top), true
}
