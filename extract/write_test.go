package extract

import (
	"context"
	"errors"
	"image"
	"io"
	"os"
	"path/filepath"
	"testing"
)

// bars draws frame n as the bits of n in eight bright or dark columns.
func bars(f *image.YCbCr, n int) {
	w := f.Rect.Dx()
	for y := range f.Rect.Dy() {
		for x := range w {
			v := byte(40)
			if n>>(x*8/w)&1 == 1 {
				v = 210
			}
			f.Y[y*f.YStride+x] = v
		}
	}
	for i := range f.Cb {
		f.Cb[i], f.Cr[i] = 128, 128
	}
}

// readBars reads the number that bars drew.
func readBars(f *image.YCbCr) int {
	n, w, h := 0, f.Rect.Dx(), f.Rect.Dy()
	for bit := range 8 {
		x := (2*bit + 1) * w / 16
		if f.Y[h/2*f.YStride+x] > 125 {
			n |= 1 << bit
		}
	}
	return n
}

func writeBars(t *testing.T, name string, frames int, w VideoOptions) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	n := 0
	err := WriteVideo(context.Background(), path, w, func(f *image.YCbCr) error {
		if n == frames {
			return io.EOF
		}
		bars(f, n)
		n++
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// readAll reads the numbers of a clip of bars.
func readAll(t *testing.T, path string, o Options) (numbers []int, clip Clip, warnings []string) {
	t.Helper()
	err := Read(context.Background(), path, o, func(r *Reader) error {
		numbers, clip = nil, r.Clip()
		f := image.NewYCbCr(image.Rectangle{Max: clip.Work}, image.YCbCrSubsampleRatio420)
		for {
			err := r.Next(f)
			if err == io.EOF {
				warnings = r.Warnings()
				return nil
			}
			if err != nil {
				return err
			}
			numbers = append(numbers, readBars(f))
		}
	})
	if err != nil {
		t.Fatalf("%s: %v", filepath.Base(path), err)
	}
	return numbers, clip, warnings
}

func TestWriteThenReadGivesEveryFrameOnce(t *testing.T) {
	for _, c := range []struct {
		name string
		w    VideoOptions
	}{
		{"a.mp4", VideoOptions{Width: 320, Height: 180}},
		{"b.mp4", VideoOptions{Width: 64, Height: 36, Codec: H264Lossless, Rate: Rate{30000, 1001}, Preset: "ultrafast"}},
		{"c.mkv", VideoOptions{Width: 321, Height: 181, Codec: FFV1, Rate: Rate{25, 2}}},
	} {
		path := writeBars(t, c.name, 30, c.w)
		got, clip, warnings := readAll(t, path, Options{})
		if len(got) != 30 || len(warnings) != 0 {
			t.Errorf("%s: %d frames, warnings %q", c.name, len(got), warnings)
		}
		for i, n := range got {
			if n != i {
				t.Errorf("%s: frame %d shows %d", c.name, i, n)
			}
		}
		if c.w.Rate.IsZero() {
			c.w.Rate = Rate{24, 1}
		}
		if clip.Rate != c.w.Rate || clip.Width != c.w.Width || clip.Height != c.w.Height {
			t.Errorf("%s: %v %d×%d", c.name, clip.Rate, clip.Width, clip.Height)
		}
	}
}

func TestSameFramesSameBytes(t *testing.T) {
	for _, codec := range []Codec{H264, FFV1} {
		var sums []string
		for range 2 {
			sum, err := SHA256(context.Background(), writeBars(t, "a.mp4", 20, VideoOptions{Width: 64, Height: 36, Codec: codec}))
			if err != nil {
				t.Fatal(err)
			}
			sums = append(sums, sum)
		}
		if sums[0] != sums[1] {
			t.Errorf("%s: %v", codec, sums)
		}
	}
}

func TestWritingKeepsWhatIsThere(t *testing.T) {
	dir := t.TempDir()
	there := filepath.Join(dir, "there.mp4")
	if err := os.WriteFile(there, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(dir, "link.mp4")
	if err := os.Symlink(filepath.Join(dir, "elsewhere"), link); err != nil {
		t.Fatal(err)
	}
	w := VideoOptions{Width: 64, Height: 36}
	n := 0
	twoFrames := func(f *image.YCbCr) error {
		if n++; n > 2 {
			return io.EOF
		}
		return nil
	}
	for _, path := range []string{there, link} {
		n = 0
		var out *OutputError
		if err := WriteVideo(context.Background(), path, w, twoFrames); !errors.As(err, &out) || !out.Exists {
			t.Errorf("%s: %v", filepath.Base(path), err)
		}
	}
	// One that comes while we write wins too.
	late := filepath.Join(dir, "late.mp4")
	n = 0
	err := WriteVideo(context.Background(), late, w, func(f *image.YCbCr) error {
		if n == 1 {
			if err := os.WriteFile(late, []byte("first"), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		return twoFrames(f)
	})
	var out *OutputError
	if !errors.As(err, &out) || !out.Exists {
		t.Errorf("late: %v", err)
	}
	for path, want := range map[string]string{there: "mine", late: "first"} {
		if got, _ := os.ReadFile(path); string(got) != want {
			t.Errorf("%s now holds %.20q", filepath.Base(path), got)
		}
	}
	if left, _ := os.ReadDir(dir); len(left) != 3 {
		t.Errorf("left behind: %v", left)
	}
}

func TestFailedWritingLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	mine := errors.New("cannot draw")
	ctx, cancel := context.WithCancel(context.Background())
	n := 0
	var out *OutputError
	var option *OptionError
	for name, c := range map[string]struct {
		ctx  context.Context
		path string
		w    VideoOptions
		next func(*image.YCbCr) error
		good func(error) bool
	}{
		"the caller fails": {context.Background(), "a.mp4", VideoOptions{Width: 64, Height: 36},
			func(*image.YCbCr) error { return mine }, func(err error) bool { return errors.Is(err, mine) }},
		"no frame": {context.Background(), "a.mp4", VideoOptions{Width: 64, Height: 36},
			func(*image.YCbCr) error { return io.EOF }, func(err error) bool { return errors.As(err, &out) }},
		"the user gives up": {ctx, "a.mp4", VideoOptions{Width: 64, Height: 36},
			func(*image.YCbCr) error {
				if n++; n == 5 {
					cancel()
				}
				return nil
			}, func(err error) bool { return errors.Is(err, context.Canceled) }},
		"no folder": {context.Background(), "no/a.mp4", VideoOptions{Width: 64, Height: 36},
			func(*image.YCbCr) error { return io.EOF }, func(err error) bool { return errors.As(err, &out) }},
		"odd sides": {context.Background(), "a.mp4", VideoOptions{Width: 65, Height: 36},
			func(*image.YCbCr) error { return io.EOF }, func(err error) bool { return errors.As(err, &option) }},
	} {
		if err := WriteVideo(c.ctx, filepath.Join(dir, c.path), c.w, c.next); !c.good(err) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if left, _ := os.ReadDir(dir); len(left) != 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestOneOfManyWinsTheName(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.mp4")
	results := make(chan error)
	for i := range 5 {
		go func() {
			results <- writeWhole(context.Background(), path, func(temporary string) error {
				return os.WriteFile(temporary, []byte{byte(i)}, 0o600)
			})
		}()
	}
	won := 0
	for range 5 {
		err := <-results
		var out *OutputError
		if err == nil {
			won++
		} else if !errors.As(err, &out) || !out.Exists {
			t.Error(err)
		}
	}
	if left, _ := os.ReadDir(dir); won != 1 || len(left) != 1 {
		t.Errorf("%d won, %v", won, left)
	}
}

func TestUnwholeFileIsNoticed(t *testing.T) {
	w := VideoOptions{Width: 64, Height: 36}
	path := writeBars(t, "a.mp4", 24, w)
	tools, err := findTools(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if err := checkWritten(context.Background(), tools, path, w, 24); err != nil {
		t.Fatal(err)
	}
	if checkWritten(context.Background(), tools, path, w, 25) == nil {
		t.Error("a lost frame was not noticed")
	}
	if err := os.Truncate(path, 900); err != nil {
		t.Fatal(err)
	}
	var out *OutputError
	if err := checkWritten(context.Background(), tools, path, w, 24); !errors.As(err, &out) {
		t.Errorf("cut file: %v", err)
	}
}

func TestSHA256(t *testing.T) {
	dir := t.TempDir()
	for name, content := range map[string]string{"s.1.png": "\x89PNG\r\n\x1a\nab", "s.2.png": "\x89PNG\r\n\x1a\nc"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(content), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	// Sums by coreutils' sha256sum over the same bytes.
	for name, want := range map[string]string{
		"s.1.png":  "ccffa8fc9fab1274567106bb1780beda3ddd0253c1592d33c71300cef5639493",
		"s.%d.png": "9c40e3ffc09ab959215f1fb93914e19792b8499a2af971f36ad0f51e26ed46d2",
	} {
		if got, err := SHA256(context.Background(), filepath.Join(dir, name)); err != nil || got != want {
			t.Errorf("%s: %s, %v", name, got, err)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := SHA256(ctx, filepath.Join(dir, "s.1.png")); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}
