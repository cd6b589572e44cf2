package timing

const (
	// hitchDrawings and hitchSeconds bound a hitch, the shorter of them: what stalls
	// for longer has stopped, or turns. Two drawings on twos last the sixth of a
	// second (common practice, no source).
	hitchDrawings = 2
	hitchSeconds  = 1.0 / 6
	// hitchSteady is how fast, against the one beyond it, the drawing next to a hitch
	// goes at least. What turns or comes to rest slows down on its way there; a
	// hitch stalls from full speed.
	hitchSteady = 0.75
	// hitchFast is how fast, against the peak of its move, the drawings on both
	// sides go at least: a move may settle by fits and starts.
	hitchFast = 0.3
	// hitchDepth is the least stall told of: the speed of a drawing is measured to a
	// tenth or two.
	hitchDepth = 0.3
	// rateSlack, in drawings, lets a rate of 24000/1001 pass for 24.
	rateSlack = 0.01
)

// A Hitch is a stall of a drawing or two inside a move.
type Hitch struct {
	Frame int     // the first that stalls
	End   int     // and the last
	Depth float64 // how much slower than on both sides, 0 to 1
}

// hitches finds the stalls of a profile.
func (p Profile) hitches() []Hitch {
	var list []Hitch
	most := min(hitchDrawings, int(hitchSeconds*p.Rate+rateSlack))
	for k := 2; k < len(p.Speed)-2; k++ {
		for n := 1; n <= most && k+n+1 < len(p.Speed); n++ {
			if h, ok := p.hitch(k, n); ok {
				list = append(list, h)
				k += n
				break
			}
		}
	}
	return list
}

// hitch tells whether the n drawings from k on are a stall.
func (p Profile) hitch(k, n int) (Hitch, bool) {
	v := p.Speed
	left, right := v[k-1], v[k+n]
	side := min(left, right)
	slow := 0.0
	for _, s := range v[k : k+n] {
		slow = max(slow, s)
	}
	steady := left >= hitchSteady*v[k-2] && right >= hitchSteady*v[k+n+1]
	if side == 0 || !steady || side < hitchFast*p.most() || slow > (1-hitchDepth)*side {
		return Hitch{}, false
	}
	return Hitch{Frame: p.Frames[k], End: p.Frames[k+n] - 1, Depth: 1 - slow/side}, true
}
