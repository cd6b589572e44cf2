package extract

import (
	"context"
	"encoding/binary"
	"image"
	"io"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestWriteSound writes sound that begins half a second into its clip beside new
// pictures, and finds it half a second in.
func TestWriteSound(t *testing.T) {
	dir := t.TempDir()
	clip, out := filepath.Join(dir, "clip.mp4"), filepath.Join(dir, "out.mp4")
	make := exec.Command("ffmpeg", "-v", "error", "-f", "lavfi", "-i", "testsrc2=s=64x36:r=24:d=2", "-itsoffset", "0.5",
		"-f", "lavfi", "-i", "sine=440:d=1", "-map", "0:v", "-map", "1:a", "-c:v", "libx264", "-preset", "ultrafast", "-c:a", "aac", clip)
	if said, err := make.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	n := 0
	err := WriteVideo(context.Background(), out, VideoOptions{Width: 64, Height: 36, SoundOf: clip}, func(f *image.YCbCr) error {
		if n == 48 {
			return io.EOF
		}
		bars(f, n)
		n++
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	const rate = 8000
	pcm, err := exec.Command("ffmpeg", "-v", "error", "-i", out, "-vn", "-ac", "1", "-ar", "8000", "-f", "s16le", "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	loud := func(from, to float64) (most int) {
		for i := int(from * rate); i < min(int(to*rate), len(pcm)/2); i++ {
			v := int(int16(binary.LittleEndian.Uint16(pcm[2*i:])))
			most = max(most, v, -v)
		}
		return most
	}
	if a, b := loud(0, 0.44), loud(0.56, 1.4); a > 200 || b < 2000 {
		t.Errorf("before half a second up to %d, after it up to %d", a, b)
	}
	if numbers, c, _ := readAll(t, out, Options{}); len(numbers) != 48 || !c.Sound {
		t.Errorf("%d frames, sound %v", len(numbers), c.Sound)
	}
	silent := filepath.Join(dir, "silent.mp4")
	n = 0
	err = WriteVideo(context.Background(), silent, VideoOptions{Width: 64, Height: 36, SoundOf: writeBars(t, "mute.mp4", 3, VideoOptions{Width: 64, Height: 36})},
		func(f *image.YCbCr) error {
			if n == 3 {
				return io.EOF
			}
			n++
			return nil
		})
	if err != nil {
		t.Errorf("a clip without sound: %v", err)
	}
}
