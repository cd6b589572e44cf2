package sheet

import (
	"bytes"
	"errors"
	"reflect"
	"strings"
	"testing"
)

func jsonOf(t testing.TB, s *Sheet) string {
	t.Helper()
	var b bytes.Buffer
	if err := s.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestReadGivesBackWhatWasWritten(t *testing.T) {
	sheets := []*Sheet{sampleSheet(), oneFrame(), grounded(), feetSample(), soundSample()}
	for _, name := range awkward {
		sheets = append(sheets, named(name))
	}
	for _, s := range sheets {
		text := jsonOf(t, s)
		back, err := Read(strings.NewReader(text))
		if err != nil {
			t.Fatalf("%q: %v", s.Clip.Name, err)
		}
		if again := jsonOf(t, back); again != text {
			t.Errorf("%q comes back as another sheet:\n%s", s.Clip.Name, again)
		}
		if !reflect.DeepEqual(back.Beats, s.Beats) || back.Clip.FPS != s.Clip.FPS {
			t.Errorf("%q: beats differ", s.Clip.Name)
		}
	}
}

func TestReadNamesTheMember(t *testing.T) {
	good := jsonOf(t, grounded())
	for _, c := range []struct{ path, old, new string }{
		{"format", `"holdfast-beat-sheet"`, `"other"`},
		{"format_version", `"format_version": 1`, `"format_version": 2`},
		{"clip.fps", `"24/1"`, `"24/0"`},
		{"clip.width", `"width": 1920`, `"width": "wide"`},
		{"clip", `"width": 1920`, `"width": 0`},
		{"clip.frames", `"frames": 72`, `"frames": -1`},
		{"clip.first_frame", `"first_frame": 101`, `"first_frame": 9000000000`},
		{"clip.sha256", `"0123`, `"x123`},
		{"clip.seconds", `"seconds": 3,`, `"seconds": 0,`},
		{"shots[1].start", `{"id":2,"start":149`, `{"id":2,"start":150`},
		{"shots", `"end":172,"join"`, `"end":171,"camera"`},
		{"shots[0].camera.kind", `"kind":"still"`, `"kind":"stil\u001b"`},
		{"shots[0].camera.zoom", `"zoom":1`, `"zoom":-1`},
		{"figures[0].shot", `{"id":1,"shot":1,"start":101,"end":148,"height_px"`, `{"id":1,"shot":3,"start":101,"end":148,"height_px"`},
		{"figures[0].height_px", `"height_px":412.35`, `"height_px":0`},
		{"figures[1].method", `"method":"motion"`, `"method":"guess"`},
		{"beats[0].id", `"beats": [` + "\n" + `    {"id":1`, `"beats": [` + "\n" + `    {"id":7`},
		{"beats[0].kind", `"kind":"hold"`, `"kind":"rest"`},
		{"beats[0].hold", `"hold":"frozen"`, `"hold":"stuck"`},
		{"beats[0].frames", `"frames":12,"seconds":0.5`, `"frames":11,"seconds":0.5`},
		{"beats[1].peak", `"peak":118`, `"peak":129`},
		{"beats[1].size", `"size":1,`, `"size":1.01,`},
		{"beats[1].ease_in", `"ease_in":5`, `"ease_in":-5`},
		{"beats[2].start", `"start":129,"end":148,"frames":20`, `"start":130,"end":148,"frames":19`},
		{"beats[4].end", `"end":172,"frames":12`, `"end":173,"frames":13`},
		{"beats[0].figure", `"id":1,"shot":1,"figure":1`, `"id":1,"shot":1,"figure":9`},
		{"exposure[0].frames_per_drawing", `"frames_per_drawing":1}`, `"frames_per_drawing":0.5}`},
		{"exposure[0].pattern", `"pattern":"ones"`, `"pattern":""`},
		{"repeats.every", `"every":5`, `"every":1`},
		{"contacts[0].state", `"state":"slide"`, `"state":"glide"`},
		{"flights[0].end", `"start":111,"end":118`, `"start":111,"end":110`},
		{"impacts[0].shot", `"impacts": [` + "\n" + `    {"shot":1`, `"impacts": [` + "\n" + `    {"shot":0`},
		{"notes[0].kind", `"kind":"frozen-hold"`, `"kind":"Frozen hold"`},
		{"notes[0].weight", `"weight":"look"`, `"weight":"must"`},
		{"notes[0].start", `"start":161,"end":172,"weight"`, `"start":1,"end":172,"weight"`},
		{"curve.motion", `"motion": [0,`, `"motion": [`},
		{"curve.motion[0]", `"motion": [0,`, `"motion": [-1,`},
		{"curve.camera", `"camera": [[0,0,0,1],`, `"camera": [`},
		{"contacts", `"contacts": [`, `"contatti": [`},
		{"settings", `"settings": {`, `"setting": {`},
		{"file", "}\n}\n", "}\n}\nmore"},
		{"file", "}\n}\n", ""},
		{"file", `{`, `[`},
	} {
		text := strings.Replace(good, c.old, c.new, 1)
		if text == good {
			t.Errorf("%s: nothing to spoil: %q is not in the sheet", c.path, c.old)
			continue
		}
		_, err := Read(strings.NewReader(text))
		var field *FieldError
		if !errors.As(err, &field) || field.Path != c.path {
			t.Errorf("want a complaint about %s, got %v", c.path, err)
			continue
		}
		if unseen(err.Error()) {
			t.Errorf("%s: the error holds a character that does not print: %q", c.path, err)
		}
	}
	for _, text := range []string{"", "null", "3", "{}", "hello world", "\xff\xfe", strings.Repeat("[", 1<<16)} {
		var field *FieldError
		if _, err := Read(strings.NewReader(text)); !errors.As(err, &field) {
			t.Errorf("%.20q: %v", text, err)
		}
	}
}

func TestReadPassesOverWhatItDoesNotKnow(t *testing.T) {
	text := strings.Replace(jsonOf(t, oneFrame()), `"format":`, `"later": {"a": [1]}, "format":`, 1)
	if _, err := Read(strings.NewReader(text)); err != nil {
		t.Error(err)
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range []*Sheet{oneFrame(), grounded()} {
		f.Add([]byte(jsonOf(f, s)))
	}
	f.Add([]byte(`{"format":"holdfast-beat-sheet","format_version":1}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		s, err := Read(bytes.NewReader(text))
		if err != nil {
			if unseen(err.Error()) {
				t.Errorf("the error holds a character that does not print: %q", err)
			}
			return
		}
		for _, w := range writers { // what can be read can be written
			var b bytes.Buffer
			if err := w.write(s, &b); err != nil {
				t.Errorf("%s: %v", w.name, err)
			}
		}
	})
}

func TestVisible(t *testing.T) {
	for in, want := range map[string]string{
		"plain name.mp4": "plain name.mp4", "ünï日本🎬": "ünï日本🎬", "a\nb": `a\nb`, "\x1b[31m": `\x1b[31m`,
		"\u202egpj": `\u202egpj`, "bad\xff": `bad\xff`, "\u009b": `\u009b`, "\ufffd": "\ufffd", "": "",
		"\U000e0001": `\U000e0001`,
	} {
		if got := Visible(in); got != want {
			t.Errorf("Visible(%q) is %q, want %q", in, got, want)
		}
	}
}
