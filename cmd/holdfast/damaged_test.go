package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// A damaged clip gives the same bytes on every run, however many processors there
// are and however many threads the decoder would have of them.
func TestDamagedClipsGiveTheSameBytes(t *testing.T) {
	dir := t.TempDir()
	ffmpegIn(t, dir, "-f", "lavfi", "-i", "mandelbrot=s=192x108:r=24:start_scale=0.3", "-frames:v", "36", "-c:v", "ffv1", "whole.mkv")
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	tools := map[string]string{}
	for _, name := range []string{"ffmpeg", "ffprobe"} {
		path, err := exec.LookPath(name)
		if err != nil {
			t.Fatal(err)
		}
		tools[name] = path
	}
	for file, coding := range map[string]string{
		"mended.mp4": "-c:v libx264 -preset veryfast -bf 3 -g 12",
		"mended.ts":  "-c:v mpeg2video -bf 2 -g 12",
	} {
		ffmpegIn(t, dir, strings.Fields("-i whole.mkv "+coding+" "+file)...)
		path := filepath.Join(dir, file)
		scratch(t, path)
		var first string
		for _, c := range []struct{ processors, decoder int }{{1, 2}, {2, 2}, {4, 8}, {2, 1}} {
			runtime.GOMAXPROCS(c.processors)
			t.Setenv("PATH", decoderWith(t, tools, c.decoder))
			code, out, errs := runFor("sheet", "--as", "json", "--no-sound", path)
			if code != 0 || !strings.Contains(out, "damaged") {
				t.Fatalf("%s: exit %d, not taken for damaged: %s", file, code, errs)
			}
			if first == "" {
				first = out
			}
			if out != first {
				t.Errorf("%s: %d processors and %d threads of the decoder give other bytes than 1 and 2", file, c.processors, c.decoder)
			}
		}
	}
}

// scratch flips a few bits of a clip's middle, the same ones on every run.
func scratch(t *testing.T, path string) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	dice := rand.New(rand.NewPCG(1, uint64(len(filepath.Base(path)))))
	from, to := len(data)/4, len(data)*3/4
	for range 12 {
		data[from+dice.IntN(to-from)] ^= 1 << dice.IntN(8)
	}
	if err := os.WriteFile(path, data, 0o666); err != nil {
		t.Fatal(err)
	}
}

// decoderWith returns a PATH on which the tools have so many threads wherever they
// are asked to have several, as on a machine with as many processors.
func decoderWith(t *testing.T, tools map[string]string, threads int) string {
	t.Helper()
	dir := t.TempDir()
	for name, path := range tools {
		script := fmt.Sprintf(`#!/bin/bash
for ((i = 1; i < $#; i++)); do
	j=$((i + 1))
	if [ "${!i}" = -threads ] && [ "${!j}" != 1 ]; then
		exec %[1]s "${@:1:i}" %[2]d "${@:j+1}"
	fi
done
exec %[1]s "$@"
`, path, threads)
		if err := os.WriteFile(filepath.Join(dir, name), []byte(script), 0o777); err != nil {
			t.Fatal(err)
		}
	}
	return dir + string(os.PathListSeparator) + os.Getenv("PATH")
}
