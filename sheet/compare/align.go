package compare

import (
	"math"
	"slices"
)

// What became of a stretch of beats.
type fate int

const (
	matched fate = iota
	missing      // of the reference only
	extra        // of the pass only
	split        // one of the reference, several of the pass
	merged       // several of the reference, one of the pass
	swapped      // two of the reference have changed places, each with the move to it
)

// A step takes beats r to r+nr-1 of the reference and p to p+np-1 of the pass.
type step struct {
	fate  fate
	r, nr int
	p, np int
}

// mostJoined is how many beats one may be joined of: a move with two holds lost.
const mostJoined = 5

// align lines up two lines at the least price, in order, by dynamic
// programming (Needleman & Wunsch 1970) with steps for beats that are joined and
// for neighbours that have changed places (Wagner & Lowrance 1975).
func (s *scale) align() (steps []step, price float64) {
	n, m := len(s.reference.beats), len(s.pass.beats)
	t := &table{scale: s, width: m + 1, cells: make([]cell, (n+1)*(m+1))}
	for i := range t.cells {
		t.cells[i].price = math.Inf(1)
	}
	t.cells[0].price = 0
	for r := 0; r <= n; r++ {
		for p := 0; p <= m; p++ {
			t.from(r, p)
		}
	}
	for r, p := n, m; r > 0 || p > 0; {
		st := t.cells[r*t.width+p].step
		steps = append(steps, st)
		r, p = st.r, st.p
	}
	slices.Reverse(steps)
	return steps, t.cells[len(t.cells)-1].price
}

// A cell is the cheapest way to where so many beats of both are used up.
type cell struct {
	price float64
	step  step
}

type table struct {
	*scale
	width int
	cells []cell
}

// take offers a step from where r and p beats are used up.
func (t *table) take(st step, price float64) {
	here := t.cells[st.r*t.width+st.p].price
	c := &t.cells[(st.r+st.nr)*t.width+st.p+st.np]
	if here+price < c.price-1e-12 {
		*c = cell{here + price, st}
	}
}

// from offers every step from r and p.
func (t *table) from(r, p int) {
	ref, pass := t.reference.beats, t.pass.beats
	if r < len(ref) {
		t.take(step{missing, r, 1, p, 0}, t.lostAt(&ref[r], t.stretch, p == 0 || p == len(pass)))
	}
	if p < len(pass) {
		t.take(step{extra, r, 0, p, 1}, t.lostAt(&pass[p], 1, r == 0 || r == len(ref)))
	}
	if r == len(ref) || p == len(pass) || ref[r].Kind != pass[p].Kind {
		return
	}
	t.take(step{matched, r, 1, p, 1}, t.match(&ref[r], &pass[p])+t.astray(ref[r:r+1], pass[p:p+1]))
	for n := 3; n <= mostJoined; n += 2 {
		if r+n <= len(ref) && alternate(ref[r:r+n]) {
			t.take(step{merged, r, n, p, 1}, t.join(ref[r:r+n], t.stretch, pass[p:p+1], 1)+t.astray(ref[r:r+n], pass[p:p+1]))
		}
		if p+n <= len(pass) && alternate(pass[p:p+n]) {
			t.take(step{split, r, 1, p, n}, t.join(pass[p:p+n], 1, ref[r:r+1], t.stretch)+t.astray(ref[r:r+1], pass[p:p+n]))
		}
	}
	if r+4 <= len(ref) && p+4 <= len(pass) && alternate(ref[r:r+4]) && alternate(pass[p:p+4]) && !ref[r].hold() {
		t.take(step{swapped, r, 4, p, 4}, t.swap(r, p))
	}
}

// lostAt is the price of a beat at the end of the other clip, or inside it.
func (t *table) lostAt(b *beat, stretch float64, end bool) float64 {
	price := t.lost(b, b.length()*stretch)
	if end {
		price *= endGap
	}
	return price
}

// alternate reports whether holds and moves take turns.
func alternate(beats []beat) bool {
	for i := 1; i < len(beats); i++ {
		if beats[i].Kind == beats[i-1].Kind {
			return false
		}
	}
	return true
}

// join is the price of taking several beats of one clip for one of the other:
// those of the other kind between them are lost, and the one may be as long as
// all of them or as those of its kind. Where a pose is left out on the way, the
// move to the next may take what it took before; a hold that lasts no longer
// than one of two is another matter, as the other is then lost as well.
func (t *table) join(many []beat, stretchMany float64, one []beat, stretchOne float64) float64 {
	price, kind, all := joinPrice, 0.0, 0.0
	if one[0].hold() {
		price = joinHolds
	}
	cut := false
	for i := range many {
		length := many[i].length() * stretchMany
		all += length
		cut = cut || many[i].cut
		if i%2 == 0 {
			kind += length
		} else {
			price += t.lost(&many[i], length)
		}
	}
	length := one[0].length() * stretchOne
	if cut || one[0].cut {
		return price
	}
	change := min(t.change(all-length), t.change(kind-length))
	if !one[0].hold() {
		change = min(change, t.change(many[len(many)-1].length()*stretchMany-length))
	}
	return price + change
}

// swap is the price of a move with its hold changing places with the next.
func (t *table) swap(r, p int) float64 {
	ref, pass := t.reference.beats, t.pass.beats
	price := swapPrice
	for i := range 2 {
		price += t.match(&ref[r+i], &pass[p+2+i]) + t.match(&ref[r+2+i], &pass[p+i])
	}
	return price
}
