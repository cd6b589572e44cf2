package extract

import (
	"bytes"
	"context"
	"image/jpeg"
	"path/filepath"
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

// The ends of video's range, ITU-R BT.601, are black and white in JPEG.
func TestThumbnailsHaveFullRange(t *testing.T) {
	luma, chroma := []byte{0, 16, 126, 235, 255}, []byte{16, 128, 240}
	stretch(luma, 16, 219, 0)
	stretch(chroma, 128, 224, 128)
	if !bytes.Equal(luma, []byte{0, 0, 128, 255, 255}) || !bytes.Equal(chroma, []byte{1, 128, 255}) {
		t.Errorf("luma %v, chroma %v", luma, chroma)
	}
}
