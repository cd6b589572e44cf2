package feet

import "math"

// A foot is the stands that belong to one sole, the longest first: its heel, its
// toe, and what else of it was followed.
type foot []*stand

const (
	// soleShort and soleLong bound the distance, in soles, of heel and toe.
	soleShort, soleLong = 0.4, 1.25
	// soleLevel is how far apart in height they may be, in figure heights.
	soleLevel = 0.06
	// soleTime is how much a drawing more that both stand weighs against a sole's
	// length of distance.
	soleTime = 0.05
	// togetherTime is the share of the shorter one's time in which both stand.
	togetherTime = 0.5
	// besideSole and insideSole are how far, in soles, beside the end of a sole and
	// towards its other end something belongs to it: what is followed are windows,
	// which seldom begin just where a shoe does. Feet side by side are 0.4 apart.
	besideSole, insideSole = 0.35, 0.8
	// insideTime is the share of its time in which it must be there.
	insideTime = 0.6
	// oneLumpShare is the share of the drawings in which two ends stand that must
	// show both on one lump no wider than a foot for them to be of one foot: a leg
	// that swings by widens it for some.
	oneLumpShare = 0.5
)

// feet sorts stands, the longest first, by the feet they belong to.
func (w *walker) feet(stands []*stand) []foot {
	used := map[*stand]bool{}
	var list []foot
	for _, st := range stands {
		if used[st] {
			continue
		}
		f := foot{st}
		used[st] = true
		if o := w.otherEnd(st, stands, used); o != nil {
			f = append(f, o)
			used[o] = true
		}
		// What else keeps the same place for the same time is the same foot.
		for _, o := range stands {
			if !used[o] && w.onSole(o, f) {
				used[o] = true
			}
		}
		list = append(list, f)
	}
	return list
}

// otherEnd is the stand that fits best as toe to a heel, or heel to a toe; nil for
// none.
func (w *walker) otherEnd(st *stand, stands []*stand, used map[*stand]bool) *stand {
	var best *stand
	least := math.Inf(1)
	for _, o := range stands {
		if used[o] || o.left == st.left {
			continue
		}
		if off, ok := w.oneFoot(st, o); ok && off < least {
			best, least = o, off
		}
	}
	return best
}

// oneFoot reports whether two stands may be heel and toe of one foot, and how far
// off they are from being so for long.
func (w *walker) oneFoot(a, b *stand) (off float64, ok bool) {
	both := a.shared(b)
	if float64(both) < togetherTime*float64(min(a.to-a.from, b.to-b.from)+1) {
		return 0, false
	}
	i := max(a.from, b.from)
	p, q := a.place(i), b.place(i)
	if !a.left {
		p, q = q, p
	}
	d := (q.x - p.x) / w.soleAt(i)
	ok = d > soleShort && d < soleLong && math.Abs(p.y-q.y) < soleLevel*w.tall(i)
	return math.Abs(d-1) - soleTime*float64(both), ok
}

// onSole reports whether a stand lies on the sole of a foot and in its time.
func (w *walker) onSole(st *stand, f foot) bool {
	for _, o := range f {
		if float64(st.shared(o)) < insideTime*float64(st.to-st.from+1) {
			continue
		}
		i := max(st.from, o.from)
		p, q := st.place(i), o.place(i)
		d := (p.x - q.x) / w.soleAt(i)
		if !o.left {
			d = -d
		}
		if math.Abs(p.y-q.y) > soleLevel*w.tall(i) {
			continue
		}
		if d > -besideSole && d < insideSole || w.oneLump(st, o) {
			return true
		}
	}
	return false
}

// oneLump reports whether two stands share a lump no wider than a foot.
func (w *walker) oneLump(a, b *stand) bool {
	from, to := max(a.from, b.from), min(a.to, b.to)
	n := 0
	for i := from; i <= to; i++ {
		ends := w.ends[i]
		for k := 0; k+1 < len(ends); k += 2 {
			l := ends[k].lump
			if l.width() <= wideSole*w.soleAt(i) && w.onLump(a.place(i), l, i) && w.onLump(b.place(i), l, i) {
				n++
				break
			}
		}
	}
	return n > 0 && float64(n) >= oneLumpShare*float64(to-from+1)
}

// onLump reports whether a place lies on the lower rim of a lump of drawing i.
func (w *walker) onLump(p place, l lump, i int) bool {
	near := max(windowLeast, sameShare*w.tall(i))
	return p.x >= float64(l.x0)-near && p.x <= float64(l.x1)+near &&
		p.y <= float64(l.y)+near && p.y >= float64(min(l.yl, l.yr))-near
}

// contact measures the stand of a foot.
func (w *walker) contact(f foot) Contact {
	vx, vy := w.usual(f[0].spot)
	from, to := math.MaxInt, 0
	for i, st := range f {
		*st = w.settle(st.spot, vx, vy)
		if st.to > st.from || i == 0 {
			from, to = min(from, st.from), max(to, st.to)
		}
	}
	c := Contact{Start: w.draws[from].start, End: w.draws[to].end}
	c.SlideStart, c.SlideEnd = c.Start, c.End
	c.X, c.Y = w.middle(f, from)
	c.Slip = w.slip(f, from, to, vx, vy)
	c.Share = c.Slip / w.tall(from)
	dx, dy := w.still(c.Start, c.End, c.X, c.Y)
	c.LastX, c.LastY = c.X+dx+c.Slip, c.Y+dy
	return c
}

// middle is the middle of a foot's sole in drawing i, by its stands, the longer the
// more. Those of another time are taken from there over the ground.
func (w *walker) middle(f foot, i int) (x, y float64) {
	n := 0.0
	for _, st := range f {
		k := min(max(i, st.from), st.to)
		p, half := w.carry(st.place(k), w.draws[k].start, w.draws[i].start), w.soleAt(i)/2
		if !st.left {
			half = -half
		}
		long := float64(st.to-st.from) + 0.01 // one that stands for one drawing counts a little
		x, y, n = x+long*(p.x+half), y+long*p.y, n+long
	}
	return x / n, y / n
}
