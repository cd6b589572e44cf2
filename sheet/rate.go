package sheet

import (
	"fmt"
	"math"
	"math/bits"
	"strconv"
	"strings"
)

// A Rate is an exact number of frames per second, Num/Den.
type Rate struct{ Num, Den int64 }

// maxRatePart bounds both parts of a rate, so that a frame number times a
// rate stays far from the ends of 64 bits.
const maxRatePart = 1 << 31

// ParseRate reads the form sheets use: two whole numbers, "24000/1001".
func ParseRate(s string) (Rate, error) {
	num, den, ok := strings.Cut(s, "/")
	n, errN := strconv.ParseUint(num, 10, 32)
	d, errD := strconv.ParseUint(den, 10, 32)
	r := Rate{int64(n), int64(d)}
	if !ok || errN != nil || errD != nil || !r.Valid() {
		return Rate{}, fmt.Errorf("rate %q is no fraction of two whole numbers such as 24000/1001", Visible(s))
	}
	return r, nil
}

// Valid reports whether the rate is above zero and its parts are of a sane
// size.
func (r Rate) Valid() bool {
	return r.Num > 0 && r.Den > 0 && r.Num <= maxRatePart && r.Den <= maxRatePart
}

// String returns the exact fraction, "24000/1001".
func (r Rate) String() string { return fmt.Sprintf("%d/%d", r.Num, r.Den) }

// Float returns frames per second.
func (r Rate) Float() float64 { return float64(r.Num) / float64(r.Den) }

// Words returns frames per second as people write it: 24, 23.976, 29.97.
func (r Rate) Words() string {
	return strconv.FormatFloat(math.Round(r.Float()*1000)/1000, 'f', -1, 64)
}

// Seconds returns how long a number of frames lasts.
func (r Rate) Seconds(frames int) float64 {
	return float64(frames) * float64(r.Den) / float64(r.Num)
}

// Millis returns the millisecond in which the frame with this index, from 0,
// begins. Rounding down keeps a mark made of it on its frame: the frame's own
// time is never before the mark, and the time of the frame before it always is.
func (r Rate) Millis(index int64) int64 {
	if index <= 0 {
		return 0
	}
	hi, lo := bits.Mul64(uint64(index), 1000*uint64(r.Den))
	if hi >= uint64(r.Num) {
		return math.MaxInt64
	}
	q, _ := bits.Div64(hi, lo, uint64(r.Num))
	return int64(min(q, math.MaxInt64))
}

// MarshalText writes the exact fraction.
func (r Rate) MarshalText() ([]byte, error) { return []byte(r.String()), nil }

// UnmarshalText reads what MarshalText writes. Text that is no rate leaves the
// zero Rate, which Check refuses by the path of the member it stands in; a
// decoder's error could not name it.
func (r *Rate) UnmarshalText(text []byte) error {
	*r, _ = ParseRate(string(text))
	return nil
}
