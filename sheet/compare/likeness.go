package compare

import (
	"math/rand/v2"
	"slices"
)

// Two clips are related from a likeness of relatedLikeness on. Drawn passages
// against themselves with one or two edits reach 0.48 and more, against another
// passage 0.2 at most, where half of the acting is the same 0.3 to 0.4.
const relatedLikeness = 0.35

const (
	shuffles = 24 // orders of the pass's beats tried; the middle one is chance

	// leastChance and mostChance bound what chance reaches. Beats that are all alike are as
	// well lined up in any order, and two beats have no other order at all.
	leastChance = 0.6
	mostChance  = 0.8
)

// sureLikeness is the likeness from which beats need no help of the curves, and
// surestCourse what the correlation of the curves must reach to overrule beats
// that are related but unlike: then less than a tenth of the clip is out of step.
const (
	sureLikeness = 0.6
	surestCourse = 0.95
)

// relate lines two lines up by their beats, or by their motion curves where the
// beats hardly agree and the curves do.
func relate(ref, pass *line) (f *fit, likeness, least float64) {
	f = bestFit(ref, pass)
	likeness, least = f.likeness()
	if f.tooFew() && likeness >= least || likeness >= sureLikeness {
		return f, likeness, least
	}
	wanted := leastCourse
	if likeness >= least {
		wanted = surestCourse
	}
	if c := findCourse(ref, pass); c.sure() && c.correlation >= wanted {
		return c.fit(ref, pass), c.correlation, leastCourse
	}
	return f, likeness, least
}

// likeness is the agreement of the two lines above that which chance gives, as
// a share of what is possible above it (the form of Cohen 1960), and the least
// at which they are related. Chance is the same beats of the pass in another
// order; where there are too few for that, their motion curves must tell.
func (f *fit) likeness() (likeness, least float64) {
	if f.tooFew() {
		_, correlation := f.curveOffset()
		return max(0, correlation), relatedCurves
	}
	chance := min(max(f.chance(), leastChance), mostChance)
	return max(0, (f.agreement()-chance)/(1-chance)), relatedLikeness
}

// agreement is 1 where nothing of the price of losing every beat of both is to
// be paid.
func (f *fit) agreement() float64 {
	all := 0.0
	for i := range f.reference.beats {
		b := &f.reference.beats[i]
		all += f.lost(b, b.length()*f.stretch)
	}
	for i := range f.pass.beats {
		b := &f.pass.beats[i]
		all += f.lost(b, b.length())
	}
	if all == 0 {
		return 0
	}
	return 1 - f.total()/all
}

// chance is the middle agreement of the reference with shuffled passes.
func (f *fit) chance() float64 {
	var list []float64
	for seed := range uint64(shuffles) {
		pass := f.pass.shuffled(seed)
		best := newFit(f.reference, pass, natural(f.reference, pass)).agreement()
		if !f.sameSpeed() {
			best = max(best, newFit(f.reference, pass, f.stretch).agreement())
		}
		list = append(list, best)
	}
	slices.Sort(list)
	return list[len(list)/2]
}

// shuffled returns the line with its beats in another order, two by two so that
// a hold stays with the move before or after it. The same seed gives the same
// order.
func (l *line) shuffled(seed uint64) *line {
	pairs := slices.Collect(slices.Chunk(l.beats, 2))
	whole := len(l.beats) / 2 // a beat without a partner stays last
	r := rand.New(rand.NewPCG(seed, shuffles))
	r.Shuffle(whole, func(i, j int) { pairs[i], pairs[j] = pairs[j], pairs[i] })
	other := *l
	other.beats = slices.Concat(pairs...)
	at := 0.0
	for i := range other.beats {
		b := &other.beats[i]
		length := b.length()
		b.from, b.to = at, at+length
		at += length
	}
	return &other
}

// tooFew reports whether there are too few beats for an order to say anything.
func (f *fit) tooFew() bool {
	const least = 5 // two holds with the moves between and about them
	return min(len(f.reference.beats), len(f.pass.beats)) < least
}
