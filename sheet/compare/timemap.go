package compare

// A timeMap says which instant of the pass is which of the reference: straight
// between its anchors, and on at the speed of the whole beyond the first and
// the last. Frames count from 0, an instant is the start of a frame.
type timeMap struct {
	anchors []anchor
	stretch float64
}

type anchor struct{ ref, pass float64 }

// timeMap makes the map of a fit. Where the clips begin or end says nothing of
// what they show, so it is no anchor.
func (f *fit) timeMap() timeMap {
	m := timeMap{stretch: f.stretch}
	if f.course != nil {
		m.anchors = []anchor{{0, f.course.lag}}
		return m
	}
	r, p := 0.0, 0.0
	for i, s := range f.steps {
		if i > 0 && s.r > 0 && s.p > 0 {
			m.anchors = append(m.anchors, anchor{r, p})
		}
		if s.nr > 0 {
			r = f.reference.beats[s.r+s.nr-1].to
		}
		if s.np > 0 {
			p = f.pass.beats[s.p+s.np-1].to
		}
		if s.r+s.nr == len(f.reference.beats) || s.p+s.np == len(f.pass.beats) {
			break
		}
	}
	if len(m.anchors) == 0 {
		m.anchors = []anchor{{0, f.offset}}
	}
	return m
}

// pass returns the instant of the pass for one of the reference.
func (m timeMap) pass(ref float64) float64 {
	a := m.anchors
	if ref <= a[0].ref {
		return a[0].pass + (ref-a[0].ref)*m.stretch
	}
	for i := 1; i < len(a); i++ {
		if ref <= a[i].ref {
			u := (ref - a[i-1].ref) / (a[i].ref - a[i-1].ref)
			return a[i-1].pass + u*(a[i].pass-a[i-1].pass)
		}
	}
	last := a[len(a)-1]
	return last.pass + (ref-last.ref)*m.stretch
}

// reference returns the instant of the reference for one of the pass.
func (m timeMap) reference(pass float64) float64 { return m.turned().pass(pass) }

// turned is the map the other way round.
func (m timeMap) turned() timeMap {
	t := timeMap{stretch: 1 / m.stretch}
	for _, a := range m.anchors {
		t.anchors = append(t.anchors, anchor{a.pass, a.ref})
	}
	return t
}
