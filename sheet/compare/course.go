package compare

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Where beats are measured otherwise, as in a film full of cuts and slow
// cameras, two clips may still be one: frame by frame as much moves in both.
const (
	// courseSamples is how many samples of a curve are tried at every speed and
	// offset, for the time it takes.
	courseSamples = 500
	// courseStep is the ratio of one speed tried to the next.
	courseStep = 1.01
	// courseSame is by how much the correlation must be higher at another speed.
	courseSame = 0.02
	// leastCourse is the rank correlation from which two courses may be one. Real
	// clips encoded anew, made smaller, mirrored or slowed down reach 0.89 and
	// more; drawn passages that have nothing to do with each other, at the speed
	// and the offset that suit them best, up to 0.82.
	leastCourse = 0.87
	// sureCourse is how many standard deviations the correlation must lie above
	// none: of clips with one move anything agrees with anything, up to 0.99 but
	// never by more than 4.8, as some thousand speeds and offsets are tried.
	sureCourse = 5.0

	// astrayPrice is what a bound costs, against the prices of align, that lies
	// elsewhere in a clip which is in step; astrayHalf, frames at 24 a second, is
	// how far off costs half of it.
	astrayPrice = 1.0
	astrayHalf  = 8.0
)

// A course is how well two curves agree at one speed, and where.
type course struct {
	stretch, lag float64 // frames of the pass
	correlation  float64
	sureness     float64 // in standard deviations above chance
}

// findCourse returns the speed and the offset at which most moves alike.
func findCourse(ref, pass *line) course {
	step := max(1, float64(len(pass.curve))/courseSamples) // frames of the pass
	most := int(mostOffsetSeconds * pass.rate / step)
	b := pass.ranks(step)
	var best course
	least := math.Inf(-1)
	try := func(stretch, better float64) {
		a := ref.ranks(step / stretch)
		if k, c := bestOffset(a, b, most); c > least {
			from, to := overlap(a, b, k)
			best = course{stretch, float64(k) * step, c, sureness(c, a[from:to], b[from+k:to+k])}
			least = c + better
		}
	}
	same := natural(ref, pass)
	try(same, courseSame)
	for s := same / fastest; s <= same/slowest; s *= courseStep {
		try(s, 0)
	}
	return best
}

// sure reports whether both are one.
func (c course) sure() bool { return c.correlation >= leastCourse && c.sureness >= sureCourse }

// fit lines the beats up where the curves say that they lie.
func (c course) fit(ref, pass *line) *fit {
	f := &fit{scale: scale{ref, pass, c.stretch, pass.rate / 24, &c}, offset: c.lag}
	f.steps, f.price = f.align()
	return f
}

// astray is the price of two beats whose bounds lie apart where the curves say
// that both clips are in step.
func (s *scale) astray(r, p []beat) float64 {
	if s.course == nil {
		return 0
	}
	price := 0.0
	apart := func(ref, pass float64) {
		x := (pass - s.stretch*ref - s.course.lag) / (astrayHalf * s.frame)
		price += astrayPrice * x * x / (1 + x*x)
	}
	if !r[0].cut && !p[0].cut {
		apart(r[0].from, p[0].from)
	}
	if !r[len(r)-1].cut && !p[len(p)-1].cut {
		apart(r[len(r)-1].to, p[len(p)-1].to)
	}
	return price
}

// ranks samples the curve at every so many frames and puts ranks in the place of
// values, equal ones for equal values, so that a cut with much motion on one frame
// is no more than one frame.
func (l *line) ranks(step float64) []float64 {
	list := make([]float64, int(float64(len(l.curve))/step))
	order := make([]int, len(list))
	for i := range list {
		list[i], order[i] = l.at(float64(i)*step), i
	}
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(list[i], list[j]) })
	ranks := make([]float64, len(list))
	for i := 0; i < len(order); {
		j := i
		for j < len(order) && list[order[j]] == list[order[i]] {
			j++
		}
		for k := i; k < j; k++ {
			ranks[order[k]] = float64(i+j-1) / 2
		}
		i = j
	}
	return ranks
}

// sureness is how many standard deviations a correlation lies above 0, by
// Fisher's z. Neighbours are alike in both, so the samples count for fewer
// (Bartlett 1935, "Some aspects of the time-correlation problem").
func sureness(c float64, a, b []float64) float64 {
	n := float64(len(a))
	sum := 1.0
	for k := 1; k < len(a)/4; k++ {
		ra, rb := stat.Correlation(a[k:], a[:len(a)-k], nil), stat.Correlation(b[k:], b[:len(b)-k], nil)
		if ra <= 0 || rb <= 0 || math.IsNaN(ra*rb) {
			break
		}
		sum += 2 * ra * rb * (1 - float64(k)/n)
	}
	return math.Atanh(min(c, 0.9999)) * math.Sqrt(max(0, n/sum-3))
}
