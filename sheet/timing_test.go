package sheet

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// The values are those of the measure's authors (Grabe and Low 2002).
func TestPairwiseVariability(t *testing.T) {
	for _, c := range []struct {
		lengths []float64
		want    float64
	}{
		{[]float64{3, 1, 3, 1, 3, 1, 3}, 100}, {[]float64{30, 10, 30, 10}, 100},
		{[]float64{7, 7, 7}, 0}, {[]float64{7}, 0}, {nil, 0}, {[]float64{0, 0}, 0},
	} {
		if got := pairwiseVariability(c.lengths); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v: %g, want %g", c.lengths, got, c.want)
		}
	}
}

// A part is a beat of so many frames: a move of a size, or a hold.
type part struct {
	frames int
	size   float64 // of a move; frozen or alive for a hold
}

const frozen, alive = 0, -1

// acted is a clip of one figure that does what the parts say.
func acted(rate Rate, parts ...part) *Sheet {
	frames := 0
	for _, p := range parts {
		frames += p.frames
	}
	s := ground(rate, frames)
	s.Beats = nil
	at := 1
	for _, p := range parts {
		end := at + p.frames - 1
		switch p.size {
		case frozen:
			s.Beats = append(s.Beats, NewHold(1, 0, at, end, HoldFrozen))
		case alive:
			s.Beats = append(s.Beats, NewHold(1, 0, at, end, HoldMoving))
		default:
			smooth := -1.5
			b := NewMove(1, 0, at, end, at+p.frames/2, p.size)
			b.Texture = &Texture{Smoothness: &smooth}
			s.Beats = append(s.Beats, b)
		}
		at = end + 1
	}
	return s
}

// stall has a beat, counted from 0, hitch between two of the clip's frames.
func (s *Sheet) stall(beat, start, end int, depth float64) *Sheet {
	b := &s.Beats[beat]
	b.Texture.Hitches = append(b.Texture.Hitches, Hitch{start, end, depth})
	return s
}

func (s *Sheet) popping(p Pop) *Sheet {
	p.Shot = 1
	s.Pops = append(s.Pops, p)
	return s
}

// byMotion has the clip's figure told from its background by its motion alone.
func (s *Sheet) byMotion() *Sheet {
	s.Figures[0].Method = ByMotion
	return s
}

func (s *Sheet) stepping(start, end int) *Sheet {
	s.Exposure = append(s.Exposure, Exposure{Shot: 1, Start: start, End: end, Pattern: PatternStepped, FramesPerDrawing: 20})
	return s
}

func (s *Sheet) grainy(levels float64) *Sheet {
	s.Settings[grainSetting] = levels
	return s
}

// bouncing has the clip's figure be a ball.
func (s *Sheet) bouncing() *Sheet {
	s.Impacts = append(s.Impacts, Impact{Shot: 1, Figure: 1, Frame: 2})
	return s
}

// varied is a clip of uneven beats, big and little.
func varied(holds float64) []part {
	return []part{{20, holds}, {8, 0.5}, {14, holds}, {6, 0.2}, {26, holds}, {12, 1}, {11, holds}, {5, 0.4}, {30, holds}}
}

// even is a clip whose moves set in so many frames apart, some given more or less.
func even(n int, more ...int) []part {
	parts := []part{{20, frozen}}
	for i, size := range []float64{0.3, 1, 0.5, 0.8, 0.2, 0.6} {
		extra := 0
		if i < len(more) {
			extra = more[i]
		}
		parts = append(parts, part{6, size}, part{n - 6 + extra, frozen})
	}
	return parts
}

func sized(sizes ...float64) []part {
	parts := []part{{20, frozen}}
	for i, size := range sizes {
		parts = append(parts, part{6, size}, part{10 + 7*(i%3), frozen})
	}
	return parts
}

func TestTimingNotes(t *testing.T) {
	long := func(frames int, end ...part) []part { return append([]part{{20, alive}, {frames, 1}}, end...) }
	with := func(parts []part, more ...part) []part { return append(slices.Clone(parts), more...) }
	jump := Pop{Start: 70, End: 70, Jump: 0.05, Around: 0.002, Left: 0.1}
	changed := func(change func(*Pop)) Pop {
		p := jump
		change(&p)
		return p
	}
	for name, c := range map[string]struct {
		sheet *Sheet
		kinds []string
		weigh string // of the first note
		says  string // in its text
	}{
		"calm":        {acted(film, varied(frozen)...), nil, "", ""},
		"calm, alive": {acted(film, varied(alive)...), nil, "", ""},
		"one hold":    {acted(film, part{40, frozen}), nil, "", ""},
		"one move":    {acted(film, part{40, 1}), nil, "", ""},

		"even":            {acted(film, even(20)...), []string{"even-timing"}, WeightLook, "6 moves set in about 20 frames apart, 0 % either way"},
		"even by a frame": {acted(film, even(20, 1, -1, 0, 1)...), []string{"even-timing"}, WeightLook, "vary how long poses are held"},
		"uneven":          {acted(film, even(20, 3, -3, 4, -2)...), nil, "", ""},
		"even of four":    {acted(film, even(20)[:9]...), nil, "", ""},

		"same size":      {acted(film, sized(0.9, 1, 0.95, 1, 0.9)...), []string{"same-size-moves"}, WeightLook, "5 moves are all of one size, 5 % either way"},
		"of two sizes":   {acted(film, sized(0.9, 0.5, 0.95, 1, 0.9)...), nil, "", ""},
		"four same size": {acted(film, sized(0.9, 1, 0.95, 1)...), nil, "", ""},

		"too short":            {acted(film, with(varied(frozen), part{8, 1}, part{5, frozen}, part{6, 0.3}, part{20, frozen})...), []string{"hold-too-short"}, WeightLook, "the pose is up for 5 frames only"},
		"long enough":          {acted(film, with(varied(frozen), part{8, 1}, part{6, frozen}, part{6, 0.3}, part{20, frozen})...), nil, "", ""},
		"short by a small one": {acted(film, with(varied(frozen), part{8, 1}, part{5, frozen}, part{6, 0.05}, part{20, frozen})...), nil, "", ""},
		"short at the end":     {acted(film, with(varied(frozen), part{8, 1}, part{4, frozen})...), nil, "", ""},
		"two too short": {acted(film, with(varied(frozen), part{8, 1}, part{5, frozen}, part{6, 0.3}, part{20, frozen}, part{9, 1}, part{4, frozen}, part{6, 0.3}, part{20, frozen})...),
			[]string{"hold-too-short"}, WeightLook, "2 poses are up too short to read: 141–145, 181–184"},
		"too short at 60": {acted(Rate{60, 1}, part{50, frozen}, part{20, 1}, part{14, frozen}, part{15, 0.4}, part{40, frozen}), []string{"hold-too-short"}, WeightLook, "give it 15 frames"},

		"7 are told of at 29.97": {acted(Rate{30000, 1001}, part{50, frozen}, part{20, 1}, part{6, frozen}, part{15, 0.4}, part{40, frozen}), []string{"hold-too-short"}, WeightLook, "give it 7 frames"},
		"and 7 are enough":       {acted(Rate{30000, 1001}, part{50, frozen}, part{20, 1}, part{7, frozen}, part{15, 0.4}, part{40, frozen}), nil, "", ""},

		"frozen for 2 s":         {acted(film, with(varied(frozen), part{8, 1}, part{48, frozen})...), []string{"dead-hold"}, WeightLook, "dead for 2.0 s"},
		"not quite":              {acted(film, with(varied(frozen), part{8, 1}, part{47, frozen})...), nil, "", ""},
		"frozen for 4 s":         {acted(film, with(varied(frozen), part{8, 1}, part{96, frozen})...), []string{"dead-hold"}, WeightFix, "dead for 4.0 s"},
		"frozen among the alive": {acted(film, with(varied(alive), part{8, 1}, part{36, frozen})...), []string{"dead-hold"}, WeightLook, "dead for 1.5 s"},
		"and for long":           {acted(film, with(varied(alive), part{8, 1}, part{72, frozen})...), []string{"dead-hold"}, WeightFix, ""},
		"alive for long":         {acted(film, with(varied(alive), part{8, 1}, part{96, alive})...), nil, "", ""},
		"one breath elsewhere":   {acted(film, part{12, alive}, part{8, 1}, part{30, frozen}), nil, "", ""},
		"a still card":           {acted(film, with(varied(frozen), part{8, 1}, part{96, frozen})...).byMotion(), nil, "", ""},
		"a ball at rest":         {acted(film, with(varied(frozen), part{8, 1}, part{96, frozen})...).bouncing(), nil, "", ""},
		"in grain":               {acted(film, with(varied(frozen), part{8, 1}, part{96, frozen})...).grainy(1.2), nil, "", ""},
		"in a little grain":      {acted(film, with(varied(frozen), part{8, 1}, part{96, frozen})...).grainy(0.8), []string{"dead-hold"}, WeightFix, ""},
		"a blocking pass":        {acted(film, with(varied(frozen), part{8, 1}, part{96, frozen})...).stepping(100, 200), nil, "", ""},

		"no hold for 4 s":    {acted(film, long(96)...), []string{"long-without-hold"}, WeightLook, "no pose is held for 4.0 s"},
		"holds after":        {acted(film, long(95)...), nil, "", ""},
		"no hold, walks":     {acted(film, long(130)...).walk(30, 0, 12, 12, 12, 12, 12, 12), nil, "", ""},
		"no hold, bounces":   {acted(film, long(130)...).bouncing(), nil, "", ""},
		"no hold, a crowd":   {acted(film, long(130)...).byMotion(), nil, "", ""},
		"no hold, two steps": {acted(film, long(130)...).walk(30, 0, 12, 12), []string{"long-without-hold"}, WeightLook, ""},
		"no hold, no feet":   {acted(film, long(130)...).feetless(30, 60), nil, "", ""},

		"pop":              {acted(film, varied(frozen)...).popping(jump), []string{"pop"}, WeightFix, "one frame pops: something jumps by 5 % of the figure's height and is back at once"},
		"pop of two":       {acted(film, varied(frozen)...).popping(changed(func(p *Pop) { p.End++ })), []string{"pop"}, WeightFix, "2 frames pop"},
		"pop at 12":        {acted(Rate{12, 1}, varied(alive)...).popping(jump), []string{"pop"}, WeightFix, ""},
		"two at 23.976":    {acted(Rate{24000, 1001}, varied(frozen)...).popping(changed(func(p *Pop) { p.End++ })), []string{"pop"}, WeightFix, "2 frames pop"},
		"two frames at 12": {acted(Rate{12, 1}, varied(alive)...).popping(changed(func(p *Pop) { p.End++ })), nil, "", ""},
		"small jump":       {acted(film, varied(frozen)...).popping(changed(func(p *Pop) { p.Jump = 0.019 })), nil, "", ""},
		"lively around":    {acted(film, varied(frozen)...).popping(changed(func(p *Pop) { p.Around = 0.02 })), nil, "", ""},
		"half back":        {acted(film, varied(frozen)...).popping(changed(func(p *Pop) { p.Left = 0.6 })), nil, "", ""},

		"hitch":           {acted(film, varied(frozen)...).stall(5, 80, 80, 0.96), []string{"hitch"}, WeightLook, "the move 75–86 hitches in full swing: for 1 frame it stands still"},
		"slows":           {acted(film, varied(frozen)...).stall(5, 80, 81, 0.62), []string{"hitch"}, WeightLook, "for 2 frames it is 62 % slower than on both sides"},
		"hardly":          {acted(film, varied(frozen)...).stall(5, 80, 81, 0.49), nil, "", ""},
		"hitches twice":   {acted(film, varied(frozen)...).stall(5, 78, 78, 0.6).stall(5, 82, 82, 0.7), []string{"hitch"}, WeightLook, "hitches twice in full swing: for 1 frame it is 70 %"},
		"hitch of a ball": {acted(film, varied(frozen)...).stall(5, 80, 80, 0.96).bouncing(), nil, "", ""},
		"balls in step":   {acted(film, even(20)...).bouncing(), nil, "", ""},
		"balls alike":     {acted(film, sized(0.9, 1, 0.95, 1, 0.9)...).bouncing(), nil, "", ""},
		"hitch of a hop":  {acted(film, varied(frozen)...).stall(5, 80, 80, 0.96).fly(78, 8, 0.05), nil, "", ""},
	} {
		t.Run(name, func(t *testing.T) {
			s := c.sheet.review(t)
			if !slices.Equal(kinds(s), c.kinds) {
				t.Fatalf("notes %v, want %v: %+v", kinds(s), c.kinds, s.Notes)
			}
			if len(c.kinds) > 0 && (s.Notes[0].Weight != c.weigh || !strings.Contains(s.Notes[0].Text, c.says)) {
				t.Errorf("%s: %q, want %s: %q", s.Notes[0].Weight, s.Notes[0].Text, c.weigh, c.says)
			}
		})
	}
}

// feetless has the feet of the clip's figure out of the picture for a while.
func (s *Sheet) feetless(start, end int) *Sheet {
	s.FeetOut = append(s.FeetOut, FeetOut{Shot: 1, Figure: 1, Start: start, End: end})
	return s
}

// A note of one of several figures names it.
func TestTimingNotesNameTheFigure(t *testing.T) {
	s := acted(film, sized(0.9, 1, 0.95, 1, 0.9)...)
	s.Figures = append(s.Figures, Figure{Shot: 1, Start: 1, End: s.Clip.Frames, Height: 200})
	for i := range s.Beats {
		s.Beats[i].Figure = 2
	}
	if s.review(t); len(s.Notes) != 1 || !strings.HasPrefix(s.Notes[0].Text, "figure 2: the 5 moves") {
		t.Errorf("notes %+v", s.Notes)
	}
}

func TestTiming(t *testing.T) {
	s := acted(film, varied(frozen)...)
	s.Beats[4].Hold = HoldMoving
	s.review(t)
	if len(s.Timing) != 1 {
		t.Fatalf("timing %+v", s.Timing)
	}
	got := s.Timing[0]
	// The whole beats are 8, 14, 6, 26, 12, 11 and 5 frames; moves set in 22, 32 and
	// 23 frames apart. Reckoned from the definitions by another program.
	for name, c := range map[string]struct {
		got  *float64
		want float64
	}{
		"beat variation":     {got.BeatVariation, 0.6051},
		"beat nPVI":          {got.BeatNPVI, 69.49},
		"interval variation": {got.IntervalVariation, 0.2146},
		"interval nPVI":      {got.IntervalNPVI, 34.88},
		"size variation":     {got.SizeVariation, 0.6483},
	} {
		if c.got == nil || math.Abs(*c.got-c.want) > 1e-9 {
			t.Errorf("%s is %v, want %g", name, c.got, c.want)
		}
	}
	for name, c := range map[string]struct{ got, want *Stretch }{
		"without hold":  {got.WithoutHold, &Stretch{75, 86, 12}},
		"shortest hold": {got.ShortestHold, &Stretch{87, 97, 11}},
		"frozen":        {got.Frozen, &Stretch{103, 132, 30}},
	} {
		if !reflect.DeepEqual(c.got, c.want) {
			t.Errorf("%s is %v, want %v", name, c.got, c.want)
		}
	}
}

// Moves that follow each other are one stretch without a hold, and lengths that
// the shot cuts off are none.
func TestTimingOfFewBeats(t *testing.T) {
	s := acted(film, part{20, 1}, part{30, 0.5}, part{10, alive}).review(t)
	got := s.Timing[0]
	if got.BeatVariation != nil || got.SizeVariation != nil || got.ShortestHold != nil || got.Frozen != nil {
		t.Errorf("timing %+v", got)
	}
	if *got.WithoutHold != (Stretch{1, 50, 50}) {
		t.Errorf("without hold %v", got.WithoutHold)
	}
	if s := acted(film, part{20, frozen}).review(t); len(s.Timing) != 0 {
		t.Errorf("timing of one hold: %+v", s.Timing)
	}
}

// Poses that pop set in with no move between.
func TestAccentsOfPosesThatPop(t *testing.T) {
	s := acted(film, part{20, frozen}, part{25, frozen}, part{20, frozen}, part{4, 1}, part{16, frozen})
	if got := s.tracks()[0].accents(); !slices.Equal(got, []int{21, 46, 66}) {
		t.Errorf("accents %v", got)
	}
}

func TestSnap(t *testing.T) {
	s := acted(film, part{10, 1}, part{20, frozen}, part{9, 1}, part{20, frozen}).review(t)
	if s.Beats[0].Texture.Snap != nil {
		t.Errorf("a move that the shot begins with has a snap of %d", *s.Beats[0].Texture.Snap)
	}
	// The peak is 4 frames after the first that moves, 5 after the last still one.
	if n := s.Beats[2].Texture.Snap; n == nil || *n != 5 {
		t.Errorf("snap %v", n)
	}
}

func TestTextureLiesInItsMove(t *testing.T) {
	for path, spoil := range map[string]func(*Sheet){
		"beats[1].texture.hitches[0].start": func(s *Sheet) { s.stall(1, 5, 22, 0.5) },
		"beats[1].texture.settle_frames":    func(s *Sheet) { s.Beats[1].Texture.Settle = 9 },
		"beats[0].texture":                  func(s *Sheet) { s.Beats[0].Texture = &Texture{} },
		"pops[0].shot":                      func(s *Sheet) { s.Pops = []Pop{{Shot: 2, Start: 1, End: 1}} },
		"pops[0].end":                       func(s *Sheet) { s.Pops = []Pop{{Shot: 1, Start: 5, End: 4}} },
	} {
		s := acted(film, varied(frozen)...)
		s.Complete()
		spoil(s)
		var field *FieldError
		if err := s.Check(); !errors.As(err, &field) || field.Path != path {
			t.Errorf("%s: %v", path, err)
		}
	}
}
