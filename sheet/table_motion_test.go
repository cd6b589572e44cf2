package sheet

import (
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"holdfast/sheet/internal/page"
)

// moving is a sheet of holds around one move whose speed goes up by steps of one
// from first to last frame.
func moving(first, before, move, after int) *Sheet {
	n := before + move + after
	s := &Sheet{Clip: Clip{FirstFrame: first, Frames: n}}
	s.Curve.Motion = make([]float64, n)
	for i := range move {
		s.Curve.Motion[before+i] = float64(i + 1)
	}
	s.Beats = []Beat{
		{Kind: KindHold, Start: first, End: first + before - 1},
		{Kind: KindMove, Start: first + before, End: first + before + move - 1},
		{Kind: KindHold, Start: first + before + move, End: first + n - 1},
	}
	return s
}

func motionLines(s *Sheet, width int) []string {
	p := page.New(width)
	s.writeMotion(p)
	return strings.Split(strings.Trim(p.String(), "\n"), "\n")
}

func TestMotionLine(t *testing.T) {
	for _, c := range []struct {
		name       string
		s          *Sheet
		line, tick string
	}{
		{"a frame a character", moving(1, 4, 8, 12), "····▁▂▃▄▅▆▇█············", "1        10        20"},
		{"numbered from 1001", moving(1001, 2, 8, 20), "··▁▂▃▄▅▆▇█····················", "1001     1010      1020"},
		// 240 frames on 60 characters: four a character, its biggest counts.
		{"four frames a character", moving(1, 80, 32, 128), strings.Repeat("·", 20) + "▁▂▃▄▅▆▇█" + strings.Repeat("·", 32),
			"1           50          100          150         200"},
	} {
		got := motionLines(c.s, 60)
		if len(got) != 3 {
			t.Fatalf("%s: %q", c.name, got)
		}
		if got[1] != c.line || got[2] != c.tick {
			t.Errorf("%s: %q over %q, want %q over %q", c.name, got[1], got[2], c.line, c.tick)
		}
		for _, l := range got {
			if n := utf8.RuneCountInString(l); n > 60 {
				t.Errorf("%s: %d characters wide: %q", c.name, n, l)
			}
		}
	}
}

// Every number stands under the character whose frames hold it, at any width.
func TestMotionTicks(t *testing.T) {
	for _, first := range []int{-30, 0, 1, 1001} {
		for _, frames := range []int{2, 24, 100, 101, 977, 43200} {
			cells := min(frames, 100)
			line := ticks(first, frames, cells)
			if len(line) > max(cells, len("1001")) {
				t.Errorf("%d frames: %q is too wide", frames, line)
			}
			for i, word := range strings.Fields(line) {
				f, err := strconv.Atoi(word)
				if err != nil {
					t.Fatal(err)
				}
				at := strings.Index(" "+line+" ", " "+word+" ")
				if i > 0 && (at*frames/cells > f-first || (at+1)*frames/cells <= f-first) {
					t.Errorf("%d frames from %d: %d stands under frames %d to %d", frames, first, f,
						first+at*frames/cells, first+(at+1)*frames/cells-1)
				}
			}
		}
	}
}

// A clip in which nothing moves has no line.
func TestNoMotionLine(t *testing.T) {
	s := moving(1, 5, 0, 5)
	p := page.New(80)
	if s.writeMotion(p); p.Len() > 0 {
		t.Errorf("drew %q", p.String())
	}
}
