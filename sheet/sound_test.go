package sheet

import (
	"bytes"
	"errors"
	"reflect"
	"strings"
	"testing"
)

// soundSample is the sample with two phrases and a blow in the pause between them.
func soundSample() *Sheet {
	s := sampleSheet()
	loudness := -22.96
	d := &Sound{Source: "lantern.wav", Offset: -0.25, Loudness: &loudness, Levels: make([]float64, s.Clip.Frames)}
	d.AddSpeech(103, 120)
	d.AddSpeech(140, 150)
	d.AddSpeech(150, 160)
	d.Accents = []Accent{
		{Frame: 104, Seconds: 0.1251, Level: -1.23, Rise: 20, Spoken: true},
		{Frame: 131, Seconds: 1.25, Level: 0, Rise: 31.5},
	}
	for i := range d.Levels {
		d.Levels[i] = SilentLUFS
	}
	s.Sound = d
	s.Complete()
	return s
}

func TestSpeechThatTouchesIsOne(t *testing.T) {
	d := soundSample().Sound
	if want := []Stretch{{103, 120, 18}, {140, 160, 21}}; !reflect.DeepEqual(d.Speech, want) {
		t.Errorf("speech %v, not %v", d.Speech, want)
	}
	if want := []Stretch{{121, 139, 19}}; !reflect.DeepEqual(d.Pauses, want) {
		t.Errorf("pauses %v, not %v", d.Pauses, want)
	}
}

func TestSoundComesBackFromJSON(t *testing.T) {
	s := soundSample()
	var b bytes.Buffer
	if err := s.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	back, err := Read(&b)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(back.Sound, s.Sound) {
		t.Errorf("%+v came back as %+v", s.Sound, back.Sound)
	}
}

func TestTableSaysWhatIsHeard(t *testing.T) {
	var b bytes.Buffer
	if err := soundSample().WriteTable(&b, 0); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"Sound from lantern.wav, set -0.250 s: -23.0 LUFS, 2 accents (1 syllable), 1 pause\n",
		"Speech: frames 103–120, 140–160\n", "Pauses: frames 121–139 (19 f)\n",
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %q in\n%s", want, b.String())
		}
	}
}

func TestWrongSounds(t *testing.T) {
	for path, spoil := range map[string]func(*Sound){
		"sound.speech[1].start":     func(d *Sound) { d.Speech[1].Start = 110 },
		"sound.speech[0].frames":    func(d *Sound) { d.Speech[0].Frames++ },
		"sound.pauses[0].end":       func(d *Sound) { d.Pauses[0].End = 173 },
		"sound.accents[1].start":    func(d *Sound) { d.Accents[1].Frame = 100 },
		"sound.accents[1].seconds":  func(d *Sound) { d.Accents[1].Seconds = 0.1 },
		"sound.frame_loudness_lufs": func(d *Sound) { d.Levels = d.Levels[1:] },
		"sound.source":              func(d *Sound) { d.Source = "" },
	} {
		s := soundSample()
		spoil(s.Sound)
		var wrong *FieldError
		if err := s.Check(); !errors.As(err, &wrong) || wrong.Path != path {
			t.Errorf("%s: %v", path, err)
		}
	}
}
