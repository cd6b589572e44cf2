package sheet

import "math"

// A Gauge says by which of its measured numbers a note gets worse or better from
// one pass to the next. The zero Gauge is of notes that are there or are not.
type Gauge struct {
	Names []string // of the first that the note has
	Less  bool     // less of it is worse
}

// Gauged returns the number by which a note gets worse, its name, and whether
// less of it is worse; ok is false for a note that has none. The sign of a
// number is its direction and says nothing here.
func (n Note) Gauged() (name string, value float64, less, ok bool) {
	for _, rule := range rules {
		if rule.Kind != n.Kind {
			continue
		}
		for _, name := range rule.Gauge.Names {
			if v, ok := asNumber(n.Measured[name]); ok {
				return name, math.Abs(v), rule.Gauge.Less, true
			}
		}
	}
	return "", 0, false, false
}

// asNumber is a measured number, as it was measured or as JSON gives it back.
func asNumber(v any) (float64, bool) {
	switch x := v.(type) {
	case float64:
		return x, true
	case int:
		return float64(x), true
	}
	return 0, false
}
