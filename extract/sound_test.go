package extract

import (
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// beeps is a source of sound that begins with silence: 1 kHz from a second and a half on.
const beeps = "aevalsrc=exprs='0.5*sin(2*PI*1000*t)*gte(t,1.5)':s=48000:d=3"

// gather reads a sound and keeps the left channel.
func gather(t *testing.T, s Sound) []float32 {
	t.Helper()
	var left []float32
	err := ReadSound(context.Background(), s, func(samples []float32) error {
		for i := 0; i < len(samples); i += SoundChannels {
			left = append(left, samples[i])
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return left
}

// begins is when a sound is first louder than a tenth of its peak, in seconds.
func begins(samples []float32) float64 {
	for i, v := range samples {
		if math.Abs(float64(v)) > 0.05 {
			return float64(i) / SoundRate
		}
	}
	return math.NaN()
}

// The frames and the sound of a clip keep step: whatever the container, whichever
// of both starts first, and wherever the reading begins.
func TestSoundKeepsStepWithFrames(t *testing.T) {
	picture := []string{"-f", "lavfi", "-i", "testsrc=s=64x36:r=25:d=3"}
	sound := []string{"-f", "lavfi", "-i", beeps}
	late := []string{"-itsoffset", "0.4"}
	for _, c := range []struct {
		name   string
		inputs [][]string
		codecs []string
		from   int64
		want   float64 // seconds after the first frame read
	}{
		{"plain.mp4", [][]string{picture, sound}, []string{"-c:v", "libx264", "-c:a", "aac"}, 0, 1.5},
		{"plain.mkv", [][]string{picture, sound}, []string{"-c:v", "libx264", "-c:a", "pcm_s16le"}, 0, 1.5},
		{"opus.webm", [][]string{picture, sound}, []string{"-c:v", "libvpx", "-c:a", "libopus"}, 0, 1.5},
		{"late-picture.mkv", [][]string{late, picture, sound}, []string{"-c:v", "libx264", "-c:a", "pcm_s16le"}, 0, 1.1},
		{"late-picture.mp4", [][]string{late, picture, sound}, []string{"-fps_mode", "passthrough", "-c:v", "libx264", "-c:a", "aac"}, 0, 1.1},
		{"late-sound.mp4", [][]string{picture, late, sound}, []string{"-c:v", "libx264", "-c:a", "aac"}, 0, 1.9},
		{"late-sound.mov", [][]string{picture, late, sound}, []string{"-c:v", "libx264", "-c:a", "pcm_s16le"}, 0, 1.9},
		{"from.ts", [][]string{picture, sound}, []string{"-c:v", "libx264", "-c:a", "mp2"}, 20, 0.7},
	} {
		t.Run(c.name, func(t *testing.T) {
			var args []string
			for _, in := range c.inputs {
				args = append(args, in...)
			}
			clip := lavfi(t, c.name, append(args, c.codecs...)...)
			r, err := Open(context.Background(), clip, Options{From: c.from})
			if err != nil {
				t.Fatal(err)
			}
			defer r.Close()
			// Coded sound swells up to a few milliseconds early.
			if got := begins(gather(t, r.Sound(70))); !(math.Abs(got-c.want) < 0.008) {
				t.Errorf("the tone begins %.4f s after the first frame, not %.4f", got, c.want)
			}
		})
	}
}

func TestSoundFromAFileOfItsOwn(t *testing.T) {
	for _, name := range []string{"a.wav", "a.flac", "a.mp3", "a.ogg", "a.m4a", "a.aiff"} {
		path := lavfi(t, name, "-f", "lavfi", "-i", beeps)
		for _, start := range []float64{0, -0.25, 1} {
			samples := gather(t, Sound{Path: path, Start: start, Seconds: 1.75})
			if len(samples) != 1.75*SoundRate {
				t.Errorf("%s from %g s: %d samples", name, start, len(samples))
			}
			// An mp3 says nothing of how long its coder takes to swell.
			if got := begins(samples); !(math.Abs(got-(1.5-start)) < 0.03) && start > -0.25 {
				t.Errorf("%s from %g s: the tone begins at %.4f s", name, start, got)
			}
		}
	}
}

func TestSoundsThatAreNone(t *testing.T) {
	folder := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		return path
	}
	silent := lavfi(t, "silent.mp4", "-f", "lavfi", "-i", "testsrc=s=64x36:r=25:d=0.2", "-c:v", "libx264")
	for want, path := range map[InputKind]string{
		NoSound: silent, Missing: filepath.Join(folder, "nothing.wav"), Directory: folder, Empty: write("empty.wav", ""),
		Playlist: write("list.wav", "#EXTM3U\nother.wav\n"), Text: write("text.wav", "words"),
	} {
		err := ReadSound(context.Background(), Sound{Path: path, Seconds: 1}, func([]float32) error { return nil })
		var refused *InputError
		if !errors.As(err, &refused) || refused.Kind != want {
			t.Errorf("%s: %v", want, err)
		}
	}
	noise := write("noise.wav", "RIFF\xff\xff\xff\x00WAVE"+strings.Repeat("\x00\x81", 500))
	if err := ReadSound(context.Background(), Sound{Path: noise, Seconds: 1}, func([]float32) error { return nil }); err == nil {
		t.Error("rubbish was read")
	}
}

// Reading stops where its user does, and where its context ends.
func TestSoundStops(t *testing.T) {
	path := lavfi(t, "long.wav", "-f", "lavfi", "-i", "anoisesrc=d=60:r=48000")
	enough := fmt.Errorf("enough")
	if err := ReadSound(context.Background(), Sound{Path: path, Seconds: 60}, func([]float32) error { return enough }); !errors.Is(err, enough) {
		t.Errorf("stopped with %v", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	err := ReadSound(ctx, Sound{Path: path, Seconds: 60}, func([]float32) error { cancel(); return nil })
	if !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled with %v", err)
	}
}

// What can be read of a damaged sound is handed over, and its damage is told.
func TestDamagedSound(t *testing.T) {
	path := lavfi(t, "hurt.m4a", "-f", "lavfi", "-i", "anoisesrc=d=3:r=48000:a=0.2:seed=1")
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for i := len(data) / 2; i < len(data)/2+2000; i++ {
		data[i] ^= 0x5a
	}
	if err := os.WriteFile(path, data, 0o666); err != nil {
		t.Fatal(err)
	}
	samples := 0
	err = ReadSound(context.Background(), Sound{Path: path, Seconds: 3}, func(block []float32) error {
		samples += len(block) / SoundChannels
		return nil
	})
	var damaged *SoundDamagedError
	if !errors.As(err, &damaged) || !strings.Contains(err.Error(), "hurt.m4a") {
		t.Errorf("told %v", err)
	}
	if samples < 2*SoundRate {
		t.Errorf("only %d samples", samples)
	}
}
