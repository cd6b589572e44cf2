package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"holdfast/motion/scene"
)

// What a class of clips is made of: 200 of two seconds, of which ten are none.
const (
	classClips  = 200
	classBad    = 10
	classFrames = 48
	// pairedClips are those of them on which one clip at a time is held against
	// several.
	pairedClips = 40
)

var classSize = image.Pt(320, 180)

// many measures a class with the batch command: in one go, and killed three times
// on the way; and some of it one clip at a time.
func many(ctx context.Context, program string, stdout, stderr io.Writer) error {
	program, err := filepath.Abs(program)
	if err != nil {
		return err
	}
	dir, err := os.MkdirTemp("", "holdfast-bench-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	fmt.Fprintf(stderr, "drawing %d clips\n", classClips)
	if err := drawClass(ctx, dir); err != nil {
		return err
	}
	b := &batches{ctx: ctx, program: program, dir: dir}
	out := newTable("MANY CLIPS: "+fmt.Sprintf("%d of %d frames at %s, %d of them bad", classClips, classFrames, sizeName(classSize), classBad), 1,
		"run", "clips", "sheets", "failures", "wall s", "clips\na minute", "CPU s\na clip", "kB\na clip", "peak\nMB", "made\nagain", "other\nfiles")
	fmt.Fprintln(stderr, "one at a time, and several")
	alone, err := b.run("few", "alone", "--jobs", "1")
	if err != nil {
		return err
	}
	together, err := b.run("few", "together")
	if err != nil {
		return err
	}
	fmt.Fprintln(stderr, "all in one go")
	whole, err := b.run("in", "whole")
	if err != nil {
		return err
	}
	fmt.Fprintln(stderr, "all, killed three times")
	again, err := b.killed("in", "whole2/whole", 50, 100, 150)
	if err != nil {
		return err
	}
	rest, err := b.run("in", "whole2/whole")
	if err != nil {
		return err
	}
	other, err := differing(filepath.Join(dir, "whole"), filepath.Join(dir, "whole2", "whole"))
	if err != nil {
		return err
	}
	line := func(name string, r batchRun, more ...any) {
		n := float64(r.clips)
		row := []any{name, r.clips, r.sheets, r.failures, fmt.Sprintf("%.1f", r.wall), fmt.Sprintf("%.0f", 60*n/r.wall),
			fmt.Sprintf("%.2f", r.cpu/n), fmt.Sprintf("%.0f", r.bytes/1e3/n), fmt.Sprintf("%.0f", r.memory/1e6)}
		out.AppendRow(append(row, more...))
	}
	line("one at a time", alone)
	line(fmt.Sprintf("several, %.2f times as fast", alone.wall/together.wall), together)
	line("all in one go", whole)
	out.AppendRow([]any{"all, killed three times", rest.clips, rest.sheets, rest.failures, "", "", "", "", "", again, other})
	return render(stdout, out)
}

// drawClass draws the clips: the scenes of the catalogue in turn, each with grain of
// its own, so that no two are the same.
func drawClass(ctx context.Context, dir string) error {
	scenes, err := scene.Catalogue(classSize)
	if err != nil {
		return err
	}
	for _, sub := range []string{"in", "few"} {
		if err := os.Mkdir(filepath.Join(dir, sub), 0o777); err != nil {
			return err
		}
	}
	for i := range classClips {
		path := filepath.Join(dir, "in", fmt.Sprintf("shot%03d_v%d.mp4", i/2, 1+i%2))
		sc, err := scenes[i%len(scenes)].With(scene.Variant{Condition: scene.Condition{Noise: 1}, Seed: uint64(i + 1)})
		if err != nil {
			return err
		}
		n, p := 0, ofScene(sc)
		err = writeFrames(ctx, path, &p, fineCRF, func(dst *image.YCbCr) error {
			if n == min(classFrames, sc.Frames) {
				return io.EOF
			}
			n++
			return sc.Draw(dst, n-1)
		})
		if err == nil && i%(classClips/classBad) == 7 {
			err = spoilClip(path, i/(classClips/classBad))
		} else if err == nil && i < pairedClips {
			err = os.Link(path, filepath.Join(dir, "few", filepath.Base(path)))
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// headerBytes is how much is left of a clip that is cut short: no picture.
const headerBytes = 200

// spoilClip makes a clip one that cannot be read, in some way, and unlike others.
func spoilClip(path string, way int) error {
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	switch way % 4 {
	case 0:
		text = nil
	case 1:
		text = fmt.Appendf(nil, "a few words, %d\n", way)
	case 2:
		text = text[:headerBytes+way]
	default:
		text = bytes.Repeat([]byte{0x47, 0x11, byte(way)}, 4000)
	}
	return os.WriteFile(path, text, 0o666)
}

// batches runs the batch command in a folder.
type batches struct {
	ctx          context.Context
	program, dir string
}

// A batchRun is what came of a run.
type batchRun struct {
	resources
	clips, sheets, failures int
	bytes                   float64 // of all results
}

func (b *batches) args(in, out string, more ...string) []string {
	return append([]string{b.program, "batch", filepath.Join(b.dir, in), "--out", filepath.Join(b.dir, out), "--quiet", "--no-cache"}, more...)
}

// run runs a batch to its end.
func (b *batches) run(in, out string, more ...string) (r batchRun, err error) {
	r.resources, err = runProcess(b.ctx, b.args(in, out, more...))
	var exit *exec.ExitError
	if err != nil && !(errors.As(err, &exit) && exit.ExitCode() == 7) { // 7: some clips have no sheet
		return r, err
	}
	for _, path := range done(filepath.Join(b.dir, out)) {
		if filepath.Ext(path) == ".json" {
			r.failures++
		} else {
			r.sheets++
		}
	}
	r.clips = r.sheets + r.failures
	return r, filepath.WalkDir(filepath.Join(b.dir, out), func(_ string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err == nil {
			r.bytes += float64(info.Size())
		}
		return err
	})
}

// done are the files by which clips are known to be done.
func done(out string) []string {
	records, _ := filepath.Glob(filepath.Join(out, "[^.]*", "*.record"))
	failures, _ := filepath.Glob(filepath.Join(out, "failures", "*.json"))
	return append(records, failures...)
}

// killed starts a batch again and again and kills it when so many clips are done.
// It returns how many of those that were done were made again.
func (b *batches) killed(in, out string, at ...int) (again int, err error) {
	folder := filepath.Join(b.dir, out)
	made := map[string]time.Time{}
	for _, most := range at {
		args := b.args(in, out)
		cmd := exec.CommandContext(b.ctx, args[0], args[1:]...)
		if err := cmd.Start(); err != nil {
			return 0, err
		}
		for len(done(folder)) < most && b.ctx.Err() == nil {
			time.Sleep(5 * time.Millisecond)
		}
		cmd.Process.Kill()
		cmd.Wait() // it was killed
		time.Sleep(time.Second)
		for _, path := range done(folder) {
			info, err := os.Stat(path)
			if err != nil {
				return 0, err
			}
			if before, ok := made[path]; ok && !before.Equal(info.ModTime()) {
				again++
			}
			made[path] = info.ModTime()
		}
	}
	return again, context.Cause(b.ctx)
}

// differing counts the files that are not the same below two folders.
func differing(a, b string) (n int, err error) {
	count := func(a, b string, content bool) error {
		return filepath.WalkDir(a, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			rel, err := filepath.Rel(a, path)
			if err != nil {
				return err
			}
			other, err := os.ReadFile(filepath.Join(b, rel))
			if err != nil {
				n++
				return nil
			}
			text, err := os.ReadFile(path)
			if content && !bytes.Equal(text, other) {
				n++
			}
			return err
		})
	}
	return n, errors.Join(count(a, b, true), count(b, a, false))
}
