package camera

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"holdfast/motion/picture"
	"holdfast/motion/rank"
)

const (
	refineStride   = 3     // pixels between the samples taken in a cell; the blur makes neighbours alike
	refineSteps    = 8     // most Gauss-Newton steps; three are usual
	refineStop     = 1e-3  // pixels at the corner: a smaller step ends the search
	tukey          = 4.685 // cut-off of the biweight in standard deviations, 95 % efficiency: Beaton & Tukey 1974, value from memory
	leastSamples   = 50    // eight for each of the six unknowns
	worstCondition = 1e8   // of the normal equations: half of a float's digits are left
	leastScale     = 0.5   // levels: rounding to whole levels leaves no smaller residual
)

// A sample is one pixel of the earlier picture that the refinement compares.
type sample struct {
	x, y   float64 // from the middle
	cell   int
	value  float64 // smoothed luma
	gx, gy float64
}

// refiner holds the memory of a refinement between calls.
type refiner struct {
	g         grid
	samples   []sample
	residuals []float64
	slopes    [][2]float64
	scratch   []float64
	votes     []float64 // for each cell, see standing
}

// params are the unknowns of a refinement: the map, and a gain and an offset
// of brightness, which take up flicker and fades.
type params struct {
	s          Similarity
	gain, bias float64
}

// refine moves start to where the later picture, mapped back, looks most like
// the earlier one over the given cells: direct alignment by Gauss-Newton
// (B. Lucas, T. Kanade 1981; S. Baker, I. Matthews 2004) with biweights. It
// returns the robust deviation of what is left, in levels.
func (r *refiner) refine(from, to *picture.Picture, start Similarity, cells []int, least float64) (params, float64) {
	p := params{s: start, gain: 1}
	r.collect(from, cells, least)
	if len(r.samples) < leastSamples {
		return p, math.NaN()
	}
	scale := 0.0
	for range refineSteps {
		scale = r.compare(to, p)
		next, ok := r.solve(p, scale)
		if !ok {
			break
		}
		moved := p.s.Inverse().Then(next.s).Reach(r.g.w, r.g.h)
		p = next
		if moved < refineStop {
			break
		}
	}
	return p, scale
}

// collect takes the samples with a slope of least from the cells.
func (r *refiner) collect(from *picture.Picture, cells []int, least float64) {
	r.samples = r.samples[:0]
	w := r.g.w
	for _, cell := range cells {
		x0, y0, x1, y1 := r.g.bounds(cell)
		for y := y0; y < y1; y += refineStride {
			for x := x0; x < x1; x += refineStride {
				i := y*w + x
				gx, gy := slope(from.Smooth, w, i)
				if gx*gx+gy*gy < least*least {
					continue
				}
				r.samples = append(r.samples, sample{
					x: float64(x) - float64(w-1)/2, y: float64(y) - float64(r.g.h-1)/2, cell: cell,
					value: float64(from.Smooth[i]), gx: gx, gy: gy,
				})
			}
		}
	}
}

// compare sets the residual of each sample under p, NaN where it left the
// picture, and returns their robust standard deviation.
func (r *refiner) compare(to *picture.Picture, p params) float64 {
	w, h := r.g.w, r.g.h
	r.residuals, r.slopes, r.scratch = r.residuals[:0], r.slopes[:0], r.scratch[:0]
	for i := range r.samples {
		s := &r.samples[i]
		x, y := p.s.Apply(s.x, s.y)
		x, y = x+float64(w-1)/2, y+float64(h-1)/2
		ix, iy := int(math.Floor(x)), int(math.Floor(y))
		if ix < 1 || iy < 1 || ix >= w-2 || iy >= h-2 {
			r.residuals = append(r.residuals, math.NaN())
			r.slopes = append(r.slopes, [2]float64{})
			continue
		}
		v, gx, gy := bilinear(to.Smooth, w, ix, iy, x-float64(ix), y-float64(iy))
		e := v - p.gain*s.value - p.bias
		r.residuals = append(r.residuals, e)
		// The mean of both slopes: second order in the displacement (efficient second-order minimisation, S. Benhimane, E. Malis 2004).
		r.slopes = append(r.slopes, [2]float64{(gx + s.gx) / 2, (gy + s.gy) / 2})
		r.scratch = append(r.scratch, math.Abs(e))
	}
	if len(r.scratch) == 0 {
		return math.NaN()
	}
	return math.Max(leastScale, 1.4826*rank.Median(r.scratch))
}

// bilinear returns value and slope of s between pixels.
func bilinear(s []uint8, w, ix, iy int, fx, fy float64) (v, gx, gy float64) {
	i := iy*w + ix
	a, b := float64(s[i]), float64(s[i+1])
	c, d := float64(s[i+w]), float64(s[i+w+1])
	top, bottom := a+fx*(b-a), c+fx*(d-c)
	v = top + fy*(bottom-top)
	// Central differences, one pixel either side, at the nearest pixel.
	if fx >= 0.5 {
		i++
	}
	if fy >= 0.5 {
		i += w
	}
	gx, gy = slope(s, w, i)
	return v, gx, gy
}

// solve takes one weighted Gauss-Newton step; ok is false where the samples
// cannot tell all unknowns apart.
func (r *refiner) solve(p params, scale float64) (next params, ok bool) {
	const n = 6
	var ata [n * n]float64
	var atb [n]float64
	unit := float64(r.g.w) / 2 // keeps all unknowns of one order
	for i, e := range r.residuals {
		q := e / (tukey * scale)
		if math.IsNaN(e) || q <= -1 || q >= 1 {
			continue
		}
		wt := (1 - q*q) * (1 - q*q)
		s, g := &r.samples[i], r.slopes[i]
		j := [n]float64{
			(g[0]*s.x + g[1]*s.y) / unit, (g[1]*s.x - g[0]*s.y) / unit,
			g[0], g[1], -s.value / 128, -1,
		}
		for a := range n {
			wa := wt * j[a]
			atb[a] -= wa * e
			for b := a; b < n; b++ {
				ata[a*n+b] += wa * j[b]
			}
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(mat.NewSymDense(n, ata[:])) || chol.Cond() > worstCondition {
		return p, false
	}
	var d mat.VecDense
	if err := chol.SolveVecTo(&d, mat.NewVecDense(n, atb[:])); err != nil {
		return p, false
	}
	next.s = Similarity{
		A: p.s.A + d.AtVec(0)/unit, B: p.s.B + d.AtVec(1)/unit,
		TX: p.s.TX + d.AtVec(2), TY: p.s.TY + d.AtVec(3),
	}
	next.gain, next.bias = p.gain+d.AtVec(4)/128, p.bias+d.AtVec(5)
	return next, plausible(next.s)
}
