package sheet

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

func place(t *testing.T, text string, clip Clip) ([]string, error) {
	t.Helper()
	list, err := ReadRemarks(strings.NewReader(text))
	if err != nil {
		return nil, err
	}
	var got []string
	for _, p := range list {
		r, err := p.place(clip)
		if err != nil {
			return nil, err
		}
		got = append(got, fmt.Sprintf("%d-%d %s", r.Start, r.End, r.Text))
	}
	return got, nil
}

func TestReadRemarks(t *testing.T) {
	clip := Clip{FPS: Rate{24, 1}, Frames: 100, FirstFrame: 1}
	for _, test := range []struct{ name, text, want string }{
		{"a line", "43-51: longer hold here", "43-51 longer hold here"},
		{"one frame", "  60 :the eye goes first  ", "60-60 the eye goes first"},
		{"a dash as typeset", "43–51: x", "43-51 x"},
		{"no space", "43-51:x", "43-51 x"},
		{"digits after the colon", "43:12 frames too long", "43-43 12 frames too long"},
		{"a colon in the words", "43-51: see: here", "43-51 see: here"},
		{"timecodes", "00:00:01:00-00:00:02:00: too even", "25-49 too even"},
		{"comments and empty lines", "# first pass\r\n\r\n7: a\r\n8: b", "7-7 a|8-8 b"},
		{"a mark of byte order", "\ufeff7: a", "7-7 a"},
		{"nothing", "", ""},
		{"cues", "WEBVTT\n\nNOTE made by hand\n\n1\n00:01.000 --> 00:02.000 line:0\n<b>too</b> even &amp; fast\nyes\n\nSTYLE\n::cue {}\n\n00:00:00.000 --> 00:00:00.041\nfirst", "25-48 too even & fast yes|1-1 first"},
		{"cues with a head", "WEBVTT - remarks\n\n00:00.041 --> 00:00.083\nx", "2-2 x"},
	} {
		t.Run(test.name, func(t *testing.T) {
			got, err := place(t, test.text, clip)
			if err != nil || strings.Join(got, "|") != test.want {
				t.Errorf("got %q, %v; want %q", got, err, test.want)
			}
		})
	}
}

func TestRemarksRefused(t *testing.T) {
	clip := Clip{FPS: Rate{24, 1}, Frames: 100, FirstFrame: 1}
	for _, test := range []struct {
		text   string
		line   int
		reason string
	}{
		{"7: a\n\n95-101: b", 3, "frames 95–101 is outside the clip, which has frames 1–100"},
		{"0: a", 1, "outside the clip"},
		{"-4: a", 1, "outside the clip"},
		{"51-43: a", 1, "frame 43 comes before 51"},
		{"a: b", 1, "\"a\" is no frame number"},
		{": b", 1, "begins with no frame number"},
		{"7-: b", 1, "begins with no frame number"},
		{"7:", 1, "says nothing"},
		{"longer hold here", 1, "no colon after its frames"},
		{"00:00:09:99: a", 1, "is no timecode of this clip"},
		{"7: " + strings.Repeat("a", 2001), 1, "longer than 2000 characters"},
		{"7: \xff", 0, "is no UTF-8 text"},
		{"WEBVTT\n\n00:01 --> 00:02\nx", 3, "times that WebVTT does not know"},
		{"WEBVTT\n\nname\n00:02.000 --> 00:01.000\nx", 4, "ends before it begins"},
		{"WEBVTT\n\n00:02.000 --> 00:09.000\nx", 3, "outside the clip"},
		{"WEBVTT\n\n00:02.000 --> 00:03.000\n", 3, "says nothing"},
		{"99999999999: a", 1, "is no frame number"},
	} {
		_, err := place(t, test.text, clip)
		var wrong *RemarkError
		if !errors.As(err, &wrong) || wrong.Line != test.line || !strings.Contains(wrong.Reason, test.reason) {
			t.Errorf("%q: got %v, want line %d: %s", test.text, err, test.line, test.reason)
		}
	}
}

// TestRemarksOnTheirFrames holds the frames of a cue to the milliseconds in
// which frames begin, at rates that milliseconds do not divide.
func TestRemarksOnTheirFrames(t *testing.T) {
	for _, rate := range []Rate{{24, 1}, {24000, 1001}, {30000, 1001}, {60, 1}, {12, 1}} {
		clip := Clip{FPS: rate, Frames: 2000, FirstFrame: 101, Skipped: 7}
		for _, frame := range []int{101, 102, 150, 777, 1999} {
			index := clip.index(frame)
			text := fmt.Sprintf("WEBVTT\n\n%s --> %s\nx", vttTime(rate.Millis(index)), vttTime(rate.Millis(index+3)))
			got, err := place(t, text, clip)
			if want := fmt.Sprintf("%d-%d x", frame, frame+2); err != nil || got[0] != want {
				t.Errorf("%v: got %v, %v; want %s", rate, got, err, want)
			}
		}
	}
}

func TestAddRemarks(t *testing.T) {
	s := sampleSheet()
	s.Complete()
	first, last := s.Clip.FirstFrame, s.Clip.Last()
	list, err := ReadRemarks(strings.NewReader(fmt.Sprintf("%d: <i>late</i>\n%d-%d: =early", last, first, first+1)))
	if err != nil {
		t.Fatal(err)
	}
	if err := s.AddRemarks(list); err != nil {
		t.Fatal(err)
	}
	if len(s.Remarks) != 2 || s.Remarks[0].Text != "=early" {
		t.Errorf("got %v", s.Remarks)
	}
	var table, notes strings.Builder
	if err := s.WriteTable(&table, 0); err != nil {
		t.Fatal(err)
	}
	if want := fmt.Sprintf("Remark, frame %d: <i>late</i>", last); !strings.Contains(table.String(), want) {
		t.Errorf("no %q in\n%s", want, table.String())
	}
	if err := s.WriteNotesCSV(&notes); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(notes.String(), `,remark,,`) || !strings.Contains(notes.String(), `"'=early"`) {
		t.Errorf("got\n%s", notes.String())
	}
	before := len(s.Remarks)
	outside, err := ReadRemarks(strings.NewReader(fmt.Sprintf("%d: a\n%d: b", first, last+1)))
	if err != nil {
		t.Fatal(err)
	}
	if err := s.AddRemarks(outside); err == nil || len(s.Remarks) != before {
		t.Errorf("a remark outside the clip: %v, %d remarks", err, len(s.Remarks))
	}
}

// FuzzRemarks reads anything: remarks are inside the clip and say something, or
// the error names a line.
func FuzzRemarks(f *testing.F) {
	for _, seed := range []string{"43-51: longer hold here", "WEBVTT\n\n00:01.000 --> 00:02.000\nx", "00:00:01:00-7: x", "-3--1: x", "7–9:1", ":::", "WEBVTT\n\n-->\n-->"} {
		f.Add(seed)
	}
	clip := Clip{FPS: Rate{24000, 1001}, Frames: 100, FirstFrame: -20, Skipped: 3}
	f.Fuzz(func(t *testing.T, text string) {
		list, err := ReadRemarks(strings.NewReader(text))
		var wrong *RemarkError
		if err != nil && !errors.As(err, &wrong) {
			t.Fatalf("%v", err)
		}
		for _, p := range list {
			r, err := p.place(clip)
			if err != nil {
				if !errors.As(err, &wrong) || wrong.Line < 1 {
					t.Fatalf("%v", err)
				}
				continue
			}
			if r.Start < clip.FirstFrame || r.End > clip.Last() || r.End < r.Start || r.Text == "" {
				t.Fatalf("%+v", r)
			}
		}
	})
}
