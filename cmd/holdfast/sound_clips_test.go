package main

import (
	"context"
	"image"
	"math"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"holdfast/cmd/assemble"
	"holdfast/extract"
	"holdfast/motion/scene"
	"holdfast/motion/sound"
	"holdfast/sheet"
)

// hearing adds one channel of sound to what was measured of a scene.
func hearing(t *testing.T, m *assemble.Measured, sc *scene.Scene, mono []float32) *sheet.Sheet {
	t.Helper()
	ear := sound.NewListener(sc.Rate.Float(), sc.Frames)
	for _, v := range mono {
		if err := ear.Write([]float32{v, v}); err != nil {
			t.Fatal(err)
		}
	}
	m.Sound = &assemble.Heard{Result: ear.Result(), Source: sheet.SoundOfClip}
	return m.Sheet()
}

// soundNotes are the kinds of notes about sound and picture.
func soundNotes(s *sheet.Sheet) []string {
	var kinds []string
	for _, n := range s.Notes {
		if slices.Contains([]string{"sound-offset", "late-gestures", "pause-without-hold", "frozen-over-words"}, n.Kind) {
			kinds = append(kinds, n.Kind+" "+n.Weight)
		}
	}
	return kinds
}

// A figure acts to a voice whose stressed syllables lie before or after its moves'
// peaks. Only gestures that come late are told of, and every lead is right to the frame.
func TestGesturesAgainstWords(t *testing.T) {
	if testing.Short() {
		t.Skip("draws and measures a clip")
	}
	clips, err := scene.Plant(image.Pt(320, 180))
	if err != nil {
		t.Fatal(err)
	}
	sc := clips[0].Scene
	m := measuredScene(t, sc)
	fps := sc.Rate.Float()
	for _, c := range []struct {
		late int // frames from the stressed syllable to the peak
		want []string
	}{{-3, nil}, {0, nil}, {4, []string{"late-gestures look"}}, {6, []string{"late-gestures look"}}} {
		var stresses []float64
		var peaks []int
		for _, b := range sc.Truth().Figures[0].Beats {
			if !b.Hold {
				peaks = append(peaks, b.Peak)
				stresses = append(stresses, (float64(b.Peak-c.late)+0.3)/fps)
			}
		}
		s := hearing(t, m, sc, scene.Recite(1, float64(sc.Frames)/fps, stresses, nil).Samples(sound.Rate))
		if got := soundNotes(s); !slices.Equal(got, c.want) {
			t.Errorf("%d frames late: notes %v, not %v", c.late, got, c.want)
		}
		right := 0
		for _, a := range s.Sound.Accents {
			i := slices.IndexFunc(peaks, func(p int) bool { return off(a.Frame, p-c.late+1) <= 1 })
			if i >= 0 && a.Stressed && a.Lead != nil && off(*a.Lead, -c.late) <= 1 {
				right++
			}
		}
		if right != len(peaks) {
			t.Errorf("%d frames late: %d of %d stressed syllables have their move and its lead", c.late, right, len(peaks))
		}
	}
}

// A ball bounces to blows that are in step, late or early.
func TestSoundAgainstBounces(t *testing.T) {
	if testing.Short() {
		t.Skip("draws and measures a clip")
	}
	sc := goldenScene(t, "ball-drop")
	m := measuredScene(t, sc)
	fps := sc.Rate.Float()
	for _, c := range []struct {
		offset float64
		want   []string
	}{{0, nil}, {0.06, nil}, {-0.08, []string{"sound-offset look"}}, {0.16, []string{"sound-offset look"}}, {0.25, []string{"sound-offset fix"}}, {-0.25, []string{"sound-offset fix"}}} {
		var times []float64
		for _, p := range sc.Truth().Impacts {
			times = append(times, p.Frame/fps+c.offset)
		}
		s := hearing(t, m, sc, scene.Blows(1, sound.Rate, float64(sc.Frames)/fps, times))
		if got := soundNotes(s); !slices.Equal(got, c.want) {
			t.Errorf("%g s: notes %v, not %v", c.offset, got, c.want)
		}
		if h := s.Sound.Meeting; h == nil || h.Offset < c.offset-0.03 || h.Offset > c.offset+0.03 {
			t.Errorf("%g s: told %+v", c.offset, h)
		}
	}
}

var integratedLine = regexp.MustCompile(`I: +(-[0-9.]+) LUFS`)

// Loudness of real sound is what ffmpeg's own meter (the filter ebur128) says.
func TestLoudnessAgainstFfmpeg(t *testing.T) {
	for _, name := range []string{"film-trailer.mp4", "rope-skipping.webm", "ball-in-flight.mp4"} {
		path := clip(t, name)
		said, err := exec.Command("ffmpeg", "-hide_banner", "-nostats", "-i", path, "-map", "0:a:0", "-af", "ebur128", "-f", "null", "-").CombinedOutput()
		lines := integratedLine.FindAllSubmatch(said, -1)
		if err != nil || len(lines) == 0 {
			t.Fatalf("%s: %v, %s", name, err, said)
		}
		want, err := strconv.ParseFloat(string(lines[len(lines)-1][1]), 64)
		if err != nil {
			t.Fatal(err)
		}
		ear := sound.NewListener(24, 60*24)
		if err := extract.ReadSound(context.Background(), extract.Sound{Path: path, Seconds: 60}, ear.Write); err != nil {
			t.Fatal(err)
		}
		if got := ear.Result().Loudness; math.Abs(got-want) > 0.1 {
			t.Errorf("%s: %.2f LUFS, ffmpeg %.1f", name, got, want)
		}
	}
}
