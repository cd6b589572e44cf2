package scene

import (
	"fmt"
	"image"
	"math"
	"math/rand/v2"
	"slices"
)

// What an edit does to a hold, or to a whole pass.
const (
	EditMissing = "missing" // a hold of the reference is not in the pass
	EditExtra   = "extra"   // a hold of the pass is not in the reference
	EditShorter = "shorter"
	EditLonger  = "longer"
	EditSwapped = "swapped" // a hold and the next have changed places
)

// An Edit is one known difference of timing between two clips. Frames count
// from 0; a side on which there is no such hold has -1 at both ends.
type Edit struct {
	Kind               string
	RefStart, RefEnd   int // the hold in the reference
	PassStart, PassEnd int // the hold in the pass
}

// A Pair is a reference and a pass of which every difference of timing is
// known, because both are played from one list of poses.
type Pair struct {
	Name            string
	Reference, Pass *Scene
	Edits           []Edit
	Speed           float64 // of the pass against the reference; 1: the same
	Offset          int     // frames of the pass by which all of it comes later
}

// Pairs returns pairs of clips with one kind of edit each, and with none where
// only the picture differs. size is that of the reference and must be even.
func Pairs(size image.Point) ([]Pair, error) { return pairsOf(phrases(), size) }

// RandomPairs returns the same edits of passages made up by lot: their poses,
// their times and how they ease. The same seed gives the same passages.
func RandomPairs(seed uint64, passages int, size image.Point) ([]Pair, error) {
	r := rand.New(rand.NewPCG(seed, 52))
	var list []passage
	for i := range passages {
		list = append(list, passage{fmt.Sprintf("by lot %d", i+1), randomStrikes(r)})
	}
	return pairsOf(list, size)
}

func pairsOf(passages []passage, size image.Point) ([]Pair, error) {
	var list []Pair
	for _, ph := range passages {
		for _, p := range pairPlans(ph.strikes) {
			pair, err := p.play(ph, size)
			if err != nil {
				return nil, fmt.Errorf("pair %s: %w", p.name, err)
			}
			list = append(list, pair)
		}
	}
	return list, nil
}

// A passage is a list of poses and its name.
type passage struct {
	name    string
	strikes []strike
}

// phrases are passages in uneven time, long enough that an edit leaves most of
// them alone.
func phrases() []passage {
	return []passage{
		{"plain", []strike{
			{0, 18, poseEasy, EaseInOut}, {8, 14, poseSalute, EaseInOut}, {6, 26, poseThink, EaseOut},
			{12, 11, posePoint, EaseInOut}, {5, 18, poseBack, EaseInOut}, {9, 32, poseCheer, Overshoot},
			{14, 12, poseBow, EaseInOut}, {10, 20, poseEasy, EaseInOut},
		}},
		{"brisk", []strike{
			{0, 12, poseThink, EaseInOut}, {5, 9, posePoint, EaseOut}, {7, 16, poseBack, EaseInOut},
			{4, 12, poseSalute, EaseOut}, {10, 22, poseBow, EaseInOut}, {6, 8, poseCheer, EaseIn},
			{11, 30, poseEasy, EaseInOut}, {5, 10, poseSquat, EaseInOut}, {8, 17, posePoint, EaseInOut},
			{6, 14, poseThink, EaseOut},
		}},
		{"slow", []strike{
			{0, 30, poseEasy, EaseInOut}, {16, 42, poseBow, EaseInOut}, {20, 18, poseCheer, EaseInOut},
			{10, 26, poseThink, EaseOut}, {24, 36, poseSquat, EaseInOut}, {14, 30, posePoint, EaseInOut},
		}},
	}
}

// randomStrikes makes up a passage. No pose comes back before two others, so
// that a move is left where a hold is taken out or two change places; the two
// holds that change places differ by half a second, so that it can be seen.
func randomStrikes(r *rand.Rand) []strike {
	poses := []Pose{poseEasy, poseSalute, posePoint, poseBow, poseCheer, poseThink, poseBack, poseSquat}
	eases := []Ease{EaseInOut, EaseInOut, EaseOut, EaseIn, Overshoot}
	between := func(least, most int) float64 { return float64(least + r.IntN(most-least+1)) }
	list := make([]strike, 7+r.IntN(5))
	before, last := -1, -1
	for i := range list {
		pose := r.IntN(len(poses))
		for pose == before || pose == last {
			pose = r.IntN(len(poses))
		}
		before, last = last, pose
		list[i] = strike{between(5, 16), between(12, 36), poses[pose], eases[r.IntN(len(eases))]}
		for i == 3 && math.Abs(list[2].hold-list[3].hold) < 12 {
			list[i].hold = between(12, 36)
		}
	}
	list[0].move = 0
	return list
}

// A pairPlan says how a pass is made of a list of poses.
type pairPlan struct {
	name   string
	change func(list []strike) []strike // of the pass; nil: none
	edits  []plannedEdit
	speed  float64 // 0: 1
	offset int
	shot   func(*Shot) // changes the picture of the pass
	spec   func(*Spec)
}

// A plannedEdit names the holds of an edit by their places in both lists; -1
// where there is none.
type plannedEdit struct {
	kind      string
	ref, pass int
}

// pairPlans are the edits tried on a passage of some poses. Holds inside it are
// edited: what the clip itself cuts off has no length.
func pairPlans(list []strike) []pairPlan {
	n := len(list)
	early, late := 2, n-3
	length := func(k int, factor float64) func([]strike) []strike {
		return func(s []strike) []strike {
			s[k].hold = math.Round(s[k].hold * factor)
			return s
		}
	}
	plans := []pairPlan{
		{name: "itself"},
		{name: "removed", change: func(s []strike) []strike { return slices.Delete(s, early, early+1) },
			edits: []plannedEdit{{EditMissing, early, -1}}},
		{name: "passed", change: func(s []strike) []strike { s[late].hold = 1; return s },
			edits: []plannedEdit{{EditMissing, late, -1}}},
		{name: "shortened", change: length(late, 0.5), edits: []plannedEdit{{EditShorter, late, late}}},
		{name: "lengthened", change: length(early, 1.6), edits: []plannedEdit{{EditLonger, early, early}}},
		{name: "added", change: func(s []strike) []strike {
			return slices.Insert(s, late, strike{7, 13, poseKick, EaseInOut})
		}, edits: []plannedEdit{{EditExtra, -1, late}}},
		{name: "two edits", change: func(s []strike) []strike {
			s[1].hold += 8
			return slices.Delete(s, late, late+1)
		}, edits: []plannedEdit{{EditLonger, 1, 1}, {EditMissing, late, -1}}},
		{name: "reordered", change: func(s []strike) []strike {
			s[early], s[early+1] = s[early+1], s[early]
			return s
		}, edits: []plannedEdit{{EditSwapped, early, early + 1}}},
		{name: "late", offset: 14, change: func(s []strike) []strike { s[0].hold += 14; return s }},
		{name: "early", offset: -7, change: func(s []strike) []strike { s[0].hold -= 7; return s }},
	}
	for _, speed := range []float64{0.8, 0.9, 1.1, 1.25} {
		plans = append(plans, pairPlan{name: fmt.Sprintf("speed %.0f %%", 100*speed), speed: speed})
	}
	return append(plans, picturePlans(early)...)
}

// picturePlans change the picture and nothing of the timing, or one hold.
func picturePlans(early int) []pairPlan {
	other := func(sh *Shot) {
		f := &sh.Figures[0]
		f.Build, f.Look, f.Left = Cartoon(230), Look{Palette: 1}, true
		sh.Backdrop = Backdrop{Style: Flat}
	}
	return []pairPlan{
		{name: "other camera", shot: func(sh *Shot) {
			sh.Camera = Camera{X: -30, Moves: []CameraMove{{From: 0, To: float64(sh.Frames - 1), DX: 60, Ease: Linear}}}
		}},
		{name: "other size", spec: func(s *Spec) { s.Width, s.Height = s.Width*3/4&^1, s.Height*3/4&^1 }},
		{name: "other rate", speed: 1, spec: func(s *Spec) { s.Rate = FPS(30) }},
		{name: "twos", shot: func(sh *Shot) { *sh = sh.on(2) }},
		{name: "other figure", shot: other},
		{name: "other figure, longer", shot: other, change: func(s []strike) []strike {
			s[early].hold = math.Round(1.5 * s[early].hold)
			return s
		}, edits: []plannedEdit{{EditLonger, early, early}}},
		{name: "grain", spec: func(s *Spec) { s.Condition.Noise, s.Seed = 2, 9 }},
	}
}

// play draws both clips of a plan and says where its edits lie.
func (p pairPlan) play(ph passage, size image.Point) (Pair, error) {
	reference := Spec{Name: ph.name, Width: size.X, Height: size.Y, Shots: []Shot{{Backdrop: Backdrop{Seed: 40}}}}
	pass := Spec{Name: ph.name + ", " + p.name, Width: size.X, Height: size.Y, Shots: []Shot{{Backdrop: Backdrop{Seed: 40}}}}
	if p.spec != nil {
		p.spec(&pass)
	}
	changed := slices.Clone(ph.strikes)
	if p.change != nil {
		changed = p.change(changed)
	}
	slower := 1.0
	if pass.Rate != (Rate{}) {
		slower = pass.Rate.Float() / 24
	}
	if p.speed != 0 {
		slower /= p.speed
	}
	before := perform(&reference.Shots[0], ph.strikes, 1)
	after := perform(&pass.Shots[0], changed, slower)
	if p.shot != nil {
		p.shot(&pass.Shots[0])
	}
	pair := Pair{Name: pass.Name, Speed: 1, Offset: p.offset}
	if p.speed != 0 {
		pair.Speed = p.speed
	}
	var err error
	if pair.Reference, err = New(reference); err != nil {
		return pair, err
	}
	if pair.Pass, err = New(pass); err != nil {
		return pair, err
	}
	for _, e := range p.edits {
		edit := Edit{Kind: e.kind}
		edit.RefStart, edit.RefEnd = pair.Reference.holdAt(before, e.ref)
		edit.PassStart, edit.PassEnd = pair.Pass.holdAt(after, e.pass)
		pair.Edits = append(pair.Edits, edit)
	}
	return pair, nil
}

// perform puts a figure that strikes poses into a shot, all times multiplied,
// and returns the middle of each hold.
func perform(sh *Shot, list []strike, slower float64) []float64 {
	f, frames := player(list, false, -1)
	var middles []float64
	for i := range f.Keys {
		k := &f.Keys[i]
		k.From, k.To = math.Round(k.From*slower), math.Round((k.To+1)*slower)-1
		middles = append(middles, (k.From+k.To)/2)
	}
	sh.Figures, sh.Frames = []Figure{f}, int(math.Round(float64(frames)*slower))
	return middles
}

// holdAt returns the true hold over the middle of a key, -1 where there is no
// such key.
func (sc *Scene) holdAt(middles []float64, k int) (start, end int) {
	if k < 0 {
		return -1, -1
	}
	for _, b := range sc.Truth().Figures[0].Beats {
		if at := int(middles[k]); b.Hold && b.Start <= at && at <= b.End {
			return b.Start, b.End
		}
	}
	return -1, -1
}
