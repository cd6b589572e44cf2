package extract

import (
	"context"
	"errors"
	"image"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strings"
	"syscall"
	"testing"
	"time"
)

// lavfi makes a clip with ffmpeg's own sources, in a way that shares nothing
// with the code under test.
func lavfi(t *testing.T, name string, args ...string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	args = append(append([]string{"-nostdin", "-v", "error", "-y"}, args...), path)
	if out, err := exec.Command("ffmpeg", args...).CombinedOutput(); err != nil {
		t.Fatalf("ffmpeg %q: %v\n%s", args, err, out)
	}
	return path
}

// counter is a source whose frame n shows the bits of n as eight columns.
func counter(rate string, frames string) []string {
	const columns = "geq=lum='if(mod(floor(N/pow(2,floor(X*8/W))),2),210,40)':cb=128:cr=128"
	return []string{"-f", "lavfi", "-i", "color=s=64x36:r=" + rate + "," + columns, "-frames:v", frames, "-pix_fmt", "yuv420p"}
}

func TestReferenceConformedToTheShot(t *testing.T) {
	for _, c := range []struct {
		name, rate string
		from       Rate
		args       []string
		frames     int
	}{
		{"25.mp4", "25", Rate{25, 1}, []string{"-c:v", "libx264", "-crf", "10"}, 75},
		{"2997.mkv", "30000/1001", Rate{30000, 1001}, []string{"-c:v", "ffv1"}, 90},
		{"30.mp4", "30", Rate{30, 1}, []string{"-c:v", "libx264", "-crf", "10"}, 90},
		{"5994.webm", "60000/1001", Rate{60000, 1001}, []string{"-c:v", "libvpx", "-b:v", "2M"}, 180},
		{"60.ts", "60", Rate{60, 1}, []string{"-c:v", "libx264", "-crf", "10"}, 180},
		{"12.mov", "12", Rate{12, 1}, []string{"-c:v", "mjpeg", "-q:v", "2", "-strict", "-1"}, 36},
	} {
		path := lavfi(t, c.name, append(counter(c.rate, itoa(c.frames)), c.args...)...)
		got, clip, _ := readAll(t, path, Options{FPS: Rate{24, 1}})
		fine := timeBase{c.from.Den, c.from.Num}
		want := nearest(stamps(c.frames, c.from, fine), fine, Rate{24, 1}, len(got))
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%s: shows %v\nwant %v", c.name, got, want)
		}
		seconds := float64(c.frames) / c.from.Float()
		if d := float64(len(got)) - 24*seconds; d < 0 || d >= 1 {
			t.Errorf("%s: %d frames for %.3f s", c.name, len(got), seconds)
		}
		if clip.SourceRate != c.from || clip.Rate != (Rate{24, 1}) || !clip.Conformed || clip.Variable {
			t.Errorf("%s: %+v", c.name, clip)
		}
	}
}

func itoa(n int) string { return NumberRange{int64(n), int64(n)}.String() }

func TestVariableClipIsLaidOut(t *testing.T) {
	// Of 24 frames a second, 20 to 29 and every third from 40 on are left out.
	args := append(counter("24", "60"), "-vf", "trim=end_frame=60,select='not(between(n,20,29)+gt(n,40)*not(mod(n,3)))'", "-fps_mode", "vfr", "-c:v", "ffv1")
	got, clip, warnings := readAll(t, lavfi(t, "v.mkv", args...), Options{})
	if !clip.Variable || clip.Rate != (Rate{24, 1}) || len(warnings) != 1 || len(got) != 60 {
		t.Errorf("%d frames, warnings %q, %+v", len(got), warnings, clip)
	}
	last := 0
	for i, n := range got {
		if left := i >= 20 && i <= 29 || i > 40 && i%3 == 0; !left {
			last = i
		}
		if n != last { // as a player shows it
			t.Errorf("frame %d shows %d, want %d", i, n, last)
		}
	}
}

func TestTrimming(t *testing.T) {
	path := writeBars(t, "a.mp4", 30, VideoOptions{Width: 64, Height: 36})
	for _, c := range []struct {
		o           Options
		first, last int
	}{
		{Options{From: 10}, 10, 29},
		{Options{From: 10, To: 12}, 10, 12},
		{Options{To: 5}, 0, 5},
		{Options{Count: 1}, 0, 0},
		{Options{From: 28, Count: 9}, 28, 29},
		{Options{From: 5, To: 99, Count: 2}, 5, 6},
		{Options{From: 3, To: 4, SingleThread: true}, 3, 4},
		{Options{From: 29, To: 29, FPS: Rate{24, 1}}, 29, 29},
	} {
		got, _, warnings := readAll(t, path, c.o)
		if len(got) != c.last-c.first+1 || got[0] != c.first || got[len(got)-1] != c.last || len(warnings) != 0 {
			t.Errorf("%+v: %v, warnings %q", c.o, got, warnings)
		}
	}
	err := Read(context.Background(), path, Options{From: 30}, drain)
	var in *InputError
	if !errors.As(err, &in) || in.Kind != PastEnd || !strings.Contains(err.Error(), "30") {
		t.Errorf("past the end: %v", err)
	}
	got, _, _ := readAll(t, path, Options{FPS: Rate{12, 1}, From: 2, To: 5})
	if !reflect.DeepEqual(got, []int{4, 6, 8, 10}) {
		t.Errorf("trimmed and conformed: %v", got)
	}
}

func TestDisplayedSize(t *testing.T) {
	plain := lavfi(t, "plain.mp4", append(counter("24", "5"), "-vf", "scale=320:180", "-c:v", "libx264")...)
	for _, c := range []struct {
		path          string
		width, height int
		work          image.Point
	}{
		{plain, 320, 180, image.Pt(320, 180)},
		{turned(t, plain, "90"), 180, 320, image.Pt(180, 320)},
		{turned(t, plain, "180"), 320, 180, image.Pt(320, 180)},
		{turned(t, plain, "270"), 180, 320, image.Pt(180, 320)},
		{lavfi(t, "sar.mp4", append(counter("24", "5"), "-vf", "scale=320:180,setsar=2", "-c:v", "libx264")...), 640, 180, image.Pt(640, 180)},
		{lavfi(t, "big.mp4", append(counter("24", "2"), "-vf", "scale=1920:1080", "-c:v", "libx264")...), 1920, 1080, image.Pt(640, 360)},
		{lavfi(t, "odd.mkv", append(counter("24", "5"), "-vf", "scale=321:181,setsar=1", "-c:v", "ffv1")...), 321, 181, image.Pt(320, 180)},
		{lavfi(t, "tiny.mkv", append(counter("24", "5"), "-vf", "scale=1:3,setsar=1", "-c:v", "ffv1")...), 1, 3, image.Pt(2, 2)},
	} {
		_, clip, warnings := readAll(t, c.path, Options{})
		if clip.Width != c.width || clip.Height != c.height || clip.Work != c.work || len(warnings) != 0 {
			t.Errorf("%s: %d×%d, work %v, warnings %q", clip.Name, clip.Width, clip.Height, clip.Work, warnings)
		}
	}
}

// turned copies a clip and marks it as turned: counterclockwise, in degrees.
// Newer releases of ffmpeg have an option for it.
func turned(t *testing.T, path, degrees string) string {
	t.Helper()
	help, err := exec.Command("ffmpeg", "-v", "error", "-h", "full").Output()
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(help), "-display_rotation") {
		return lavfi(t, "turned.mp4", "-display_rotation", degrees, "-i", path, "-c", "copy")
	}
	return lavfi(t, "turned.mp4", "-i", path, "-c", "copy", "-metadata:s:v", "rotate="+degrees)
}

func TestTurnedPictureIsUpright(t *testing.T) {
	path := turned(t, lavfi(t, "a.mp4", "-f", "lavfi", "-i", "color=white:s=64x36,drawbox=w=64:h=18:c=black:t=fill", "-frames:v", "1",
		"-c:v", "libx264"), "90")
	r, err := Open(context.Background(), path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	f := image.NewYCbCr(image.Rectangle{Max: r.Clip().Work}, image.YCbCrSubsampleRatio420)
	if err := r.Next(f); err != nil {
		t.Fatal(err)
	}
	if w := r.Clip().Work; w != image.Pt(36, 64) {
		t.Fatalf("work size %v", w)
	}
	// The stored top is black; turned counterclockwise it comes to the left.
	if left, right := f.Y[32*f.YStride+4], f.Y[32*f.YStride+31]; left > 50 || right < 200 {
		t.Errorf("left %d, right %d", left, right)
	}
}

func TestUnusableInputs(t *testing.T) {
	dir := t.TempDir()
	file := func(name, content string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(content), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	fifo := filepath.Join(dir, "fifo.mp4")
	if err := syscall.Mkfifo(fifo, 0o644); err != nil {
		t.Fatal(err)
	}
	whole := writeBars(t, "whole.mp4", 24, VideoOptions{Width: 64, Height: 36})
	bytes, err := os.ReadFile(whole)
	if err != nil {
		t.Fatal(err)
	}
	for path, kind := range map[string]InputKind{
		filepath.Join(dir, "absent.mp4"):         Missing,
		filepath.Join(dir, "no", "absent.mp4"):   Missing,
		dir:                                      Directory,
		fifo:                                     NotRegular,
		"/dev/null":                              NotRegular,
		file("empty.mp4", ""):                    Empty,
		file("words.mp4", "only words\n"):        Text,
		file("list.mp4", "#EXTM3U\nwhole.mp4\n"): Playlist,
		file("zip.mp4", "PK\x03\x04\x00\x00\x00"):                NotClip,
		file("cut.mp4", string(bytes[:40])):                      NoIndex,
		lavfi(t, "sound.m4a", "-f", "lavfi", "-i", "sine=d=0.2"): NoVideo,
	} {
		wantKind(t, path, kind)
	}
	if os.Getuid() != 0 {
		locked := file("locked.mp4", "x")
		if err := os.Chmod(locked, 0); err != nil {
			t.Fatal(err)
		}
		wantKind(t, locked, NoAccess)
	}
}

func TestTruncatedClipGivesWhatIsThere(t *testing.T) {
	path := lavfi(t, "a.mp4", append(counter("24", "96"), "-c:v", "libx264", "-g", "12", "-movflags", "+faststart")...)
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(path, info.Size()*2/3); err != nil {
		t.Fatal(err)
	}
	first, _, warnings := readAll(t, path, Options{})
	if len(first) < 12 || len(first) >= 96 {
		t.Errorf("%d frames", len(first))
	}
	if all := strings.Join(warnings, "\n"); !strings.Contains(all, "counts 96 frames but ends after") || !strings.Contains(all, "damaged") {
		t.Errorf("warnings %q", warnings)
	}
	// Close to the cut, frames that others were to be built on are missing.
	for i, n := range first[:len(first)-4] {
		if n != i {
			t.Errorf("frame %d shows %d", i, n)
		}
	}
	if again, _, _ := readAll(t, path, Options{}); !reflect.DeepEqual(first, again) {
		t.Error("read again, it differs")
	}
}

// A recorder that skips pictures which do not change counts them in an AVI all
// the same.
func TestSkippedPicturesAreNotMissing(t *testing.T) {
	path := lavfi(t, "a.avi", append(counter("15", "60"), "-vf", "select='not(mod(n,3))'", "-fps_mode", "passthrough", "-r", "15", "-c:v", "mjpeg")...)
	frames, _, warnings := readAll(t, path, Options{})
	all := strings.Join(warnings, "\n")
	if len(frames) == 0 || strings.Contains(all, "missing") || strings.Contains(all, "decoded") {
		t.Errorf("%d frames, warnings %q", len(frames), warnings)
	}
	if !strings.Contains(all, "holds 60 pictures") {
		t.Errorf("warnings %q do not say how many pictures there are", warnings)
	}
}

func TestLimits(t *testing.T) {
	path := writeBars(t, "a.mp4", 48, VideoOptions{Width: 64, Height: 36, Preset: "ultrafast"})
	for want, l := range map[string]Limits{
		"Pixels": {Pixels: 1000}, "Bytes": {Bytes: 1000}, "Frames": {Frames: 47}, "Duration": {Duration: time.Second}, "WallClock": {WallClock: time.Nanosecond},
	} {
		err := Read(context.Background(), path, Options{Limits: l}, drain)
		var limit *LimitError
		if !errors.As(err, &limit) || limit.Limit != want || HintOf(err) == "" {
			t.Errorf("%s: %v", want, err)
		}
	}
	exact := Limits{Pixels: 64 * 36, Frames: 48, Duration: 2 * time.Second}
	if err := Read(context.Background(), path, Options{Limits: exact}, drain); err != nil {
		t.Errorf("at the limits: %v", err)
	}
	if err := Read(context.Background(), path, Options{Limits: Limits{Pixels: -1, Frames: -1, Duration: -1, WallClock: -1, Stall: -1}}, drain); err != nil {
		t.Errorf("without limits: %v", err)
	}
}

func TestNextRefusesOtherFrames(t *testing.T) {
	path := writeBars(t, "a.mp4", 2, VideoOptions{Width: 64, Height: 36})
	r, err := Open(context.Background(), path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	for _, f := range []*image.YCbCr{
		nil, image.NewYCbCr(image.Rect(0, 0, 32, 36), image.YCbCrSubsampleRatio420),
		image.NewYCbCr(image.Rect(0, 0, 64, 36), image.YCbCrSubsampleRatio444), {Rect: image.Rect(0, 0, 64, 36), SubsampleRatio: image.YCbCrSubsampleRatio420},
	} {
		if r.Next(f) == nil {
			t.Error("frame taken")
		}
	}
	big := image.NewYCbCr(image.Rect(0, 0, 100, 50), image.YCbCrSubsampleRatio420)
	for i := range 2 {
		strided := big.SubImage(image.Rect(0, 0, 64, 36)).(*image.YCbCr)
		if err := r.Next(strided); err != nil || readBars(strided) != i {
			t.Errorf("into a larger picture: %v, shows %d", err, readBars(strided))
		}
	}
	for range 2 {
		if err := r.Next(big.SubImage(image.Rect(0, 0, 64, 36)).(*image.YCbCr)); err != io.EOF {
			t.Errorf("at the end: %v", err)
		}
	}
}

// A render that still runs, or a copy, changes the file under the reader.
func TestChangedFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "clip.mp4")
	data, err := os.ReadFile(writeBars(t, "bars.mp4", 24, VideoOptions{Width: 64, Height: 36, Preset: "ultrafast"}))
	if err != nil {
		t.Fatal(err)
	}
	for name, change := range map[string]func() error{
		"none":   func() error { return nil },
		"longer": func() error { return os.Truncate(path, int64(len(data))+1) },
		"cut":    func() error { return os.Truncate(path, int64(len(data))/2) },
		"gone":   func() error { return os.Remove(path) },
	} {
		if err := os.WriteFile(path, data, 0o666); err != nil {
			t.Fatal(err)
		}
		var warnings []string
		err := Read(context.Background(), path, Options{}, func(r *Reader) error {
			if err := change(); err != nil && !errors.Is(err, fs.ErrNotExist) {
				return err
			}
			err := drain(r)
			warnings = r.Warnings()
			return err
		})
		said := strings.Contains(strings.Join(warnings, "\n"), "changed while it was read")
		if err != nil || said != (name != "none") {
			t.Errorf("%s: %v, warnings %q", name, err, warnings)
		}
	}
}
