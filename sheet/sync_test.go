package sheet

import (
	"bytes"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// speaking has words from start to end, a syllable every five frames.
func (s *Sheet) speaking(start, end int) *Sheet {
	s.listen().AddSpeech(start, end)
	for n := start; n <= end-2; n += 5 {
		s.accent(n, -6, true)
	}
	return s
}

// listen gives a sheet a silent sound, if it has none.
func (s *Sheet) listen() *Sound {
	if s.Sound == nil {
		s.Sound = &Sound{Source: SoundOfClip, Levels: make([]float64, s.Clip.Frames)}
	}
	return s.Sound
}

func (s *Sheet) accent(frame int, level float64, spoken bool) {
	s.blow(float64(frame-s.Clip.FirstFrame)/s.Clip.FPS.Float()+0.01, level, spoken)
}

func (s *Sheet) blow(seconds, level float64, spoken bool) {
	d := s.listen()
	a := Accent{
		Frame: s.Clip.FirstFrame + int(seconds*s.Clip.FPS.Float()), Seconds: seconds, Level: level, Rise: 20, Spoken: spoken,
	}
	d.Accents = append(d.Accents, a)
}

// stressing adds stressed syllables some frames before each move's peak.
func (s *Sheet) stressing(before ...int) *Sheet {
	k := 0
	s.listen().AddSpeech(1, s.Clip.Frames)
	for _, b := range s.Beats {
		if b.Kind == KindMove && k < len(before) {
			s.accent(*b.Peak-before[k], 0, true)
			k++
		}
	}
	return s
}

// landing has a ball land on some frames, and blows so many seconds later.
func landing(late float64, frames ...float64) *Sheet {
	s := ground(film, 240)
	for _, n := range frames {
		s.Impacts = append(s.Impacts, Impact{Shot: 1, Figure: 1, Frame: n})
		s.blow((n-1)/24+late, 0, false)
	}
	return s
}

var bounces = []float64{20, 51.3, 78.6, 99.9}

func TestSyncNotes(t *testing.T) {
	gestures := func() *Sheet { return acted(film, varied(alive)...) }
	paused := func(parts ...part) *Sheet { return acted(film, parts...).speaking(1, 40).speaking(61, 99) }
	for name, c := range map[string]struct {
		s     *Sheet
		kinds []string // of the notes about sync
	}{
		"gestures four frames late":        {gestures().stressing(4, 4, 5, 3), []string{"late-gestures"}},
		"gestures that lead":               {gestures().stressing(-2, -3, -1, -4), nil},
		"gestures two frames late":         {gestures().stressing(2, 2, 2, 2), nil},
		"gestures anywhere":                {gestures().stressing(9, -8, 3, 8), nil},
		"three late gestures":              {gestures().stressing(4, 4, 4), nil},
		"pause without a hold":             {paused(part{20, alive}, part{79, 1}), []string{"pause-without-hold"}},
		"pause that a hold meets":          {paused(part{40, 1}, part{12, alive}, part{47, 1}), nil},
		"pause of somebody told by motion": {paused(part{20, alive}, part{79, 1}).byMotion(), nil},
		"frozen over words":                {paused(part{60, alive}, part{26, frozen}, part{13, 1}), []string{"frozen-over-words"}},
		"frozen for a few words":           {paused(part{60, alive}, part{20, frozen}, part{19, 1}), nil},
		"frozen in the pause":              {paused(part{42, alive}, part{16, frozen}, part{41, 1}), nil},
		"frozen throughout":                {paused(part{30, frozen}, part{6, 1}, part{63, frozen}), nil},
		"sound in step":                    {landing(0.01, bounces...), nil},
		"sound late, unnoticed":            {landing(0.12, bounces...), nil},
		"sound late":                       {landing(0.15, bounces...), []string{"sound-offset"}},
		"sound early":                      {landing(-0.06, bounces...), []string{"sound-offset"}},
		"two bounces":                      {landing(0.2, bounces[:2]...), nil},
		"a drum beside a ball":             {landing(0.2, 20, 26, 32, 38, 44, 50, 56), nil},
	} {
		var kinds []string
		for _, n := range c.s.review(t).Notes {
			switch n.Kind {
			case "late-gestures", "pause-without-hold", "frozen-over-words", "sound-offset":
				kinds = append(kinds, n.Kind)
			}
		}
		if len(kinds) != len(c.kinds) || len(kinds) > 0 && kinds[0] != c.kinds[0] {
			t.Errorf("%s: notes %v, not %v", name, kinds, c.kinds)
		}
	}
}

// Weights go by what ITU-R BT.1359 finds noticed and tolerated.
func TestSoundOffsetWeighs(t *testing.T) {
	for offset, want := range map[float64]string{0.15: WeightLook, 0.2: WeightFix, -0.06: WeightLook, -0.1: WeightFix} {
		s := landing(offset, bounces...).review(t)
		m := s.Sound.Meeting
		if m == nil || m.Met != 4 || m.Landed != 4 || m.Offset != offset {
			t.Fatalf("%g s: %+v", offset, m)
		}
		for _, n := range s.Notes {
			if n.Kind == "sound-offset" && n.Weight != want {
				t.Errorf("%g s: %s", offset, n.Weight)
			}
		}
	}
}

// Blows that have nothing to do with the picture hardly ever fit it.
func TestChanceIsNoMeeting(t *testing.T) {
	random, met := rand.New(rand.NewPCG(3, 4)), 0
	for range 200 {
		s := ground(film, 240)
		for range 5 {
			s.Impacts = append(s.Impacts, Impact{Shot: 1, Figure: 1, Frame: 1 + 239*random.Float64()})
		}
		for range 5 {
			s.blow(10*random.Float64(), 0, false)
		}
		if s.meeting() != nil {
			met++
		}
	}
	if met > 2 {
		t.Errorf("%d of 200 met by chance", met)
	}
}

func TestTableSaysWhereMovesPeak(t *testing.T) {
	s := acted(film, varied(alive)...).stressing(4, 0, -2, 1)
	var b bytes.Buffer
	if err := s.review(t).WriteTable(&b, 0); err != nil {
		t.Fatal(err)
	}
	if want := "Moves peak at stressed syllables: 21 (4 after), 46 (with it), 83 (2 before), 99 (1 after)\n"; !strings.Contains(b.String(), want) {
		t.Errorf("no %q in\n%s", want, b.String())
	}
}

func TestLongListsAreCut(t *testing.T) {
	d := &Sound{}
	for i := range 40 {
		d.AddSpeech(10*i, 10*i+5)
	}
	if got := stretchWords(d.Speech); !strings.HasSuffix(got, "230–235 and 16 more") {
		t.Error(got)
	}
}

// Words that have nothing to do with the moves hardly ever make gestures late.
func TestChanceMakesNoGestureLate(t *testing.T) {
	random, late := rand.New(rand.NewPCG(5, 6)), 0
	for i := range 300 {
		parts := varied(alive)
		if i%2 == 0 {
			parts = slices.Concat(parts, parts)
		}
		s := acted(film, parts...)
		for n := 3 + random.IntN(12); n < s.Clip.Frames; n += 12 + random.IntN(9) {
			s.accent(n, 0, true)
		}
		for _, n := range s.review(t).Notes {
			if n.Kind == "late-gestures" {
				late++
			}
		}
	}
	if late > 6 {
		t.Errorf("%d of 300 late by chance", late)
	}
}

// Hours of drumming take no time to think about.
func TestManyBlows(t *testing.T) {
	s := ground(film, 240)
	random := rand.New(rand.NewPCG(8, 9))
	s.Clip.Frames = 2 * 60 * 60 * 24
	for k := range 5000 {
		s.Impacts = append(s.Impacts, Impact{Shot: 1, Figure: 1, Frame: 1 + 30*float64(k) + 20*random.Float64()})
		s.blow(1.25*float64(k), 0, false)
		s.blow(1.25*float64(k)+0.6, 0, false)
	}
	if m := s.meeting(); m != nil {
		t.Errorf("found %+v", *m)
	}
}

func TestLeadsOfAccents(t *testing.T) {
	s := acted(film, part{20, alive}, part{10, 1}, part{30, alive}, part{10, 0.5}, part{20, alive})
	s.accent(20, 0, true)
	s.accent(29, -3, true)
	s.accent(30, -4, true)
	s.accent(80, 0, true)
	s.listen().AddSpeech(18, 82)
	s.review(t)
	for i, want := range []struct {
		beat, lead int
		stressed   bool
	}{{2, -6, true}, {2, 3, false}, {2, 4, false}, {4, 14, true}} {
		a := s.Sound.Accents[i]
		if a.Beat != want.beat || a.Lead == nil || *a.Lead != want.lead || a.Stressed != want.stressed {
			t.Errorf("accent on %d: beat %d, lead %v, stressed %v; want %+v", a.Frame, a.Beat, *a.Lead, a.Stressed, want)
		}
	}
}
