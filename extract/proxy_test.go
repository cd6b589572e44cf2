package extract

import (
	"bytes"
	"context"
	"image/jpeg"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

func TestProxyShowsTheFramesOfItsReading(t *testing.T) {
	clip := writeBars(t, "clip.mp4", 40, VideoOptions{Width: 320, Height: 180})
	proxy := filepath.Join(t.TempDir(), "proxy.mp4")
	var seen []int
	p, err := WriteProxy(context.Background(), clip, proxy, Options{From: 5, Count: 30},
		func(n int) bool { return n == 3 }, func(n int) { seen = append(seen, n) })
	if err != nil {
		t.Fatal(err)
	}
	if p.Frames != 30 || p.Width != 320 || p.Height != 180 || len(seen) != 30 || seen[29] != 29 {
		t.Errorf("%d frames of %d×%d, told of %v", p.Frames, p.Width, p.Height, seen)
	}
	got, of, _ := readAll(t, proxy, Options{})
	if of.Conformed || of.Rate != (Rate{24, 1}) || len(got) != 30 {
		t.Fatalf("%d frames at %v", len(got), of.Rate)
	}
	for i, n := range got {
		if n != i+5 {
			t.Errorf("frame %d of the proxy shows %d", i, n)
		}
	}
	picture, err := jpeg.Decode(bytes.NewReader(p.Thumbs[3]))
	if err != nil || len(p.Thumbs) != 1 {
		t.Fatalf("%d thumbnails: %v", len(p.Thumbs), err)
	}
	if size := picture.Bounds().Size(); size.X != 160 || size.Y != 90 {
		t.Errorf("thumbnail of %v", size)
	}
}

// The sound of a stretch begins with its first frame and ends with its last; a
// tone that sets in after one second tells them.
func TestProxyHasTheSoundOfItsReading(t *testing.T) {
	clip := lavfi(t, "tone.mp4", append([]string{"-f", "lavfi", "-i", "sine=f=440:d=3,volume=0:enable='lt(t,1)'"}, append(counter("24", "72")[:4], "-t", "3", "-pix_fmt", "yuv420p",
		"-c:v", "libx264", "-crf", "10", "-c:a", "aac")...)...)
	for _, c := range []struct {
		o             Options
		silent, sound float64 // seconds
	}{
		{Options{}, 1, 2},
		{Options{From: 12, Count: 36}, 0.5, 1},
	} {
		proxy := filepath.Join(t.TempDir(), "proxy.mp4")
		p, err := WriteProxy(context.Background(), clip, proxy, c.o, func(int) bool { return false }, nil)
		if err != nil || !p.Sound {
			t.Fatal(p, err)
		}
		heard, err := exec.Command("ffmpeg", "-v", "error", "-i", proxy, "-f", "s16le", "-ac", "1", "-ar", "8000", "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		first, last := -1, 0
		for i := 0; i+1 < len(heard); i += 2 {
			if v := int16(uint16(heard[i]) | uint16(heard[i+1])<<8); v > 1000 || v < -1000 {
				if last = i / 2; first < 0 {
					first = last
				}
			}
		}
		// A packet of AAC at 48 kHz is 21 ms.
		if d := float64(first)/8000 - c.silent; d < -0.03 || d > 0.03 {
			t.Errorf("%+v: the tone sets in after %d samples", c.o, first)
		}
		if d := float64(last-first)/8000 - c.sound; d < -0.05 || d > 0.05 {
			t.Errorf("%+v: the tone lasts %d samples", c.o, last-first)
		}
	}
}

// Sound that ends before the stretch begins does not stand in the way.
func TestProxyBeyondTheSound(t *testing.T) {
	clip := lavfi(t, "short.mp4", append([]string{"-f", "lavfi", "-i", "sine=d=0.3"}, append(counter("24", "48")[:4], "-t", "2", "-pix_fmt", "yuv420p", "-c:v", "libx264", "-c:a", "aac")...)...)
	p, err := WriteProxy(context.Background(), clip, filepath.Join(t.TempDir(), "proxy.mp4"), Options{From: 24}, func(int) bool { return false }, nil)
	if err != nil || p.Frames != 24 {
		t.Errorf("%+v: %v", p, err)
	}
}

// Players are told which red is red, and the thumbnails have it: the same red is
// made by either matrix.
func TestProxyKeepsColours(t *testing.T) {
	for matrix, want := range map[string]string{"bt709": "bt709,bt709,bt709", "smpte170m": "smpte170m,unknown,unknown"} {
		clip := lavfi(t, matrix+".mp4", "-f", "lavfi", "-i", "color=red:s=320x180:r=24:d=0.5,scale=out_color_matrix="+matrix+",format=yuv420p",
			"-c:v", "libx264", "-crf", "5", "-colorspace", matrix)
		proxy := filepath.Join(t.TempDir(), "proxy.mp4")
		p, err := WriteProxy(context.Background(), clip, proxy, Options{}, func(n int) bool { return n == 0 }, nil)
		if err != nil {
			t.Fatal(err)
		}
		said, err := exec.Command("ffprobe", "-v", "error", "-show_entries", "stream=color_space,color_transfer,color_primaries", "-of", "csv=p=0", proxy).Output()
		if err != nil || strings.TrimSpace(string(said)) != want {
			t.Errorf("the proxy says %q, want %s: %v", said, want, err)
		}
		picture, err := jpeg.Decode(bytes.NewReader(p.Thumbs[0]))
		if err != nil {
			t.Fatal(err)
		}
		if r, g, b, _ := picture.At(80, 45).RGBA(); r>>8 < 245 || g>>8 > 10 || b>>8 > 10 {
			t.Errorf("%s: the thumbnail of red is %d, %d, %d", matrix, r>>8, g>>8, b>>8)
		}
	}
}
