package page

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"holdfast/sheet"
)

// sample is a clip of 48 frames from 101 on, with two beats and one of most
// other things.
func sample() *sheet.Sheet {
	s := &sheet.Sheet{
		Tool: sheet.Tool{Name: "holdfast", Version: "test"},
		Clip: sheet.Clip{
			Name: "walk.mp4", Width: 320, Height: 180, FPS: sheet.Rate{Num: 24, Den: 1}, Frames: 48, FirstFrame: 101,
			SHA256: strings.Repeat("0", 64),
		},
		Settings: map[string]any{},
		Shots:    []sheet.Shot{{Start: 101, End: 148, Camera: sheet.Camera{Kind: "still", Zoom: 1}}},
		Figures:  []sheet.Figure{{Shot: 1, Start: 101, End: 148, Height: 90}},
		Beats: []sheet.Beat{
			sheet.NewHold(1, 0, 101, 120, sheet.HoldFrozen),
			sheet.NewMove(1, 0, 121, 148, 130, 1),
		},
		Contacts: []sheet.Contact{{Shot: 1, Figure: 1, Start: 101, End: 140, State: sheet.StateSlide, X: 100, Y: 150, SlipPx: 9, SlipShare: 0.1}},
		Flights:  []sheet.Flight{{Shot: 1, Figure: 1, Start: 141, End: 146, RisePx: 9, RiseShare: 0.1}},
		Notes: []sheet.Note{{
			ID: 1, Kind: "slide", Start: 101, End: 140, Weight: sheet.WeightFix, Text: "the foot slides", Measured: map[string]any{},
		}},
		Remarks: []sheet.Remark{{Start: 110, End: 112, Text: "longer hold here"}},
	}
	for range s.Clip.Frames {
		s.Curve.Motion = append(s.Curve.Motion, 0)
		s.Curve.Camera = append(s.Curve.Camera, [4]float64{0, 0, 0, 1})
	}
	s.Complete()
	return s
}

func written(t *testing.T, p *Page) string {
	t.Helper()
	var b bytes.Buffer
	if err := p.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestPageHoldsAllOfTheSheet(t *testing.T) {
	html := written(t, &Page{Sheet: sample(), Video: Video{Width: 320, Height: 180, MP4: strings.NewReader("video")}, Thumbs: map[int][]byte{110: []byte("jpeg")}})
	for _, want := range []string{
		"beat 1: frozen hold, frames 101–120, 20 long", "beat 2: move, frames 121–148, 28 long, peak at 130",
		"contact 1: slide", "flight 1, frames 141–146", "shot 1, frames 101–148, camera still",
		"the foot slides", "longer hold here", "data:image/jpeg;base64,anBlZw==",
		base64.StdEncoding.EncodeToString([]byte("video")) + "</script>",
	} {
		if !strings.Contains(html, want) {
			t.Errorf("no %q", want)
		}
	}
}

// Who comes and goes, and walks up to whom, is on rows of its own.
func TestPageShowsStaging(t *testing.T) {
	s := sample()
	s.Figures = append(s.Figures, sheet.Figure{
		Shot: 1, Start: 110, End: 130, Height: 90,
		Enters: &sheet.Passage{Side: sheet.SideLeft, Start: 108, End: 114}, Leaves: &sheet.Passage{Side: sheet.SideTop, Start: 128, End: 131},
	})
	s.Figures[0].Enters = &sheet.Passage{Side: sheet.SideNone, Start: 101, End: 101}
	s.Approaches = []sheet.Approach{{Shot: 1, First: 1, Second: 2, Start: 114, End: 126, Change: -1.25, By: []int{2}}}
	s.Complete()
	html := written(t, &Page{Sheet: s, Video: Video{MP4: strings.NewReader("")}})
	for _, want := range []string{
		"figure 2 enters left, frames 108–114", "figure 2 leaves top, frames 128–131",
		"gap between figures 1 and 2 shrinks, frames 114–126, by 1.2 heights, by figure 2",
	} {
		if !strings.Contains(html, want) {
			t.Errorf("no %q", want)
		}
	}
	if strings.Contains(html, "figure 1 enters") {
		t.Error("one that is there enters")
	}
}

// The ticks of a timing chart lie where the travel has got to by then.
func TestTimingChartsOfMoves(t *testing.T) {
	s := sample()
	s.Beats[1].Texture = &sheet.Texture{Spacing: &sheet.Spacing{Drawings: []int{121, 130, 140}, Travel: []float64{0.1, 0.2, 0.1}}}
	s.Complete()
	html := written(t, &Page{Sheet: s, Video: Video{MP4: strings.NewReader("")}})
	for _, want := range []string{
		"timing from 120 to 140: drawings at 25, 75, 100 per cent of the way", // in words
		`d="M49.0 5V13"`, `class="top" d="M139.0 3V15"`, `d="M184.0 5V13"`, // of a line from 4 to 184
	} {
		if !strings.Contains(html, want) {
			t.Errorf("no %q", want)
		}
	}
	if n := strings.Count(html, `class="ladder"`); n != 1 {
		t.Errorf("%d charts for one move", n)
	}
}

// Browsers hash what stands between the tags (W3C Content Security Policy).
func TestPolicyNamesTheScriptAndStyle(t *testing.T) {
	html := written(t, &Page{Sheet: sample(), Video: Video{MP4: strings.NewReader("")}})
	for tag, pattern := range map[string]string{"script": `(?s)<script>(.*?)</script>`, "style": `(?s)<style>(.*?)</style>`} {
		found := regexp.MustCompile(pattern).FindAllStringSubmatch(html, -1)
		if len(found) != 1 {
			t.Fatalf("%d of %s", len(found), tag)
		}
		want := fmt.Sprintf("%s-src &#39;sha256-%s&#39;", tag, strings.ReplaceAll(base64.StdEncoding.EncodeToString(sum(found[0][1])), "+", "&#43;"))
		if !strings.Contains(html, want) {
			t.Errorf("the policy has no %s", want)
		}
	}
	if strings.Contains(html, " style=") || strings.Contains(html, "https://") {
		t.Error("there are styles or addresses that the policy forbids")
	}
}

func sum(s string) []byte { h := sha256.Sum256([]byte(s)); return h[:] }

func TestNamesAndTextsAreEscaped(t *testing.T) {
	const evil = `</script><img src=x onerror=alert(1)>"'` + "`{{.}}‮"
	s := sample()
	s.Clip.Name, s.Clip.Warnings = evil+".mp4", []string{evil}
	s.Notes[0].Text, s.Remarks[0].Text, s.Notes[0].Kind = evil, evil, "odd"
	s.Complete()
	html := written(t, &Page{Sheet: s, Video: Video{Link: "../" + evil}})
	if strings.Contains(html, "<img") || strings.Contains(html, "‮") {
		t.Error("text of the sheet came through as it is")
	}
	if n := strings.Count(html, "</script>"); n != 2 {
		t.Errorf("%d scripts end", n)
	}
}

func TestItemsThatOverlapLieBelowEachOther(t *testing.T) {
	r := itemRow(sample(), "x", "x", []item{{Start: 110, End: 120}, {Start: 101, End: 110}, {Start: 111, End: 112}, {Start: 121, End: 122}})
	var lanes []int
	for _, i := range r.Items {
		lanes = append(lanes, i.Lane)
	}
	if want := []int{0, 1, 0, 0}; fmt.Sprint(lanes) != fmt.Sprint(want) || r.Lanes != 2 {
		t.Errorf("lanes %v of %d, want %v", lanes, r.Lanes, want)
	}
	if x, w := r.Items[1].X(), r.Items[1].W(); x != "18.7500%" || w != "22.9167%" {
		t.Errorf("frames 110–120 of 48 from 101 are at %s, %s wide", x, w)
	}
}

func TestThumbFramesAreFewEnough(t *testing.T) {
	s := sample()
	if got := fmt.Sprint(ThumbFrames(s)); got != "[110 130]" {
		t.Errorf("thumbnails of %s", got)
	}
	s.Beats = nil
	for i := range 1000 {
		s.Beats = append(s.Beats, sheet.NewHold(1, 0, 10*i, 10*i+9, sheet.HoldFrozen))
	}
	if got := ThumbFrames(s); len(got) != maxThumbs || got[0] != 4 || got[maxThumbs-1] < 9900 {
		t.Errorf("%d thumbnails from %d to %d", len(got), got[0], got[len(got)-1])
	}
}

// A step of which only the end is known has no length on the axis.
func TestStepsOfUnknownLength(t *testing.T) {
	s := &sheet.Sheet{Steps: []sheet.Step{
		{Start: 1, End: 83, Direction: "right", Length: 0.4},
		{Start: 83, End: 95, Direction: "right", Length: 0.4, Timed: true},
	}}
	list := steps(s)
	if a, b := list[0], list[1]; a.Start != 83 || a.End != 83 || b.Start != 83 || b.End != 95 {
		t.Errorf("steps go from %d to %d and from %d to %d", a.Start, a.End, b.Start, b.End)
	}
}
