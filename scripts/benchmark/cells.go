package main

import (
	"fmt"
	"math"
	"strconv"
)

func count(n int) string { return strconv.Itoa(n) }

// share words a value from 0 to 1. Only what is perfect reads 1.000.
func share(v float64) string {
	switch {
	case math.IsNaN(v):
		return "-"
	case v < 1:
		v = math.Min(v, 0.999)
	}
	return fmt.Sprintf("%.3f", v)
}

// outOf words how many of a number, nothing where there is none.
func outOf(n, of int) string {
	if of == 0 {
		return "-"
	}
	return fmt.Sprintf("%d/%d", n, of)
}

func percent(v float64) string { return unlessNaN("%.0f %%", 100*v) }

func milliseconds(v float64) string { return unlessNaN("%+.0f", v) }

func signed(v float64) string { return unlessNaN("%+.1f", v) }
func pixels(v float64) string { return unlessNaN("%.3f", v) }
func ratio(v float64) string  { return unlessNaN("%.2f", v) }

func unlessNaN(format string, v float64) string {
	if math.IsNaN(v) {
		return "-"
	}
	return fmt.Sprintf(format, v)
}
