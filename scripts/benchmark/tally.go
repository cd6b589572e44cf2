package main

import (
	"math"
	"slices"
)

// Counts are how many things are true, found, and both.
type Counts struct {
	True    int `json:"true"`
	Found   int `json:"found"`
	Matched int `json:"matched"`
}

func (c *Counts) add(o Counts) {
	c.True, c.Found, c.Matched = c.True+o.True, c.Found+o.Found, c.Matched+o.Matched
}

func (c Counts) missed() int { return c.True - c.Matched }
func (c Counts) extra() int  { return c.Found - c.Matched }

// F1 is the harmonic mean of precision and recall, 1 for perfect; NaN where
// nothing is true and nothing found.
func (c Counts) F1() float64 { return 2 * float64(c.Matched) / float64(c.True+c.Found) }

// A Share is how many of a number are right.
type Share struct {
	Right int `json:"right"`
	Of    int `json:"of"`
}

func (s *Share) add(o Share) { s.Right, s.Of = s.Right+o.Right, s.Of+o.Of }

// count adds one that is right or is not.
func (s *Share) count(right bool) {
	s.Of++
	if right {
		s.Right++
	}
}

// Value is the share, NaN of nothing.
func (s Share) Value() float64 { return float64(s.Right) / float64(s.Of) }

// A Mean gathers values for their mean.
type Mean struct {
	Sum float64 `json:"sum"`
	N   int     `json:"n"`
}

func (m *Mean) add(o Mean)        { m.Sum, m.N = m.Sum+o.Sum, m.N+o.N }
func (m *Mean) include(v float64) { m.Sum, m.N = m.Sum+v, m.N+1 }

// Value is the mean, NaN of nothing.
func (m Mean) Value() float64 { return m.Sum / float64(m.N) }

// Offsets are found less true, in frames, one for each boundary.
type Offsets []int

// Within returns the share of offsets of at most n frames to either side.
func (o Offsets) Within(n int) float64 {
	var s Share
	for _, d := range o {
		s.count(abs(d) <= n)
	}
	return s.Value()
}

// Median is the signed median, frames; NaN of nothing.
func (o Offsets) Median() float64 {
	list := make([]float64, len(o))
	for i, d := range o {
		list[i] = float64(d)
	}
	return median(list)
}

// median of a list that is left as it is: the mean of the middle two where
// their number is even, NaN of nothing.
func median(list []float64) float64 {
	if len(list) == 0 {
		return math.NaN()
	}
	s := slices.Sorted(slices.Values(list))
	return (s[(len(s)-1)/2] + s[len(s)/2]) / 2
}

func abs(v int) int { return max(v, -v) }

// quantile returns the value that a share q of the list does not exceed, NaN
// of nothing.
func quantile(list []float64, q float64) float64 {
	if len(list) == 0 {
		return math.NaN()
	}
	s := slices.Sorted(slices.Values(list))
	return s[max(0, int(math.Ceil(q*float64(len(s))))-1)]
}
