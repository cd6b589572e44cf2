package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"holdfast/extract"
	"holdfast/motion/scene"
	"holdfast/sheet"
)

// fieldRate is at what rate the scene of awkward clips is drawn: each of their
// frames is two of its, so that fields can be made of them.
const fieldRate = 48

// fieldsScene is a figure that goes through four poses in 66 frames of 24 a
// second, drawn twice as often.
func fieldsScene(t *testing.T) *scene.Scene {
	t.Helper()
	rest := scene.Pose{Near: scene.Arm{Shoulder: 6, Elbow: 12}, Far: scene.Arm{Shoulder: 4, Elbow: 10}}
	bow := scene.Pose{Near: scene.Arm{Shoulder: -34, Elbow: 30}, Far: scene.Arm{Shoulder: 24, Elbow: 60}, Lean: 34, Tilt: 16}
	cheer := scene.Pose{Near: scene.Arm{Shoulder: 158, Elbow: 14}, Far: scene.Arm{Shoulder: 150, Elbow: 18}, Lean: -7, Tilt: -12}
	sc, err := scene.New(scene.Spec{
		Name: "fields", Width: 284, Height: 160, Rate: scene.FPS(fieldRate), Seed: 3,
		Shots: []scene.Shot{{Frames: 132, Figures: []scene.Figure{{
			Name: "lamplighter", Ground: 118, X: 10, Shadow: 0.5, Keys: []scene.Key{
				{To: 24, Pose: rest},
				{From: 42, To: 66, Pose: cheer, Ease: scene.EaseInOut},
				{From: 82, To: 104, Pose: bow, Ease: scene.EaseOut},
				{From: 120, Pose: rest, Ease: scene.EaseInOut},
			},
		}}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	return sc
}

// drawnFields writes the scene without loss.
func drawnFields(t *testing.T, path string) {
	t.Helper()
	sc := fieldsScene(t)
	err := extract.WriteVideo(context.Background(), path, extract.VideoOptions{
		Width: sc.Width, Height: sc.Height, Rate: extract.Rate(sc.Rate), Codec: extract.FFV1,
	}, drawAll(sc, &progress{}))
	if err != nil {
		t.Fatal(err)
	}
}

// Awkward but good clips have the beats of the plain clip, each start and end
// within a frame, and say what is odd about them.
func TestAwkwardClipsHaveThePlainBeats(t *testing.T) {
	dir := t.TempDir()
	made := func(name string) string { return filepath.Join(dir, name) }
	drawnFields(t, made("fields.mkv"))
	ffmpegIn(t, dir, "-i", "fields.mkv", "-vf", "select='not(mod(n,2))'", "-r", "24", "-c:v", "libx264", "-preset", "veryfast", "-crf", "10", "plain.mp4")
	plain := beatsOf(t, made("plain.mp4"))
	if len(plain.Beats) < 5 {
		t.Fatalf("only %d beats: nothing to hold the others to", len(plain.Beats))
	}

	const (
		h264  = "-c:v libx264 -preset veryfast -crf 10 "
		woven = "-i fields.mkv -vf tinterlace=interleave_top -flags +ildct+ilme "
		below = "-i fields.mkv -vf tinterlace=interleave_bottom -flags +ildct+ilme "
		// As of a phone in the dark: pictures left out, the others up to 10 ms late.
		uneven = "select='not(between(n,4,7)+eq(n,25)+eq(n,38)+eq(n,50))',settb=1/1000,setpts='round(T*1000)+mod(N*7,11)'"
		// The drawing is in alpha alone: black where the plain clip is bright.
		cel = "-i plain.mp4 -filter_complex [0]split[a][b];[a]lutyuv=y=16:u=128:v=128,format=yuva444p[c];[b]format=gray,scale=out_range=pc[d];[c][d]alphamerge,"
	)
	for _, c := range []struct {
		name, file string
		make       []string // arguments of ffmpeg or of turn, one run after the other
		says       string   // in a warning; empty: there must be none
	}{
		{"turned by its display matrix", "turned.mp4", []string{"-i plain.mp4 -vf transpose=1 " + h264 + "side.mp4", "turn side.mp4 turned.mp4"}, ""},
		{"uneven times", "uneven.mp4", []string{"-i plain.mp4 -vf " + uneven + " -fps_mode passthrough -enc_time_base 1/1000 " + h264 + "uneven.mp4"}, "variable frame rate"},
		{"ten bits", "ten.mkv", []string{"-i plain.mp4 -pix_fmt yuv420p10le -c:v libx265 -preset ultrafast -x265-params crf=10:log-level=none ten.mkv"}, ""},
		{"a phone's", "phone.mp4", []string{"-i plain.mp4 -vf transpose=1," + uneven + " -fps_mode passthrough -enc_time_base 1/1000 -pix_fmt yuv420p10le " + h264 + "side10.mp4", "turn side10.mp4 phone.mp4"}, "variable frame rate"},
		{"interlaced, top field first", "top.mp4", []string{woven + h264 + "-x264opts tff=1 top.mp4"}, "interlaced"},
		{"interlaced, bottom field first", "bottom.mov", []string{below + "-top 0 -pix_fmt yuv422p10le -c:v prores_ks bottom.mov"}, "interlaced"},
		{"interlaced, told by the pictures alone", "old.avi", []string{woven + "-c:v mpeg4 -q:v 2 old.avi"}, "interlaced"},
		{"interlaced, told by the container alone", "cels.mov", []string{woven + "-field_order tt -c:v qtrle cels.mov"}, "interlaced"},
		{"full range", "full.mp4", []string{"-i plain.mp4 -vf scale=out_range=pc,format=yuvj420p " + h264 + "full.mp4"}, ""},
		{"pixels that are not square", "wide.mpg", []string{"-i plain.mp4 -vf scale=212:160,setsar=71/53 -c:v mpeg2video -q:v 2 wide.mpg"}, ""},
		{"odd sides", "odd.mkv", []string{"-i plain.mp4 -vf scale=285:161,format=yuv444p -c:v ffv1 odd.mkv"}, ""},
		{"alpha, opaque", "opaque.mov", []string{"-i plain.mp4 -pix_fmt yuva444p10le -c:v prores_ks -profile:v 4444 opaque.mov"}, "alpha"},
		{"drawn on a clear cel", "cel.mov", []string{cel + "format=argb -c:v qtrle cel.mov"}, "over mid grey"},
		{"clear pictures", "cel.%03d.png", []string{cel + "format=rgba cel.%03d.png"}, "over mid grey"},
		{"pictures", "shot.[0-65].jpg", []string{"-i plain.mp4 -q:v 1 -start_number 0 shot.%d.jpg"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, line := range c.make {
				if words := strings.Fields(line); words[0] == "turn" {
					turnIn(t, dir, words[1], words[2])
				} else {
					ffmpegIn(t, dir, words...)
				}
			}
			s := beatsOf(t, made(c.file))
			if err := sameBeats(s.Beats, plain.Beats); err != nil {
				t.Error(err)
			}
			said := strings.Join(s.Clip.Warnings, "\n")
			if (said != "") != (c.says != "") || !strings.Contains(said, c.says) {
				t.Errorf("warnings %q, want %q", said, c.says)
			}
			if off(s.Clip.Frames, plain.Clip.Frames) > 1 { // a last frame that is late stays up longer
				t.Errorf("%d frames, want %d", s.Clip.Frames, plain.Clip.Frames)
			}
		})
	}
}

// ffmpegIn runs ffmpeg in a folder.
func ffmpegIn(t *testing.T, dir string, args ...string) {
	t.Helper()
	cmd := exec.Command("ffmpeg", append([]string{"-nostdin", "-v", "error"}, args...)...)
	cmd.Dir = dir
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %v\n%s", cmd.Args, err, out)
	}
}

// turnIn copies a clip and marks it, in its display matrix, as turned by a quarter
// counterclockwise. Releases of ffmpeg before 6 make the matrix of a tag.
func turnIn(t *testing.T, dir, from, to string) {
	t.Helper()
	help, err := exec.Command("ffmpeg", "-v", "error", "-h", "full").Output()
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(help), "-display_rotation") {
		ffmpegIn(t, dir, "-display_rotation", "90", "-i", from, "-c", "copy", to)
		return
	}
	ffmpegIn(t, dir, "-i", from, "-c", "copy", "-metadata:s:v", "rotate=90", to)
}

// beatsOf is the sheet of a clip, or of pictures at 24 a second.
func beatsOf(t *testing.T, path string) *sheet.Sheet {
	t.Helper()
	args := []string{"sheet", "--as", "json", "--no-sound"}
	if strings.ContainsAny(filepath.Base(path), "%[") {
		args = append(args, "--fps", "24")
	}
	code, out, errs := runFor(append(args, path)...)
	if code != 0 {
		t.Fatalf("%s: exit %d: %s", filepath.Base(path), code, errs)
	}
	var s sheet.Sheet
	if err := json.Unmarshal([]byte(out), &s); err != nil {
		t.Fatal(err)
	}
	return &s
}

// sameBeats says where beats differ by more than a frame.
func sameBeats(got, want []sheet.Beat) error {
	if len(got) != len(want) {
		return fmt.Errorf("%d beats, want %d: %s and %s", len(got), len(want), spans(got), spans(want))
	}
	for i, g := range got {
		if w := want[i]; g.Kind != w.Kind || off(g.Start, w.Start) > 1 || off(g.End, w.End) > 1 {
			return fmt.Errorf("beat %d: %s, want %s", i+1, spans(got), spans(want))
		}
	}
	return nil
}

// spans names beats by kind and frames.
func spans(list []sheet.Beat) string {
	var words []string
	for _, b := range list {
		words = append(words, fmt.Sprintf("%s %d–%d", b.Kind, b.Start, b.End))
	}
	return strings.Join(words, ", ")
}
