// Package biquad filters a stream of samples by second-order sections.
package biquad

// A Section is one second-order filter, a0 being 1.
type Section struct {
	B0, B1, B2, A1, A2 float64
	z1, z2             float64
}

// Filter takes the next sample, by the transposed direct form II.
func (s *Section) Filter(x float64) float64 {
	y := s.B0*x + s.z1
	s.z1 = s.B1*x - s.A1*y + s.z2
	s.z2 = s.B2*x - s.A2*y
	return y
}

// A Chain is sections one after the other.
type Chain []Section

// Filter takes the next sample through all sections.
func (c Chain) Filter(x float64) float64 {
	for i := range c {
		x = c[i].Filter(x)
	}
	return x
}
