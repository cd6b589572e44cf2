package sound

import (
	"math"

	"holdfast/motion/sound/internal/biquad"
)

// kWeighting is the filter of ITU-R BS.1770-4, annex 1, tables 1 and 2: a shelf for
// the head, then a high-pass. The coefficients are those printed for 48 kHz
// (written from memory; EBU Tech 3341's test signals check them).
func kWeighting() biquad.Chain {
	return biquad.Chain{
		{B0: 1.53512485958697, B1: -2.69169618940638, B2: 1.19839281085285, A1: -1.69065929318241, A2: 0.73248077421585},
		{B0: 1, B1: -2, B2: 1, A1: -1.99004745483398, A2: 0.99007225036621},
	}
}

// Silent is the loudness of no sound, in LUFS: no recording goes so low, and JSON
// holds no infinity.
const Silent = -120.0

// lufs is the loudness of a mean square (BS.1770).
func lufs(power float64) float64 {
	if !(power > 0) {
		return Silent
	}
	return math.Max(Silent, -0.691+10*math.Log10(power))
}

// A meter gathers the mean square of stretches of equal length, one after the other.
type meter struct {
	length float64 // samples of a stretch, which need not be whole
	most   int     // stretches wanted; 0: all
	means  []float64
	sum    float64
	n      int // samples in sum
	seen   int // samples in all
}

func newMeter(length float64, most int) *meter { return &meter{length: length, most: most} }

func (m *meter) add(power float64) {
	m.sum += power
	m.n++
	m.seen++
	if float64(m.seen) >= math.Round(m.length*float64(len(m.means)+1)) {
		m.means = append(m.means, m.sum/float64(m.n))
		m.sum, m.n = 0, 0
	}
}

func (m *meter) powers() []float64 { return m.means }

// loudness returns that of every stretch wanted, of one that is cut off as far as it
// goes; those that the sound does not reach are silent.
func (m *meter) loudness() []float64 {
	list := make([]float64, m.most)
	for i := range list {
		switch {
		case i < len(m.means):
			list[i] = lufs(m.means[i])
		case i == len(m.means) && m.n > 0:
			list[i] = lufs(m.sum / float64(m.n))
		default:
			list[i] = Silent
		}
	}
	return list
}

// The gating of BS.1770-4: blocks of 0.4 s that overlap by three quarters; those
// under −70 LUFS do not count, nor then those 10 LU under the mean of the rest.
const (
	blockStep  = 0.1 // s
	blockSteps = 4
	gate       = -70.0 // LUFS
	gateBelow  = 10.0  // LU
)

// integrated is the loudness of a whole sound, from the mean squares of its tenths
// of a second. One shorter than a block is taken as it is.
func integrated(steps []float64) float64 {
	var blocks []float64
	for i := 0; i+blockSteps <= len(steps); i++ {
		blocks = append(blocks, mean(steps[i:i+blockSteps]))
	}
	if len(blocks) == 0 && len(steps) > 0 {
		blocks = []float64{mean(steps)}
	}
	loud := above(blocks, gate)
	loud = above(loud, lufs(mean(loud))-gateBelow)
	if l := lufs(mean(loud)); l > gate {
		return l
	}
	return Silent
}

func above(powers []float64, least float64) []float64 {
	var list []float64
	for _, p := range powers {
		if lufs(p) > least {
			list = append(list, p)
		}
	}
	return list
}

func mean(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}
