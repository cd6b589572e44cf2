package sheet

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/asticode/go-astisub"
	"github.com/jedib0t/go-pretty/v6/text"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"holdfast/sheet/internal/page"
)

// awkward are file names that mean something to a shell, a terminal, a
// spreadsheet, a page, a subtitle player or a path, and titles that try to
// break out of what they stand in.
var awkward = []string{
	"sp ace  two.mp4", `quo'te"both.mp4`, "shot_%d.mp4", "shot_%04d.mp4", "100%.mp4", "-dash.mp4", "-y.mp4",
	"co:lon.mp4", "http:x.mp4", "concat:a|b.mp4", "pipe:0.mp4", "new\nline.mp4", "tab\there.mp4",
	"esc\x1b[31m\x1b]0;owned\x07.mp4", "cr\rOK done.mp4", "ünï日本.mp4", "🎬🔥.mp4", "bad\xff\xfeutf8.mp4",
	"rtl\u202egpj.mp4", "<script>alert(1)<!--.mp4", `"><img src=x onerror=alert(1)>.mp4`, "&amp;<b>.mp4",
	"=1+1.mp4", `=HYPERLINK("http:x","y").mp4`, "+1.mp4", "@SUM(1).mp4", "--> NOTE.mp4", "$(touch pwned).mp4",
	"`id`.mp4", ";id;.mp4", "*.mp4", "[a-z].mp4", `back\slash.mp4`, ".hidden.mp4", "noext", "trailing.mp4.",
	"UPPER.MP4", "con.mp4", strings.Repeat("L", 250) + ".mp4", "..mp4", "~.mp4", "#frag?.mp4",
	"</script><script>alert(1)</script>", `=cmd|"/c calc"!A1`, ";=1+1", "\t=1+1", "＝1+1", " =1+1",
	"x --> y\n\n00:00.000 --> 00:09.000\ninjected", "\x1b[2J\x1b]0;owned\x07\x1b[31mRED", `","evil":"1`,
	"\u202eevil", "\xc2\x9b2J\xc2\x9d0;owned", "a\u2028b\u2029c\u2066d\u200fe", "\x7f", "\U000e0001tag", "",
}

// unseen reports whether text holds a control, bidirectional or other
// character that does not print as itself, or bytes that are no UTF-8.
func unseen(s string) bool {
	for _, r := range strings.NewReplacer("\r\n", "", "\n", "").Replace(s) {
		if r == utf8.RuneError || !strconv.IsPrint(r) {
			return true
		}
	}
	return false
}

func TestUnseenSeesWhatItShould(t *testing.T) {
	for _, s := range []string{"\x1b", "\r", "\t", "\x7f", "\u0085", "\u202e", "\u2028", "\u200f", "\xff"} {
		if !unseen("a" + s + "b") {
			t.Errorf("%q passes for harmless", s)
		}
	}
}

func named(name string) *Sheet {
	s := sampleSheet()
	s.Clip.Name = name
	s.Clip.Warnings = []string{"odd title: " + name}
	s.Notes[0].Text = name
	s.Figures[0].Label = name
	return s
}

func TestAwkwardNamesShowNothingUnseen(t *testing.T) {
	for _, name := range awkward {
		for _, w := range writers {
			var b bytes.Buffer
			if err := w.write(named(name), &b); err != nil {
				t.Fatalf("%s of %q: %v", w.name, name, err)
			}
			out := b.String()
			if w.name == "json" { // U+FFFD is JSON's word for bytes that are no UTF-8
				out = strings.ReplaceAll(strings.ReplaceAll(out, "\ufffd", ""), `\ufffd`, "")
			}
			if unseen(out) {
				t.Errorf("%s of %q holds a character that does not print", w.name, name)
			}
		}
	}
}

// The schema is the contract of the JSON; the validator is independent of this
// package, and so is the strict parser that goes before it (RFC 8259).
func TestJSONObeysSchema(t *testing.T) {
	schema, err := jsonschema.NewCompiler().Compile("../testdata/beat-sheet.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	sheets := []*Sheet{sampleSheet(), oneFrame(), grounded(), feetSample(), soundSample(), partSheet(), twinReview(t)}
	for _, name := range awkward {
		sheets = append(sheets, named(name))
	}
	for _, s := range sheets {
		var b bytes.Buffer
		if err := s.WriteJSON(&b); err != nil {
			t.Fatal(err)
		}
		value, err := jsonschema.UnmarshalJSON(bytes.NewReader(b.Bytes()))
		if err != nil {
			t.Fatalf("%q: no JSON: %v", s.Clip.Name, err)
		}
		if err := schema.Validate(value); err != nil {
			t.Errorf("%q: %v", s.Clip.Name, err)
		}
		if !bytes.HasSuffix(b.Bytes(), []byte("}\n")) || bytes.ContainsAny(b.Bytes(), "<>&") {
			t.Errorf("%q: the JSON holds markup or no end of line", s.Clip.Name)
		}
	}
	var broken any = map[string]any{"format": Format}
	if schema.Validate(broken) == nil {
		t.Error("the validator passes anything")
	}
}

// grounded is a sheet with contacts, a flight and an impact.
func grounded() *Sheet {
	s, half := sampleSheet(), 0.75
	s.Contacts = []Contact{{Shot: 1, Figure: 1, Start: 101, End: 110, State: StateSlide, X: 3.14159, Y: 2, SlipPx: -7, SlipShare: -0.017}}
	s.Flights = []Flight{{Shot: 1, Figure: 1, Start: 111, End: 118, RisePx: 30, RiseShare: 0.07, TravelPx: 4}}
	s.Impacts = []Impact{{Shot: 1, Figure: 1, Frame: 119.4, Restitution: &half}}
	s.Complete()
	return s
}

func TestNotFiniteIsRefusedByPath(t *testing.T) {
	for path, spoil := range map[string]func(*Sheet, float64){
		"beats[1].size":                  func(s *Sheet, x float64) { s.Beats[1].Size = &x },
		"curve.motion[3]":                func(s *Sheet, x float64) { s.Curve.Motion[3] = x },
		"curve.camera[2][1]":             func(s *Sheet, x float64) { s.Curve.Camera[2][1] = x },
		"shots[1].camera.zoom":           func(s *Sheet, x float64) { s.Shots[1].Camera.Zoom = x },
		"figures[0].height_px":           func(s *Sheet, x float64) { s.Figures[0].Height = x },
		"settings.deep.values[1]":        func(s *Sheet, x float64) { s.Settings["deep"] = map[string]any{"values": []float64{1, x}} },
		"notes[0].measured.slip":         func(s *Sheet, x float64) { s.Notes[0].Measured["slip"] = x },
		"exposure[1].frames_per_drawing": func(s *Sheet, x float64) { s.Exposure[1].FramesPerDrawing = x },
	} {
		for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			s := sampleSheet()
			spoil(s, x)
			s.Complete()
			for _, w := range writers {
				var b bytes.Buffer
				var field *FieldError
				err := w.write(s, &b)
				if !errors.As(err, &field) || field.Path != path || b.Len() > 0 {
					t.Errorf("%s with %g at %s: wrote %d bytes, error %v", w.name, x, path, b.Len(), err)
				}
			}
		}
	}
}

// A formula begins with one of these (OWASP, CSV Injection).
const formulaStart = "=+-@\t\r＝＋－＠"

func TestCSVHoldsNoLiveCell(t *testing.T) {
	for _, name := range awkward {
		s := named(name)
		var b bytes.Buffer
		if err := s.WriteCSV(&b); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(bytes.NewReader(b.Bytes())).ReadAll()
		if err != nil {
			t.Fatalf("%q: %v", name, err)
		}
		if len(rows) != len(s.Beats)+1 || strings.Count(b.String(), "\r\n") != len(rows) ||
			strings.Count(b.String(), "\n") != len(rows) {
			t.Errorf("%q: %d rows for %d beats", name, len(rows), len(s.Beats))
		}
		for _, row := range rows {
			for _, cell := range row {
				if trimmed := strings.TrimLeft(cell, " "); trimmed != "" && strings.ContainsRune(formulaStart, []rune(trimmed)[0]) {
					t.Errorf("%q makes the live cell %q", name, cell)
				}
			}
		}
		if want := Visible(name); strings.TrimPrefix(rows[1][0], "'") != want {
			t.Errorf("%q comes back as %q", name, rows[1][0])
		}
		// A spreadsheet of another locale splits at semicolons and tabs outside
		// quotes: there are none.
		if outside := quoted.ReplaceAllString(b.String(), ""); strings.ContainsAny(outside, ";\t'\"") {
			t.Errorf("%q: unquoted text splits elsewhere: %q", name, outside)
		}
	}
}

var quoted = regexp.MustCompile(`"([^"]|"")*"`)

// The reader is another's, so a cue this package believes in but a player
// would not see shows here.
func TestVTTHasOneCueABeat(t *testing.T) {
	for _, name := range awkward {
		s := named(name)
		var b bytes.Buffer
		if err := s.WriteVTT(&b); err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(b.String(), "-->"); n != len(s.Beats) {
			t.Errorf("%q: %d arrows for %d beats", name, n, len(s.Beats))
		}
		if strings.Contains(b.String(), "<") {
			t.Errorf("%q: markup in %s", name, b.String())
		}
		subs, err := astisub.ReadFromWebVTT(&b)
		if err != nil {
			t.Fatalf("%q: %v", name, err)
		}
		if len(subs.Items) != len(s.Beats) {
			t.Fatalf("%q: %d cues for %d beats", name, len(subs.Items), len(s.Beats))
		}
		for i, item := range subs.Items {
			from := time.Duration(s.Beats[i].Start-101) * time.Second / 24
			to := time.Duration(s.Beats[i].End-100) * time.Second / 24
			if item.StartAt != from.Truncate(time.Millisecond) || item.EndAt != to.Truncate(time.Millisecond) {
				t.Errorf("cue %d runs %v to %v, not %v to %v", i, item.StartAt, item.EndAt, from, to)
			}
		}
	}
}

func TestVTTCountsSkippedFrames(t *testing.T) {
	s := oneFrame()
	s.Clip.FPS, s.Clip.Skipped = Rate{25, 1}, 100
	s.Complete()
	var b bytes.Buffer
	if err := s.WriteVTT(&b); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), "00:00:04.000 --> 00:00:04.040") {
		t.Errorf("the cue does not lie four seconds in:\n%s", b.String())
	}
	if s.Beats[0].Timecode != "00:00:04:00" {
		t.Errorf("timecode %s", s.Beats[0].Timecode)
	}
}

func TestVTTCuesComeInOrder(t *testing.T) {
	s := sampleSheet()
	s.Beats = append(s.Beats, NewHold(1, 0, 101, 148, HoldMoving))
	s.Complete()
	var b bytes.Buffer
	if err := s.WriteVTT(&b); err != nil {
		t.Fatal(err)
	}
	subs, err := astisub.ReadFromWebVTT(bytes.NewReader(b.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	for i := 1; i < len(subs.Items); i++ {
		if subs.Items[i].StartAt < subs.Items[i-1].StartAt {
			t.Errorf("cue %d starts before cue %d", i, i-1)
		}
	}
	if !strings.Contains(b.String(), "figure all: moving hold") {
		t.Errorf("two figures in a shot are not told apart:\n%s", b.String())
	}
}

func TestTableFitsItsPage(t *testing.T) {
	for _, name := range awkward {
		s := named(name)
		s.Beats = append(s.Beats, NewHold(1, 0, 101, 148, HoldMoving))
		s.Complete()
		for _, width := range []int{1, 60, 72, 80, 100, 200} {
			var b bytes.Buffer
			if err := s.WriteTable(&b, width); err != nil {
				t.Fatal(err)
			}
			for _, line := range strings.Split(b.String(), "\n") {
				if w := text.StringWidth(line); w > max(width, MinWidth) {
					t.Errorf("%q at %d: a line is %d wide: %s", name, width, w, line)
				}
			}
		}
	}
}

// Tables with many columns lose some until they fit.
func TestTablesOfFeetAndTimingFit(t *testing.T) {
	s := feetSample()
	f, g := 0.87, 58.0
	long := &Stretch{1147, 1198, 52}
	for shot := 1; shot <= 2; shot++ {
		s.Timing = append(s.Timing, Timing{Shot: shot, Figure: shot, BeatVariation: &f, BeatNPVI: &g, IntervalVariation: &f,
			SizeVariation: &f, WithoutHold: long, ShortestHold: long, Frozen: long})
	}
	for _, width := range []int{60, 72, 80, 90, 100} {
		p := page.New(width)
		s.writeTiming(p)
		s.writeGround(p)
		for _, line := range strings.Split(p.String(), "\n") {
			if w := text.StringWidth(line); w > width {
				t.Errorf("at %d: a line is %d wide: %s", width, w, line)
			}
		}
	}
}

func TestTableShowsEveryBeat(t *testing.T) {
	s := sampleSheet()
	for _, width := range []int{MinWidth, DefaultWidth} {
		var b bytes.Buffer
		if err := s.WriteTable(&b, width); err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{"101–112", "113–128", "129–148", "149–160", "161–172", "moving hold", "118", "44 %"} {
			if !strings.Contains(b.String(), want) {
				t.Errorf("width %d: no %q in\n%s", width, want, b.String())
			}
		}
	}
}

func TestBar(t *testing.T) {
	for size, want := range map[float64]int{0: 0, 1: barCells, 0.5: barCells / 2} {
		if got := strings.Count(bar(&size), "█"); got != want {
			t.Errorf("bar of %g has %d full cells, want %d", size, got, want)
		}
	}
	if bar(nil) != "" {
		t.Error("a hold has a bar")
	}
}

// failing is a full disk.
type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

func TestWriteErrorsComeBack(t *testing.T) {
	for _, w := range writers {
		if err := w.write(sampleSheet(), failing{}); !errors.Is(err, io.ErrShortWrite) {
			t.Errorf("%s: %v", w.name, err)
		}
	}
}

func TestJSONIsStable(t *testing.T) {
	var first bytes.Buffer
	for i := range 20 {
		s := sampleSheet()
		for k := range 20 {
			s.Settings[fmt.Sprint("k", k)] = k
		}
		var b bytes.Buffer
		if err := s.WriteJSON(&b); err != nil {
			t.Fatal(err)
		}
		if i == 0 {
			first = b
		} else if !bytes.Equal(first.Bytes(), b.Bytes()) {
			t.Fatal("the same sheet gives different bytes")
		}
	}
	if !json.Valid(first.Bytes()) {
		t.Error("no JSON")
	}
}
