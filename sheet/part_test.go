package sheet

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"
)

// partSheet is the sample with a hand that was followed through its second shot,
// frames 149 to 172, and lost on three of them.
func partSheet() *Sheet {
	s := sampleSheet()
	p := Part{Name: "left hand", Shot: 2, Start: 149, End: 172, Beats: []PartBeat{
		{Kind: KindHold, Start: 149, End: 155, Hold: HoldFrozen},
		{Kind: KindMove, Start: 159, End: 172, Peak: new(int), Size: new(float64)},
	}}
	*p.Beats[1].Peak, *p.Beats[1].Size = 164, 0.123456
	p.Looks = []Look{
		{Kind: LookTurn, Way: "left", Start: 150, End: 153, Peak: 151, Size: 0.312345, Rest: 6},
		{Kind: LookDart, Way: "right", Start: 159, End: 159, Peak: 159, Size: 0.05, Rest: 4},
		{Kind: LookDart, Way: "up", Start: 163, End: 164, Peak: 164, Size: 0.04, Rest: 9, Cut: true},
	}
	for i := range 24 {
		if i >= 7 && i < 10 {
			p.Boxes, p.Motion = append(p.Boxes, nil), append(p.Motion, nil)
			continue
		}
		v := 0.001
		p.Boxes, p.Motion = append(p.Boxes, &[4]float64{10.123, 20, 30, 40}), append(p.Motion, &v)
	}
	s.Parts = append(s.Parts, p)
	s.Complete()
	return s
}

func TestPartsAreWritten(t *testing.T) {
	s := partSheet()
	var b bytes.Buffer
	if err := s.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	again, err := Read(&b)
	if err != nil {
		t.Fatal(err)
	}
	p := again.Parts[0]
	if !slices.Equal(p.Lost, []Lost{{156, 158}}) || p.Boxes[8] != nil || p.Motion[8] != nil || p.Boxes[0][0] != 10.12 || *p.Beats[1].Size != 0.1235 || p.Beats[0].Frames != 7 {
		t.Errorf("%+v", p)
	}
	b.Reset()
	if err := s.WriteTable(&b, 0); err != nil {
		t.Fatal(err)
	}
	for _, row := range []string{"left hand frozen hold 149–155 7 f", "left hand not seen 156–158 3 f", "left hand move 159–172 14 f 164 12 %",
		"left hand turn left 150–153 151 31 % 6 f", "left hand dart up 163–164 164 4 % over 9 f", "Left hand, frames 150–164: left, right, up; settling"} {
		if !strings.Contains(strings.Join(strings.Fields(b.String()), " "), row) {
			t.Errorf("no row %q in\n%s", row, b.String())
		}
	}
}

func TestPartsAreChecked(t *testing.T) {
	for path, spoil := range map[string]func(*Part){
		"parts[0].name":           func(p *Part) { p.Name = "=cmd" },
		"parts[0].shot":           func(p *Part) { p.Shot = 3 },
		"parts[0].start":          func(p *Part) { p.Start = 101 },
		"parts[0].boxes":          func(p *Part) { p.Boxes = p.Boxes[1:] },
		"parts[0].motion":         func(p *Part) { p.Motion = nil },
		"parts[0].beats[1].start": func(p *Part) { p.Beats[1].Start = 150 },
		"parts[0].beats[0].hold":  func(p *Part) { p.Beats[0].Hold = "dead" },
		"parts[0].beats[1].kind":  func(p *Part) { p.Beats[1].Kind = "leap" },
		"parts[0].beats[1].peak":  func(p *Part) { *p.Beats[1].Peak = 200 },
		"parts[0].looks[1].start": func(p *Part) { p.Looks[1].Start = 152 },
		"parts[0].looks[0].kind":  func(p *Part) { p.Looks[0].Kind = "leap" },
		"parts[0].looks[0].way":   func(p *Part) { p.Looks[0].Way = "in" },
		"parts[0].looks[2].peak":  func(p *Part) { p.Looks[2].Peak = 165 },
		"parts[0].looks[2].size":  func(p *Part) { p.Looks[2].Size = 0 },
		"parts[0].looks[2].rest":  func(p *Part) { p.Looks[2].Rest = 10 },
		"parts[0].beats[1].size":  func(p *Part) { *p.Beats[1].Size = 1.5 },
	} {
		s := partSheet()
		spoil(&s.Parts[0])
		var field *FieldError
		if err := s.Check(); !errors.As(err, &field) || field.Path != path {
			t.Errorf("%s: %v", path, err)
		}
	}
}

// The words follow from the numbers: worked out by hand at 24 frames a second.
func TestLookPatterns(t *testing.T) {
	s := &Sheet{Clip: Clip{FPS: Rate{24, 1}}}
	looks := func(starts []int, sizes []float64) []Look {
		var list []Look
		for i, n := range starts {
			l := Look{Kind: LookDart, Way: []string{"left", "right"}[i%2], Start: n, End: n, Peak: n, Size: sizes[i], Rest: 10}
			if i+1 < len(starts) {
				l.Rest = starts[i+1] - n
			}
			list = append(list, l)
		}
		return list
	}
	for _, c := range []struct {
		starts []int
		sizes  []float64
		want   []string
	}{
		{[]int{10, 20}, []float64{.1, .1}, nil},
		{[]int{10, 20, 45}, []float64{.1, .1, .1}, nil}, // 25 frames are over a second
		{[]int{10, 20, 33}, []float64{.1, .1, .1}, []string{"left, right, left"}},
		{[]int{10, 20, 33, 40}, []float64{.1, .08, .06, .05}, []string{"left, right, left, right; settling"}},
		{[]int{10, 15, 20, 25}, []float64{.1, .2, .1, .2}, []string{"left, right, left, right; evenly timed; no rest long enough to read (5 f at most)"}},
		{[]int{10, 18, 25, 33}, []float64{.1, .2, .1, .2}, []string{"left, right, left, right; evenly timed"}},
		{[]int{1, 13, 20, 32, 39, 51, 58, 70, 77}, []float64{.1, .2, .1, .2, .1, .2, .1, .2, .1},
			[]string{"left, right, left, right, left, right, left, right and 1 more"}},
	} {
		p := Part{Looks: looks(c.starts, c.sizes)}
		s.completeLooks(&p)
		var got []string
		for _, w := range p.Patterns {
			got = append(got, w.Text)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%v: %q, want %q", c.starts, got, c.want)
		}
	}
}
