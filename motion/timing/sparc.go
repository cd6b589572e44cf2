package timing

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"
)

const (
	// arcBand is the highest frequency looked at, Hz, or half the rate where that is
	// lower; arcLeast is the share of the spectrum's peak under which its end is cut
	// off. Both are those of the measure's authors.
	arcBand  = 10.0
	arcLeast = 0.05
	// arcPadding is how often the length is doubled after rounding up to a power of
	// two, likewise.
	arcPadding = 4
)

// SpectralArcLength is the smoothness of a speed profile sampled at so many
// values a second: the length of its normalised magnitude spectrum, below
// nought, and about -1.4 for one smooth move whatever its size and duration.
// Each stop and start on the way makes the spectrum wavier and the value lower.
// It is NaN where nothing moves. S. Balasubramanian et al., "On the analysis of
// movement smoothness", 2015.
func SpectralArcLength(speed []float64, rate float64) float64 {
	size := spectrum(speed, rate)
	last := 0
	for i, v := range size {
		if v >= arcLeast {
			last = i
		}
	}
	if last == 0 {
		return math.NaN()
	}
	length := 0.0
	for i := 1; i <= last; i++ {
		length += math.Hypot(1/float64(last), size[i]-size[i-1]) // the band that counts is one wide
	}
	return -length
}

// spectrum returns the magnitudes of a profile's spectrum up to arcBand against
// that at no frequency at all, which is the largest for what is never below
// nought; none where nothing moves.
func spectrum(speed []float64, rate float64) (size []float64) {
	n := 1
	for n < len(speed) {
		n *= 2
	}
	n <<= arcPadding
	padded := make([]float64, n)
	copy(padded, speed)
	all := fourier.NewFFT(n).Coefficients(nil, padded)
	most := cmplx.Abs(all[0])
	if most == 0 {
		return nil
	}
	for i, c := range all {
		if float64(i)*rate/float64(n) > arcBand {
			break
		}
		size = append(size, cmplx.Abs(c)/most)
	}
	return size
}
