package extract

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Rate is an exact number of frames per second, Num/Den, in lowest terms and
// positive when it comes from this package. The zero Rate means "not given".
type Rate struct{ Num, Den int64 }

const (
	// maxRateTerm bounds numerator and denominator, so that products with
	// time bases stay inside 64 bits. Phones write terms of about 1e7.
	maxRateTerm = 1_000_000_000
	// maxRate and minRate bound what is taken for a frame rate at all:
	// one frame in ten seconds to a thousand frames a second.
	maxRate = 1000
	minRate = 0.1
	// ntscTolerance is how near (relative) a decimal must be to a
	// 1000/1001 rate to mean it. People write 23.976, 23.98 and 29.97;
	// 23.98 is 1.6e-4 off, while 24 is 1e-3 off.
	ntscTolerance = 2e-4
)

// NewRate returns num/den in lowest terms. Its error says why the two are no
// frame rate: a term that is not positive, or a rate outside 0.1 to 1000.
func NewRate(num, den int64) (Rate, error) {
	if num <= 0 || den <= 0 {
		return Rate{}, fmt.Errorf("rate %d/%d is not positive", num, den)
	}
	g := gcd(num, den)
	r := Rate{num / g, den / g}
	if r.Num > maxRateTerm || r.Den > maxRateTerm {
		return Rate{}, fmt.Errorf("rate %d/%d has too many digits", num, den)
	}
	if f := r.Float(); f < minRate || f > maxRate {
		return Rate{}, fmt.Errorf("rate %d/%d is outside %g to %d frames per second", num, den, minRate, maxRate)
	}
	return r, nil
}

// ParseRate reads "24", "24000/1001", "12.5" or one of the customary decimals
// of the 1000/1001 family ("23.976", "23.98", "29.97", "59.94", "47.952",
// "119.88"), which stand for the exact fraction. Other decimals are taken
// exactly as written. Signs, exponents, blanks, zero and non-numbers are
// errors. The 1000/1001 family is that of SMPTE ST 12-1.
func ParseRate(s string) (Rate, error) {
	bad := func(why string) (Rate, error) {
		return Rate{}, fmt.Errorf("frame rate %s: %s", quoteName(s), why)
	}
	if num, den, ok := strings.Cut(s, "/"); ok {
		n, okN := digits(num)
		d, okD := digits(den)
		if !okN || !okD {
			return bad("not a fraction of two whole numbers")
		}
		r, err := NewRate(n, d)
		if err != nil {
			return bad("out of range")
		}
		return r, nil
	}
	whole, frac, point := strings.Cut(s, ".")
	if len(frac) > 9 || (point && frac == "") {
		return bad("not a number of frames per second")
	}
	den := int64(1)
	for range frac {
		den *= 10
	}
	num, ok := digits(whole + frac)
	if !ok || whole == "" {
		return bad("not a number of frames per second")
	}
	r, err := NewRate(num, den)
	if err != nil {
		return bad("out of range")
	}
	return nearestNTSC(r), nil
}

// nearestNTSC turns a decimal that means a 1000/1001 rate into that rate.
func nearestNTSC(r Rate) Rate {
	if r.Den == 1 {
		return r
	}
	nominal := math.Round(r.Float() * 1001 / 1000)
	exact := nominal * 1000 / 1001
	if nominal < 1 || math.Mod(nominal, 6) != 0 || math.Abs(r.Float()-exact) > ntscTolerance*exact {
		return r
	}
	family, err := NewRate(int64(nominal)*1000, 1001)
	if err != nil {
		return r
	}
	return family
}

// digits reads a number of decimal digits only.
func digits(s string) (int64, bool) {
	if s == "" || strings.Trim(s, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.ParseInt(s, 10, 64)
	return n, err == nil
}

// String gives "24000/1001", and "24/1" for whole rates; "0/1" when not given.
func (r Rate) String() string {
	if r.IsZero() {
		return "0/1"
	}
	return strconv.FormatInt(r.Num, 10) + "/" + strconv.FormatInt(r.Den, 10)
}

// Float gives frames per second, rounded to the nearest float64; 0 when not
// given.
func (r Rate) Float() float64 {
	if r.IsZero() {
		return 0
	}
	return float64(r.Num) / float64(r.Den)
}

// IsZero tells whether no rate was given.
func (r Rate) IsZero() bool { return r.Num <= 0 || r.Den <= 0 }

// rat gives the rate as a big fraction.
func (r Rate) rat() *big.Rat { return big.NewRat(r.Num, r.Den) }

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
