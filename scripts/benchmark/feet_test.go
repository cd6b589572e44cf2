package main

import (
	"image"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"holdfast/motion"
	"holdfast/motion/figure"
	"holdfast/motion/scene"
	"holdfast/motion/scene/solid"
	"holdfast/sheet"
)

// asTrue is a trial of a scene whose sheet says just what is true, latest
// first.
func asTrue(set, name string, truth scene.Truth, feet *solid.Truth, size image.Point, rate float64) *trial {
	t := &trial{set: set, scene: name, variant: "clean", size: size, rate: rate, scale: 1, truth: truth, feet: feet,
		result: &motion.Result{Frames: truth.Frames}, sheet: &sheet.Sheet{}}
	for i, f := range truth.Figures {
		g := motion.Figure{ID: i + 1, Shot: f.Shot, Start: f.Start, End: f.End}
		for _, b := range f.Box {
			g.Boxes = append(g.Boxes, figure.Box{X0: int(b.X0), Y0: int(b.Y0), X1: int(math.Ceil(b.X1)), Y1: int(math.Ceil(b.Y1))})
		}
		t.result.Figures = append(t.result.Figures, g)
	}
	for i, c := range truth.Contacts {
		k := sheet.Contact{Figure: c.Figure + 1, Start: c.Start, End: c.End, X: c.X, Y: c.Y,
			SlipPx: c.SlipPx, SlipShare: c.SlipShare, State: sheet.StatePlant}
		if c.Slide || feet != nil && feet.Stands[i].SlipShare >= scene.SlideShare {
			k.State = sheet.StateSlide
		}
		if c.Seen {
			t.sheet.Contacts = append(t.sheet.Contacts, k)
		}
	}
	for _, f := range truth.Flights {
		t.sheet.Flights = append(t.sheet.Flights, sheet.Flight{Figure: f.Figure + 1, Start: f.Start, End: f.End, RisePx: f.RisePx})
	}
	for _, im := range truth.Impacts {
		k := sheet.Impact{Figure: im.Figure + 1, Frame: im.Frame}
		if !im.Last {
			k.Restitution = &im.Restitution
		}
		t.sheet.Impacts = append(t.sheet.Impacts, k)
	}
	slices.Reverse(t.sheet.Contacts)
	slices.Reverse(t.sheet.Flights)
	slices.Reverse(t.sheet.Impacts)
	return t
}

// trueTrials are such trials of both catalogues, of solid scenes where their
// recordings are.
func trueTrials(t *testing.T) (list []*trial) {
	t.Helper()
	scenes, err := scene.Catalogue(mainSize)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range scenes {
		list = append(list, asTrue(setDrawn, s.Name, s.Truth(), nil, mainSize, s.Rate.Float()))
	}
	return append(list, trueSolidTrials(t)...)
}

func trueSolidTrials(t *testing.T) (list []*trial) {
	t.Helper()
	folder := filepath.Join("..", "..", recordings)
	if _, err := os.Stat(folder); err != nil {
		t.Log("no recordings beside the repository: drawn scenes only")
		return nil
	}
	scenes, err := solid.Catalogue(mainSize, solid.Open(os.DirFS(folder)))
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range scenes {
		feet := s.Feet()
		list = append(list, asTrue(setSolid, s.Name, s.Truth(), &feet, mainSize, s.Rate.Float()))
	}
	return list
}

// A sheet that says just what is true has no fault.
func TestTrueSheetIsPerfect(t *testing.T) {
	var all Score
	for _, tr := range trueTrials(t) {
		judgeFeet(tr)
		for _, f := range tr.faults {
			t.Errorf("%s: %s: %s, found %s", tr.scene, f.Measure, f.Want, f.Got)
		}
		all.add(&tr.score)
	}
	for _, c := range []struct {
		name   string
		counts Counts
		least  int
	}{{"contacts", all.Contacts, 200}, {"slides", all.Slides, 13}, {"flights", all.Flights, 7}, {"impacts", all.Impacts, 16}} {
		if c.counts.F1() != 1 || c.counts.True < c.least {
			t.Errorf("%s: %+v", c.name, c.counts)
		}
	}
	for _, o := range []Offsets{all.Touches, all.Lifts, all.Leaves, all.Lands} {
		if len(o) < 7 || o.Within(0) != 1 {
			t.Errorf("offsets %v", o)
		}
	}
	for _, r := range []ratios{all.Slip, all.Rise, all.Bounce} {
		if len(r) < 7 || r.Within(1e-9) != 1 {
			t.Errorf("errors %v", r)
		}
	}
	// The ball scenes and the close one show no feet.
	if f := all.Footless; f.Of < 4 || f.Right != f.Of {
		t.Errorf("clips without feet: %+v", f)
	}
}

// A sheet with every seventh stand left out and everything else off by a known
// amount: the scores say by how much.
func TestSpoiltSheet(t *testing.T) {
	scenes, err := scene.Catalogue(mainSize)
	if err != nil {
		t.Fatal(err)
	}
	var all Score
	dropped := 0
	for _, s := range scenes {
		tr := asTrue(setDrawn, s.Name, s.Truth(), nil, mainSize, s.Rate.Float())
		var kept []sheet.Contact
		for i, c := range tr.sheet.Contacts {
			if i%7 == 6 {
				dropped++
				continue
			}
			c.Start, c.SlipPx = c.Start+1, c.SlipPx*1.05
			kept = append(kept, c)
		}
		tr.sheet.Contacts = kept
		for i := range tr.sheet.Flights {
			tr.sheet.Flights[i].End -= 2
			tr.sheet.Flights[i].RisePx *= 0.8
		}
		for i := range tr.sheet.Impacts {
			tr.sheet.Impacts[i].Frame += 0.25
			if r := tr.sheet.Impacts[i].Restitution; r != nil {
				off := *r - 0.02
				tr.sheet.Impacts[i].Restitution = &off
			}
		}
		judgeFeet(tr)
		all.add(&tr.score)
	}
	n := all.Contacts.True
	if dropped < 15 || all.Contacts != (Counts{n, n - dropped, n - dropped}) {
		t.Errorf("%d dropped: %+v", dropped, all.Contacts)
	}
	if all.Touches.Median() != 1 || all.Lifts.Within(0) != 1 || both(all.Touches, all.Lifts).Within(0) >= 0.6 {
		t.Errorf("starts %v, ends %v", all.Touches, all.Lifts)
	}
	if m := median(all.Slip); !near(m, 0.05, 1e-9) || all.Slides.missed() == 0 || all.Slides.extra() > 0 {
		t.Errorf("slides %+v, slips off by %g", all.Slides, m)
	}
	if all.Flights.F1() != 1 || all.Lands.Median() != -2 || both(all.Leaves, all.Lands).Within(1) != 0.5 {
		t.Errorf("flights %+v, %v, %v", all.Flights, all.Leaves, all.Lands)
	}
	if m := median(all.Rise); !near(m, 0.2, 1e-9) || all.Rise.Within(riseWithin) != 0 {
		t.Errorf("rises off by %v", all.Rise)
	}
	if m := median(all.Bounce); all.Impacts.F1() != 1 || !near(m, 0.02, 1e-9) || all.Bounces.Value() != 1 {
		t.Errorf("impacts %+v, bounces off by %v", all.Impacts, all.Bounce)
	}
}

// judgeFeet pairs and judges what has to do with feet alone.
func judgeFeet(t *trial) {
	t.pairFigures()
	t.pairStands()
	for _, judge := range []func(*trial){judgeContacts, judgeSlides, judgeFlights, judgeImpacts, judgeFootless} {
		judge(t)
	}
}

// named returns the true trial of a drawn scene.
func named(t *testing.T, name string) *trial {
	t.Helper()
	scenes, err := scene.Catalogue(mainSize)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range scenes {
		if s.Name == name {
			return asTrue(setDrawn, s.Name, s.Truth(), nil, mainSize, s.Rate.Float())
		}
	}
	t.Fatalf("no scene %s", name)
	return nil
}

func measures(t *trial) string {
	var list []string
	for _, f := range t.faults {
		list = append(list, f.Measure)
	}
	slices.Sort(list)
	return strings.Join(list, " ")
}

// The walk has 13 stands, one of them first in the sheet because it is last in
// the clip: the far foot's, from 138 on.
func TestJudgeContacts(t *testing.T) {
	tests := []struct {
		name   string
		spoil  func(*sheet.Sheet)
		want   Counts
		faults string
		starts Offsets // those that are not 0
		ends   Offsets
	}{
		{"one missed", func(s *sheet.Sheet) { s.Contacts = s.Contacts[1:] }, Counts{13, 12, 12}, "contact", nil, nil},
		{"one made up", func(s *sheet.Sheet) {
			s.Contacts = append(s.Contacts, sheet.Contact{Figure: 1, Start: 60, End: 64, X: 300, Y: 280})
		}, Counts{13, 14, 13}, "contact", nil, nil},
		{"one twice", func(s *sheet.Sheet) { s.Contacts = append(s.Contacts, s.Contacts[3]) }, Counts{13, 14, 13}, "contact", nil, nil},
		{"late by one", func(s *sheet.Sheet) { s.Contacts[1].Start++ }, Counts{13, 13, 13}, "", Offsets{1}, nil},
		{"early by two", func(s *sheet.Sheet) { s.Contacts[1].End -= 2 }, Counts{13, 13, 13}, "contact", nil, Offsets{-2}},
		// 15 frames of which 7 are left.
		{"less than half", func(s *sheet.Sheet) { s.Contacts[1].End -= 8 }, Counts{13, 13, 12}, "contact contact", nil, nil},
		{"beside the foot", func(s *sheet.Sheet) { s.Contacts[1].X += 0.16 * 150 }, Counts{13, 13, 12}, "contact contact", nil, nil},
		{"at the foot's tip", func(s *sheet.Sheet) { s.Contacts[1].X += 0.14 * 150 }, Counts{13, 13, 13}, "", nil, nil},
		{"a figure that was not paired", func(s *sheet.Sheet) { s.Contacts[1].Figure = 7 }, Counts{13, 13, 13}, "", nil, nil},
		// The shot gives the last edge away, but not when it is missed.
		{"the shot's end missed", func(s *sheet.Sheet) { s.Contacts[0].End-- }, Counts{13, 13, 13}, "", nil, Offsets{-1}},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			tr := named(t, "walk")
			c.spoil(tr.sheet)
			judgeFeet(tr)
			if tr.score.Contacts != c.want || measures(tr) != c.faults {
				t.Errorf("got %+v, faults %v", tr.score.Contacts, tr.faults)
			}
			if a, b := off(tr.score.Touches), off(tr.score.Lifts); !slices.Equal(a, c.starts) || !slices.Equal(b, c.ends) {
				t.Errorf("starts %v, ends %v", a, b)
			}
		})
	}
}

// off returns the offsets that are not 0.
func off(o Offsets) (list Offsets) {
	for _, d := range o {
		if d != 0 {
			list = append(list, d)
		}
	}
	return list
}

// Of two feet side by side, with equal times but for the ends, each is taken
// for itself.
func TestFeetSideBySide(t *testing.T) {
	tr := named(t, "walk")
	// Both within reach of both.
	if d := math.Abs(tr.truth.Contacts[0].X-tr.truth.Contacts[7].X) / 150; d > spotReach {
		t.Fatalf("the feet stand %.2f heights apart", d)
	}
	judgeFeet(tr)
	if len(tr.faults) > 0 {
		t.Errorf("faults %v", tr.faults)
	}
}

// A contact that the sheet gives to the other of two known figures is wrong.
func TestContactOfAnotherFigure(t *testing.T) {
	tr := named(t, "two-passing")
	tr.sheet.Contacts[3].Figure = 3 - tr.sheet.Contacts[3].Figure
	judgeFeet(tr)
	if n := len(tr.truth.Contacts); tr.score.Contacts != (Counts{n, n, n - 1}) {
		t.Errorf("got %+v of %d", tr.score.Contacts, n)
	}
}

// The slide has 11 stands, of which 6 slide by 10.2 pixels, 0.068 heights.
func TestJudgeSlides(t *testing.T) {
	slides := func(s *sheet.Sheet) (list []*sheet.Contact) {
		for i := range s.Contacts {
			if s.Contacts[i].State == sheet.StateSlide {
				list = append(list, &s.Contacts[i])
			}
		}
		return list
	}
	tests := []struct {
		name   string
		spoil  func(*trial)
		want   Counts
		faults string
		within float64
	}{
		{"called a plant", func(t *trial) { slides(t.sheet)[2].State = sheet.StatePlant }, Counts{6, 5, 5}, "slide", 1},
		{"a plant called a slide", func(t *trial) { t.sheet.Contacts[0].State = sheet.StateSlide }, Counts{6, 7, 6}, "slide", 1},
		{"not found at all", func(t *trial) { slides(t.sheet)[0].X += 99 }, Counts{6, 6, 5}, "contact contact slide slide", 1},
		{"9 % more", func(t *trial) { slides(t.sheet)[0].SlipPx *= 1.09 }, Counts{6, 6, 6}, "", 1},
		{"11 % more", func(t *trial) { slides(t.sheet)[0].SlipPx *= 1.11 }, Counts{6, 6, 6}, "slip", 5.0 / 6},
		{"the other way", func(t *trial) { slides(t.sheet)[0].SlipPx *= -1 }, Counts{6, 6, 6}, "slip", 5.0 / 6},
		// Between 2 and 4 % both words are right.
		{"3 % called a slide", func(t *trial) {
			t.truth.Contacts[0].SlipShare = 0.03
			t.sheet.Contacts[len(t.sheet.Contacts)-1].State = sheet.StateSlide
		}, Counts{6, 6, 6}, "", 1},
		{"3 % called a plant", func(t *trial) { t.truth.Contacts[0].SlipShare = 0.03 }, Counts{6, 6, 6}, "", 1},
		{"1.9 % called a slide", func(t *trial) {
			t.truth.Contacts[0].SlipShare = 0.019
			t.sheet.Contacts[len(t.sheet.Contacts)-1].State = sheet.StateSlide
		}, Counts{6, 7, 6}, "slide", 1},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			tr := named(t, "slide")
			tr.truth.Contacts = slices.Clone(tr.truth.Contacts)
			c.spoil(tr)
			judgeFeet(tr)
			if tr.score.Slides != c.want || measures(tr) != c.faults || !near(tr.score.Slip.Within(slipWithin), c.within, 1e-9) {
				t.Errorf("got %+v, slips %v, faults %v", tr.score.Slides, tr.score.Slip, tr.faults)
			}
		})
	}
}

// The hops fly on 37-43, 75-83 and 115-126; the sheet lists the last one first.
func TestJudgeFlights(t *testing.T) {
	tests := []struct {
		name   string
		spoil  func(*sheet.Sheet)
		want   Counts
		edges  float64 // within ±1
		faults string
	}{
		{"missed", func(s *sheet.Sheet) { s.Flights = s.Flights[1:] }, Counts{3, 2, 2}, 1, "flight"},
		{"late by one", func(s *sheet.Sheet) { s.Flights[0].Start++ }, Counts{3, 3, 3}, 1, ""},
		{"late by two", func(s *sheet.Sheet) { s.Flights[0].Start += 2 }, Counts{3, 3, 3}, 5.0 / 6, "flight"},
		{"while it stands", func(s *sheet.Sheet) {
			s.Flights = append(s.Flights, sheet.Flight{Figure: 1, Start: 50, End: 60})
		}, Counts{3, 4, 3}, 1, "flight"},
		{"in two pieces", func(s *sheet.Sheet) {
			s.Flights[0].End = 122
			s.Flights = append(s.Flights, sheet.Flight{Figure: 1, Start: 124, End: 126})
		}, Counts{3, 4, 3}, 5.0 / 6, "flight flight"},
		{"too high", func(s *sheet.Sheet) { s.Flights[1].RisePx *= 1.2 }, Counts{3, 3, 3}, 1, "flight"},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			tr := named(t, "hops")
			c.spoil(tr.sheet)
			judgeFeet(tr)
			got := both(tr.score.Leaves, tr.score.Lands).Within(1)
			if tr.score.Flights != c.want || !near(got, c.edges, 1e-9) || measures(tr) != c.faults {
				t.Errorf("got %+v, edges %g, faults %v", tr.score.Flights, got, tr.faults)
			}
		})
	}
}

// A ball's way between two impacts is a flight that the truth does not list,
// its rest a contact; neither counts.
func TestJudgeBall(t *testing.T) {
	tr := named(t, "ball-drop")
	tr.sheet.Flights = []sheet.Flight{{Figure: 1, Start: 24, End: 44}}
	tr.sheet.Contacts = []sheet.Contact{{Figure: 1, Start: 86, End: 143, State: sheet.StatePlant}}
	n := len(tr.sheet.Impacts)
	tr.sheet.Impacts[0].Frame += 0.45 // the last
	tr.sheet.Impacts[1].Frame -= 0.55
	off := *tr.sheet.Impacts[2].Restitution + 0.05
	tr.sheet.Impacts[2].Restitution = &off
	tr.sheet.Impacts[3].Restitution = nil
	judgeFeet(tr)
	if s := tr.score; s.Impacts != (Counts{n, n, n - 1}) || s.Bounces != (Share{n - 4, n - 2}) || s.Flights.Found+s.Contacts.Found != 0 || s.Footless != (Share{1, 1}) {
		t.Errorf("got %+v", s)
	}
	if got := measures(tr); got != "bounce bounce impact impact" {
		t.Errorf("faults %s", got)
	}
}

// Clips without feet: a contact of a ball in the air, of a figure cut off at
// its knees, or a note about feet.
func TestJudgeFootless(t *testing.T) {
	for name, spoil := range map[string]func(*trial){
		"ball-drop":    func(t *trial) { t.sheet.Contacts = []sheet.Contact{{Figure: 1, Start: 10, End: 20}} },
		"ball-across":  func(t *trial) { t.sheet.Flights = []sheet.Flight{{Figure: 1, Start: 24, End: 60}} },
		"acting-close": func(t *trial) { t.sheet.Notes = []sheet.Note{{Kind: "rooted-feet"}} },
	} {
		tr := named(t, name)
		spoil(tr)
		judgeFeet(tr)
		if tr.score.Footless != (Share{0, 1}) || !strings.Contains(measures(tr), "no feet") {
			t.Errorf("%s: %+v, faults %v", name, tr.score.Footless, tr.faults)
		}
	}
	tr := named(t, "walk")
	judgeFeet(tr)
	if tr.score.Footless.Of != 0 {
		t.Error("a walk shows no feet")
	}
}

// Where the other foot hides a standing one, a sheet may tell of one or of both.
func TestTwins(t *testing.T) {
	for drop, want := range []Counts{{13, 13, 13}, {12, 12, 12}, {13, 11, 11}} {
		tr := named(t, "walk")
		tr.truth.Contacts = slices.Clone(tr.truth.Contacts)
		a, b := &tr.truth.Contacts[0], &tr.truth.Contacts[7]
		b.X, b.Y, b.Path = a.X+0.05*150, a.Y, slices.Repeat([]scene.Point{{X: a.X + 0.05*150, Y: a.Y}}, len(b.Path))
		tr.sheet.Contacts = slices.DeleteFunc(tr.sheet.Contacts, func(c sheet.Contact) bool {
			return c.Start == 0 && (drop == 1 && c.End == a.End || drop == 2)
		})
		judgeFeet(tr)
		if tr.score.Contacts != want {
			t.Errorf("%d not found: %+v, want %+v", drop, tr.score.Contacts, want)
		}
	}
}

// A knee on the ground may be told of or not.
func TestKnee(t *testing.T) {
	tr := named(t, "walk")
	knee := solid.Rest{Start: 30, End: 40, Path: slices.Repeat([]scene.Point{{X: 300, Y: 280}}, 11)}
	tr.feet = &solid.Truth{Rests: []solid.Rest{knee}, Stands: make([]solid.Stand, len(tr.truth.Contacts))}
	tr.sheet.Contacts = append(tr.sheet.Contacts, sheet.Contact{Figure: 1, Start: 31, End: 44, X: 310, Y: 285})
	judgeFeet(tr)
	if tr.score.Contacts != (Counts{13, 13, 13}) {
		t.Errorf("got %+v", tr.score.Contacts)
	}
	tr.sheet.Contacts[13].Start, tr.sheet.Contacts[13].End, tr.score = 60, 70, Score{}
	judgeFeet(tr)
	if tr.score.Contacts != (Counts{13, 14, 13}) {
		t.Errorf("after it: %+v", tr.score.Contacts)
	}
}

// Feet that the picture cuts off, wholly or in part, count neither way, but
// what is made up while they are seen does.
func TestFeetOutOfFrame(t *testing.T) {
	tr := named(t, "walk-feet-out-of-frame")
	if i := slices.IndexFunc(tr.truth.Contacts, func(c scene.Contact) bool { return c.Seen }); i >= 0 {
		t.Fatalf("contact %d is seen", i)
	}
	c := tr.truth.Contacts[0]
	tr.sheet.Contacts = []sheet.Contact{{Figure: 1, Start: c.Start, End: c.End, X: c.X, Y: c.Y},
		{Figure: 1, Start: c.Start + 1, End: c.Start + 4, X: c.X, Y: c.Y}}
	judgeFeet(tr)
	if tr.score.Contacts != (Counts{}) {
		t.Errorf("got %+v", tr.score.Contacts)
	}
	tr.sheet.Contacts[1].Y -= 200
	tr.score = Score{}
	judgeFeet(tr)
	if tr.score.Contacts != (Counts{0, 1, 0}) {
		t.Errorf("got %+v", tr.score.Contacts)
	}
}

// Walks over force plates as their plates have them, by the table beside the
// recordings: 13 of 16 instants of the two lie within them, and a stride of
// each foot.
func TestJudgePlates(t *testing.T) {
	checked := 0
	for _, tr := range trueSolidTrials(t) {
		if tr.scene != "solid-plates-1" && tr.scene != "solid-plates-2" {
			continue
		}
		checked++
		judgeFeet(tr)
		judgePlates(tr)
		p := &tr.score.Plates
		if events := len(p.Starts) + len(p.Ends); events != map[string]int{"solid-plates-1": 7, "solid-plates-2": 6}[tr.scene] {
			t.Errorf("%s: %d instants", tr.scene, events)
		}
		if both(p.Starts, p.Ends).Within(0) != 1 || len(p.True) != 2 {
			t.Errorf("%s: %+v", tr.scene, p)
		}
		// Within half a frame of 24, by the rounding to frames.
		for _, ms := range [][]float64{p.StartMS, p.EndMS} {
			for _, v := range ms {
				if math.Abs(v) > 500.0/24+1e-6 {
					t.Errorf("%s: off by %.0f ms", tr.scene, v)
				}
			}
		}
		// By hand: (1.4022-0.7622)/(1.8600-0.7622) and the like.
		want := map[string][]float64{"solid-plates-1": {0.587, 0.583}, "solid-plates-2": {0.599, 0.607}}[tr.scene]
		for i, v := range p.True {
			if !near(v, want[i], 1e-3) || !near(p.Stance[i], want[i], 0.06) {
				t.Errorf("%s: stances %v by plates, %v found", tr.scene, p.True, p.Stance)
			}
		}
		// Each contact a frame late.
		for i := range tr.sheet.Contacts {
			tr.sheet.Contacts[i].Start++
		}
		tr.score = Score{}
		judgePlates(tr)
		if m := tr.score.Plates.Starts.Median(); m != 1 {
			t.Errorf("%s: a frame late is %g", tr.scene, m)
		}
	}
	if checked != 0 && checked != 2 {
		t.Errorf("%d walks", checked)
	}
}
