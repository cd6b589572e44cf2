package feet

import "testing"

// What a figure of which not all is known stands on is low.
func TestLow(t *testing.T) {
	b := &body{height: 200}
	for name, c := range map[string]struct {
		rows []float64
		want bool
	}{
		"feet, the far one higher up": {[]float64{300, 285, 300, 285}, true},
		"feet and a hand on a table":  {[]float64{300, 296, 300, 180}, true},
		"elbows, hems and hands":      {[]float64{281, 263, 235, 222, 209, 167, 152}, false},
		"nothing":                     {nil, true},
	} {
		var list []Contact
		for _, y := range c.rows {
			list = append(list, Contact{Y: y})
		}
		if got := b.low(list); got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}
