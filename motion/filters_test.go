package motion

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"holdfast/motion/beats"
	"holdfast/motion/scene"
)

// ffmpeg returns what a run of ffmpeg prints; the test is skipped where there is
// no ffmpeg.
func ffmpeg(t *testing.T, stdin io.Reader, args ...string) []byte {
	t.Helper()
	path, err := exec.LookPath("ffmpeg")
	if err != nil {
		t.Skip("ffmpeg is not installed: its filters cannot be asked")
	}
	cmd := exec.Command(path, append([]string{"-v", "error", "-nostdin"}, args...)...)
	var complaint bytes.Buffer
	cmd.Stdin, cmd.Stderr = stdin, &complaint
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("ffmpeg %v: %v\n%s", args, err, complaint.Bytes())
	}
	return out
}

// planes writes the planes of a frame one after the other.
func planes(w io.Writer, f *image.YCbCr) error {
	for _, p := range [][]uint8{f.Y, f.Cb, f.Cr} {
		if _, err := w.Write(p); err != nil {
			return err
		}
	}
	return nil
}

// encoded draws a scene into a file, without loss: how a coder mends a picture
// that stands would be the filters' matter, not the clip's.
func encoded(t *testing.T, sc *scene.Scene) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "clip.mp4")
	r, w := io.Pipe()
	go func() {
		f := sc.NewFrame()
		for n := range sc.Frames {
			if err := sc.Draw(f, n); err != nil {
				w.CloseWithError(err)
				return
			}
			if err := planes(w, f); err != nil {
				return
			}
		}
		w.Close()
	}()
	ffmpeg(t, r, "-f", "rawvideo", "-pix_fmt", "yuv420p", "-s", fmt.Sprintf("%dx%d", sc.Width, sc.Height), "-r", sc.Rate.String(), "-i", "-",
		"-c:v", "libx264", "-preset", "veryfast", "-qp", "0", "-threads", "1", path)
	r.Close()
	return path
}

// tight is a Source of raw frames.
type tight struct{ r io.Reader }

func (s tight) Next(dst *image.YCbCr) error {
	for _, p := range [][]uint8{dst.Y, dst.Cb, dst.Cr} {
		if _, err := io.ReadFull(s.r, p); err != nil {
			return err
		}
	}
	return nil
}

// measured is what Measure finds in an encoded scene.
func measured(t *testing.T, sc *scene.Scene, path string) *Result {
	t.Helper()
	raw := ffmpeg(t, nil, "-i", path, "-f", "rawvideo", "-pix_fmt", "yuv420p", "-fps_mode", "passthrough", "-")
	r, err := Measure(context.Background(), tight{bytes.NewReader(raw)}, Options{Size: image.Pt(sc.Width, sc.Height), Rate: sc.Rate.Float()})
	if err != nil {
		t.Fatal(err)
	}
	if r.Frames != sc.Frames {
		t.Fatalf("%d frames came back of %d", r.Frames, sc.Frames)
	}
	return r
}

// asked runs a filter over a clip and returns the instants, in whole frames, that it
// noted under a key.
func asked(t *testing.T, sc *scene.Scene, path, filter string, keys ...string) [][]float64 {
	t.Helper()
	notes := filepath.Join(t.TempDir(), "notes.txt")
	ffmpeg(t, nil, "-i", path, "-vf", filter+",metadata=print:file="+notes, "-f", "null", "-")
	text, err := os.ReadFile(notes)
	if err != nil {
		t.Fatal(err)
	}
	out := make([][]float64, len(keys))
	for i, key := range keys {
		for _, m := range regexp.MustCompile(regexp.QuoteMeta(key)+`=([0-9.]+)`).FindAllSubmatch(text, -1) {
			seconds, err := strconv.ParseFloat(string(m[1]), 64)
			if err != nil {
				t.Fatal(err)
			}
			out[i] = append(out[i], math.Round(seconds*sc.Rate.Float()))
		}
	}
	return out
}

// TestCutsAgainstSceneDetector: oracle is the filter scdet of FFmpeg at its own
// settings.
func TestCutsAgainstSceneDetector(t *testing.T) {
	sc := find(t, image.Pt(320, 180), "cuts", "clean")
	path := encoded(t, sc)
	var want, got []int
	for _, f := range asked(t, sc, path, "scdet=threshold=10", "lavfi.scd.time")[0] {
		want = append(want, int(f))
	}
	for _, s := range measured(t, sc, path).Shots[1:] {
		got = append(got, s.Start)
	}
	if len(want) < 3 {
		t.Fatalf("the filter found cuts on %v only: it proves nothing", want)
	}
	if !slices.Equal(got, want) {
		t.Errorf("cuts on %v, by FFmpeg's scdet on %v", got, want)
	}
}

// TestHoldsAgainstFreezeDetector: oracle is the filter freezedetect of FFmpeg. It
// looks at the whole picture, so that the slow ends of a move may escape it for
// a frame.
func TestHoldsAgainstFreezeDetector(t *testing.T) {
	for _, name := range []string{"acting", "acting-preview"} {
		sc := find(t, image.Pt(320, 180), name, "clean")
		path := encoded(t, sc)
		spans := asked(t, sc, path, "freezedetect=noise=0.0002:duration=0.4", "lavfi.freezedetect.freeze_start", "lavfi.freezedetect.freeze_end")
		starts, ends := spans[0], spans[1]
		if len(ends) == len(starts)-1 { // one that lasts to the end of the clip
			ends = append(ends, float64(sc.Frames))
		}
		var holds []Beat
		for _, b := range measured(t, sc, path).Beats {
			if b.Kind == beats.Hold && b.Hold == beats.Frozen && float64(b.End-b.Start+1) >= 0.4*sc.Rate.Float() {
				holds = append(holds, b)
			}
		}
		if len(starts) < 3 || len(ends) != len(starts) {
			t.Fatalf("%s: the filter found freezes from %v to %v: it proves nothing", name, starts, ends)
		}
		if len(holds) != len(starts) {
			t.Errorf("%s: %d frozen holds %+v, by FFmpeg's freezedetect from %v to %v", name, len(holds), holds, starts, ends)
			continue
		}
		for i, h := range holds {
			if math.Abs(float64(h.Start)-starts[i]) > 1 || math.Abs(float64(h.End+1)-ends[i]) > 1 {
				t.Errorf("%s: hold %d-%d, by FFmpeg's freezedetect %g-%g", name, h.Start, h.End, starts[i], ends[i]-1)
			}
		}
	}
}
