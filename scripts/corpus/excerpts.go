//go:build linux

package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

// An excerpt is a piece of a real clip in one of the forms that clips come in.
type excerpt struct {
	clip   string   // in the folder of clips
	form   string   // the ending of its name
	coding []string // options of ffmpeg
}

// excerpts go through most of the demuxers and decoders that are let in. They are
// small, so that a run tries many mutants of each.
var excerpts = []excerpt{
	{"gesture-help.mkv", "mp4", []string{"-c:v", "libx264", "-preset", "veryfast", "-c:a", "aac"}},
	{"gesture-help.mkv", "mkv", []string{"-c:v", "libx265", "-preset", "ultrafast", "-x265-params", "log-level=none", "-c:a", "libopus"}},
	{"gesture-again.mkv", "ts", []string{"-c:v", "mpeg2video", "-flags", "+ildct+ilme", "-q:v", "4", "-c:a", "mp2"}},
	{"gesture-again.mkv", "avi", []string{"-c:v", "mpeg4", "-q:v", "4", "-c:a", "libmp3lame"}},
	{"film-trailer.mp4", "mov", []string{"-c:v", "prores_ks", "-profile:v", "4444", "-pix_fmt", "yuva444p10le", "-c:a", "pcm_s16le"}},
	{"film-trailer.mp4", "flv", []string{"-c:v", "flv", "-q:v", "4", "-an"}},
	{"rope-skipping.webm", "webm", []string{"-c:v", "libvpx-vp9", "-deadline", "realtime", "-cpu-used", "8", "-an"}},
	{"rope-skipping.webm", "ogv", []string{"-c:v", "libtheora", "-q:v", "6", "-an"}},
	{"ball-in-flight.mp4", "264", []string{"-c:v", "libx264", "-preset", "veryfast", "-bf", "2", "-an"}},
	{"ball-in-flight.mp4", "mxf", []string{"-c:v", "mpeg2video", "-r", "25", "-q:v", "4", "-an"}},
	{"drawn-walk.gif", "gif", nil},
	{"drawn-walk.gif", "mov", []string{"-c:v", "qtrle", "-an"}},
	{"drawn-walk.gif", "png", []string{"-c:v", "apng", "-f", "apng", "-plays", "0"}},
}

// excerptFrames is how long an excerpt is: long enough for beats.
const excerptFrames = 24

var errNoClips = errors.New("no clips named, and none in the folder of real ones")

// makeExcerpts writes what can be made of the clips in a folder.
func makeExcerpts(clips, scratch string) (paths []string, err error) {
	for i, e := range excerpts {
		clip := filepath.Join(clips, e.clip)
		if _, err := os.Stat(clip); err != nil {
			continue
		}
		path := filepath.Join(scratch, fmt.Sprintf("excerpt%d.%s", i, e.form))
		args := append([]string{"-v", "error", "-nostdin", "-y", "-i", clip, "-frames:v", fmt.Sprint(excerptFrames), "-shortest",
			"-vf", "scale=320:-2"}, e.coding...)
		if out, err := exec.Command("ffmpeg", append(args, path)...).CombinedOutput(); err != nil {
			return nil, fmt.Errorf("excerpt of %s as %s: %w\n%s", e.clip, e.form, err, out)
		}
		paths = append(paths, path)
	}
	if len(paths) == 0 {
		return nil, errNoClips
	}
	return paths, nil
}
