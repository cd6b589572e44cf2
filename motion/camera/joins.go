package camera

import (
	"math"

	"holdfast/motion/picture"
)

// Two shots may be joined without a cut. Through black, or any other blank, one
// picture fades until nothing of it is left and another comes up. In a dissolve
// every frame between is the sum of a share of the one and the rest of the other
// (the production model of edits: A. Hampapur, R. Jain, T. Weymouth, "Production
// Model Based Digital Video Segmentation", 1995; from memory). What fades down and
// comes up again as the same picture is no join, nor is light that changes, nor
// what flow can follow.

// Kinds of joins.
const (
	Fade     = "fade"     // through a blank
	Dissolve = "dissolve" // of one picture into another
)

const (
	// joinVisible is the contrast, in levels, from which a picture is not blank:
	// four times what strong grain leaves in the mean of a cell.
	joinVisible = 1.0
	// joinAlike is the likeness, from -1 to 1, up to which two frames show other
	// pictures: the halves of two that have nothing in common are alike by 0.7.
	joinAlike = 0.6
	// joinDim is the share of its contrast nearby under which a picture is fading,
	// and joinDark that under which it is all but gone: a fade of four frames leaves
	// a fifth on its last.
	joinDim, joinDark = 0.5, 0.25
	// joinSettle is for how many seconds either way a picture's contrast is asked
	// for: the better half of a common fade.
	joinSettle = 0.5
	// joinConfirm is for how many seconds a dissolve must have brought nothing more
	// to be over.
	joinConfirm = 0.25
	// dissolveLeast and dissolveMost are how many seconds a dissolve takes.
	dissolveLeast, dissolveMost = 0.2, 2.0
	// dissolveLevels is the least root mean square difference of the two pictures.
	dissolveLevels = 6.0
	// dissolveCell is the difference, in levels, from which a cell takes part in a
	// dissolve. As many must as change on a cut: before a plain wall something small
	// that walks goes from cell to cell as in a dissolve.
	dissolveCell = 2.0
	// dissolveLeft is the most of that difference, squared, that no mixture of the
	// two explains in a frame between: what moves slowly in a dissolve leaves 0.006, a
	// camera that pans by strongly coded pictures more than 0.015.
	dissolveLeft = 0.015
	// dissolveJump is the most that a share may grow on one step, dissolveBack what
	// it may lose by grain and by what moves.
	dissolveJump, dissolveBack = 0.35, 0.03
	// dissolveLost is the least change that flow leaves unexplained on the way
	// against the difference of the two: of what travels it leaves less.
	dissolveLost = 0.8
	// dissolveGrowth is by how much the difference must grow for a dissolve to be
	// going on: one that takes dissolveMost grows by twice that with each frame.
	dissolveGrowth = 1.01
)

// A Join is where one shot gives way to another without a cut.
type Join struct {
	Kind  string
	Frame int // the first that shows more of the new shot than of the old one
	// Of a dissolve, the frames that show both pictures; of a fade, the last one on
	// which the old picture is seen and the first on which the new one is.
	Start, End int
}

// A Joiner finds joins in a stream of changes. It tells them with a delay.
type Joiner struct {
	settle, confirm, least, most int // frames
	first                        int // frame of looks[0]
	looks                        []look
	area                         area     // of the picture that ever shows anything
	judged                       int      // looks that were judged
	pending                      dissolve // under way or just over
	grown                        int      // the look at which it last grew
}

// A look is a frame as a Joiner sees it.
type look struct {
	thumb    Thumb // about the mean of each channel
	contrast float64
	lost     float64 // levels that flow left unexplained on the way here
}

// NewJoiner returns a Joiner for a clip of the given rate in frames a second.
func NewJoiner(rate float64) *Joiner {
	frames := func(seconds float64) int { return max(1, int(math.Round(seconds*min(rate, joinRate)))) }
	return &Joiner{settle: frames(joinSettle), confirm: frames(joinConfirm), least: max(4, frames(dissolveLeast)), most: frames(dissolveMost)}
}

// joinRate bounds the frames a second that joins are looked for at, and so what
// must be kept.
const joinRate = 60.0

// Look returns how many frames after a join it is told at the latest.
func (j *Joiner) Look() int { return j.most + j.settle + j.confirm }

// Push takes the next frame, with the change that flow left unexplained on the way
// to it (see Change), and returns a join that is now certain.
func (j *Joiner) Push(p *picture.Picture, lost float64) (join Join, ok bool) {
	if j.area.include(p) {
		// What was black all over so far is no picture that could be compared.
		j.forget(len(j.looks))
	}
	j.looks = append(j.looks, newLook(p, j.area, lost))
	if len(j.looks)-j.judged <= j.settle {
		return Join{}, false
	}
	return j.judge()
}

// End returns the joins before frame f, where a shot ends for other reasons, and
// forgets what was before it.
func (j *Joiner) End(f int) (joins []Join) {
	if f < j.first {
		return nil // a border has lit up since, or a join was told: nothing from before is known
	}
	rest := j.looks[f-j.first:]
	j.looks = j.looks[:f-j.first]
	for j.judged < len(j.looks) {
		if join, ok := j.judge(); ok {
			joins = append(joins, join)
		}
	}
	if j.pending.sure() {
		joins = append(joins, j.over())
	}
	j.looks, j.first, j.judged, j.pending = append([]look(nil), rest...), f, 0, dissolve{}
	return joins
}

// judge looks at the next frame.
func (j *Joiner) judge() (join Join, ok bool) {
	t := j.judged
	j.judged++
	defer j.trim()
	if join, ok := j.fade(t); ok {
		j.forget(join.Frame - j.first)
		return join, true
	}
	if d := j.dissolve(t); d.size > dissolveGrowth*j.pending.size {
		j.pending, j.grown = d, t
	} else if j.pending.sure() && t-j.grown >= j.confirm {
		return j.over(), true
	}
	return Join{}, false
}

// over ends the dissolve that is pending.
func (j *Joiner) over() Join {
	d := j.pending
	join := Join{Dissolve, j.first + d.half, j.first + d.from + 1, j.first + d.to - 1}
	j.forget(d.to)
	return join
}

// forget drops the looks before i.
func (j *Joiner) forget(i int) {
	j.looks = append(j.looks[:0], j.looks[i:]...)
	j.first, j.judged = j.first+i, max(0, j.judged-i)
	j.pending, j.grown = dissolve{}, 0
}

// trim drops the looks that are too old to matter.
func (j *Joiner) trim() {
	n := j.judged - j.most - 2*j.settle - j.confirm
	if n <= 0 {
		return
	}
	j.looks = append(j.looks[:0], j.looks[n:]...)
	j.first, j.judged, j.grown = j.first+n, j.judged-n, j.grown-n
	j.pending.shift(n)
}

func newLook(p *picture.Picture, a area, lost float64) look {
	l := look{thumb: thumbOf(p, a), lost: lost}
	const cells = thumbW * thumbH
	sum := 0.0
	for c := 0; c < len(l.thumb); c += cells {
		channel := l.thumb[c : c+cells]
		mean := float32(0)
		for _, v := range channel {
			mean += v / cells
		}
		for i := range channel {
			channel[i] -= mean
			sum += float64(channel[i] * channel[i])
		}
	}
	l.contrast = math.Sqrt(sum / cells)
	return l
}

// alike is the likeness of two pictures whatever their light, from -1 to 1.
func (l *look) alike(m *look) float64 {
	sum := 0.0
	for i, v := range l.thumb {
		sum += float64(v * m.thumb[i])
	}
	return sum / (thumbW * thumbH * l.contrast * m.contrast)
}

// most is the largest contrast of looks from i to k, as far as there are any.
func (j *Joiner) largest(i, k int) float64 {
	most := 0.0
	for i := max(0, i); i <= min(k, len(j.looks)-1); i++ {
		most = math.Max(most, j.looks[i].contrast)
	}
	return most
}

// left and due are the shares that look i has of the contrast before it and of
// that to come.
func (j *Joiner) left(i int) float64 { return j.looks[i].contrast / j.largest(i-j.settle, i) }
func (j *Joiner) due(i int) float64  { return j.looks[i].contrast / j.largest(i, i+j.settle) }

// fade tells whether look t is the first that is seen of a new picture after the
// one before faded out of sight.
func (j *Joiner) fade(t int) (join Join, ok bool) {
	p := t - 1
	for p >= 0 && j.looks[p].contrast < joinVisible {
		p--
	}
	if p < 0 || j.looks[t].contrast < joinVisible {
		return Join{}, false
	}
	before, now := &j.looks[p], &j.looks[t]
	if before.alike(now) >= joinAlike || p == t-1 && (j.left(p) >= joinDark || j.strongest(p).alike(now) >= joinAlike) {
		return Join{}, false
	}
	start := t
	for start > p+1 && j.looks[start-1].alike(now) > max(joinAlike, j.looks[start-1].alike(before)) {
		start--
	}
	return Join{Fade, j.first + start, j.first + p, j.first + t}, true
}

// strongest is the look of most contrast up to look i.
func (j *Joiner) strongest(i int) *look {
	best := i
	for k := max(0, i-j.settle); k < i; k++ {
		if j.looks[k].contrast > j.looks[best].contrast {
			best = k
		}
	}
	return &j.looks[best]
}

// A dissolve goes from one look to another; size is how much they differ, levels.
type dissolve struct {
	from, half, to int
	size           float64
}

func (d *dissolve) sure() bool { return d.size > 0 }

func (d *dissolve) shift(n int) { d.from, d.half, d.to = d.from-n, d.half-n, d.to-n }

// dissolve returns the largest that ends with look t, the zero one where there is
// none.
func (j *Joiner) dissolve(t int) (best dissolve) {
	for from := t - j.least; from >= max(0, t-j.most); from-- {
		if d := j.mixed(from, t); d.size > dissolveGrowth*best.size {
			best = d
		}
	}
	return best
}

// mixed returns the dissolve between two looks, the zero one where they show the
// same, one is fading, or what lies between is no mixture of them.
func (j *Joiner) mixed(from, to int) dissolve {
	a, b := &j.looks[from], &j.looks[to]
	if min(a.contrast, b.contrast) < joinVisible || j.left(from) < joinDim || j.due(to) < joinDim {
		return dissolve{}
	}
	way := a.to(b)
	size := way.dot(&way)
	if size < dissolveLevels*dissolveLevels || a.alike(b) > joinAlike || way.taking() < cutHard {
		return dissolve{}
	}
	d := dissolve{from: from, half: -1, to: to, size: math.Sqrt(size)}
	share, lost := 0.0, b.lost
	for i := from + 1; i < to; i++ {
		done := a.to(&j.looks[i])
		s := done.dot(&way) / size
		left := done.dot(&done) - s*s*size
		if left > dissolveLeft*size || s < share-dissolveBack || s > share+dissolveJump {
			return dissolve{}
		}
		if share = s; s >= 0.5 && d.half < 0 {
			d.half = i
		}
		lost += j.looks[i].lost
	}
	if share < 1-dissolveJump || d.half < 0 || lost < dissolveLost*way.mean() {
		return dissolve{}
	}
	return d
}

// to is what leads from one picture to another.
func (l *look) to(m *look) (d Thumb) {
	for i, v := range m.thumb {
		d[i] = v - l.thumb[i]
	}
	return d
}

// dot is the product of two differences, levels squared.
func (t *Thumb) dot(u *Thumb) float64 {
	sum := 0.0
	for i, v := range t {
		sum += float64(v * u[i])
	}
	return sum / (thumbW * thumbH)
}

// mean is the mean difference, levels summed over luma and chroma.
func (t *Thumb) mean() float64 { return t.Distance(&Thumb{}) }

// taking is the share of the cells that take part in a difference.
func (t *Thumb) taking() float64 {
	const cells = thumbW * thumbH
	n := 0
	for i := range cells {
		if max(abs32(t[i]), abs32(t[cells+i]), abs32(t[2*cells+i])) >= dissolveCell {
			n++
		}
	}
	return float64(n) / cells
}

func abs32(v float32) float32 { return max(v, -v) }
