package sound

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"
)

const (
	// hop is how many samples lie between looks: a hundredth of a second, a
	// quarter of a frame, as is customary for onsets (Böck, Krebs & Schedl 2012,
	// "Evaluating the online capabilities of onset detection methods").
	hop = Rate / 100
	// window is how many samples a look takes in: three periods of the lowest voice.
	window = 2048
	// The band that tells syllables: where the formants of vowels are, without the
	// hum below and the hiss of consonants above.
	lowest, highest = 300.0, 3500.0 // Hz
	// faintest is the lowest level there is, in dB of full scale: the noise of good
	// converters and of dithering lies under it.
	faintest = -75.0
)

// Pitches of voices, in Hz: of low men to children (common practice, no source).
const (
	lowestPitch, highestPitch = 70.0, 450.0
	pitchLength               = 512 // of the transform back, which keeps what is under 6 kHz
)

// Bins of the band, lags of those pitches after the transform back, and the bins
// under the lowest of them.
var (
	bandFirst = int(math.Round(lowest * window / Rate))
	bandLast  = int(math.Round(highest * window / Rate))

	shortLag = int(math.Floor(Rate * pitchLength / window / highestPitch))
	longLag  = int(math.Floor(Rate * pitchLength / window / lowestPitch))
	hum      = int(math.Floor(lowestPitch * window / Rate))
)

// tracks are numbers for each hundredth of a second.
type tracks struct {
	level []float32 // of the band of speech, dB of full scale
	voice []float32 // harmonicity, 0 to 1
}

// A spectrum follows a sound from look to look.
type spectrum struct {
	ring   []float64 // the last window of samples
	at     int       // place of the next
	wait   int       // samples to the next look
	shape  []float64
	fft    *fourier.FFT
	back   *fourier.FFT
	taper  []float64 // autocorrelation of the window, by lag of the transform back
	tracks tracks

	seq, lags []float64 // scratch
	bins      []complex128
	low       []complex128
}

func newSpectrum() *spectrum {
	s := &spectrum{
		ring: make([]float64, window), shape: make([]float64, window), seq: make([]float64, window),
		fft: fourier.NewFFT(window), back: fourier.NewFFT(pitchLength),
		bins: make([]complex128, window/2+1), low: make([]complex128, pitchLength/2+1), lags: make([]float64, pitchLength),
		wait: window / 2, // the first look is around the first sample
	}
	for i := range s.shape {
		s.shape[i] = 0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/window)
	}
	s.taper = windowLags(s.shape)
	return s
}

// windowLags is the autocorrelation of a window at the lags of the transform back,
// 1 at none.
func windowLags(shape []float64) []float64 {
	const step = window / pitchLength
	list := make([]float64, pitchLength)
	for k := range list {
		for i := 0; i+k*step < len(shape); i++ {
			list[k] += shape[i] * shape[i+k*step]
		}
	}
	for k := len(list) - 1; k >= 0; k-- {
		list[k] /= list[0]
	}
	return list
}

func (s *spectrum) add(v float64) {
	s.ring[s.at] = v
	s.at = (s.at + 1) % window
	if s.wait--; s.wait == 0 {
		s.look()
		s.wait = hop
	}
}

// finish looks at what only half a window was left for.
func (s *spectrum) finish() tracks {
	for range window / 2 {
		s.add(0)
	}
	return s.tracks
}

// look takes the spectrum around one instant.
func (s *spectrum) look() {
	for i := range s.seq {
		s.seq[i] = s.ring[(s.at+i)%window] * s.shape[i]
	}
	s.bins = s.fft.Coefficients(s.bins, s.seq)
	s.tracks.level = append(s.tracks.level, float32(s.level()))
	s.tracks.voice = append(s.tracks.voice, float32(s.harmonicity()))
}

// level returns that of the band of syllables, in dB of a full-scale sine.
func (s *spectrum) level() float64 {
	// A sine's power through the window, at its bin; the window spreads it over one
	// bin and a half.
	const full = window * window / 16 * 1.5
	sum := 0.0
	for _, c := range s.bins[bandFirst : bandLast+1] {
		sum += real(c)*real(c) + imag(c)*imag(c)
	}
	return math.Max(faintest, 10*math.Log10(sum/full))
}

// harmonicity is how alike a look's sound is to itself one period later, for the
// best period of a voice (Boersma 1993: the autocorrelation over that of the window).
func (s *spectrum) harmonicity() float64 {
	for i := range s.low {
		p := cmplx.Abs(s.bins[i])
		s.low[i] = complex(p*p, 0)
	}
	for i := range hum {
		s.low[i] = 0
	}
	s.lags = s.back.Sequence(s.lags, s.low)
	if !(s.lags[0] > 0) {
		return 0
	}
	best := 0.0
	for k := shortLag; k <= longLag; k++ {
		if v := s.lags[k] / s.lags[0] / s.taper[k]; s.lags[k] > s.lags[k-1] && s.lags[k] >= s.lags[k+1] {
			best = math.Max(best, v)
		}
	}
	return math.Min(best, 1)
}
