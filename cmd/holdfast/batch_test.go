package main

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"io"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"holdfast/extract"
)

// bars is a clip of a bar that goes across and stops, otherwise for each number.
func bars(t *testing.T, path string, number int) {
	t.Helper()
	const w, h, frames = 96, 64, 20
	n := 0
	err := extract.WriteVideo(t.Context(), path, extract.VideoOptions{Width: w, Height: h, Rate: extract.Rate{Num: 24, Den: 1}}, func(dst *image.YCbCr) error {
		if n == frames {
			return io.EOF
		}
		for i := range dst.Y {
			dst.Y[i] = 60
			if x := i%dst.YStride - 5 - min(n, 12)*(1+number%5); x >= 0 && x < 14 {
				dst.Y[i] = uint8(120 + number)
			}
		}
		for i := range dst.Cb {
			dst.Cb[i], dst.Cr[i] = 128, 128
		}
		n++
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// aClass is a folder of clips: nine good ones, three of which are passes of a shot,
// one that is there twice, and three that are none.
func aClass(t *testing.T) (dir string) {
	t.Helper()
	dir = t.TempDir()
	for _, sub := range []string{"in/inner", "in/.hidden"} {
		if err := os.MkdirAll(filepath.Join(dir, sub), 0o777); err != nil {
			t.Fatal(err)
		}
	}
	names := []string{"hop_v1.mp4", "hop_v2.mp4", "hop_v10.mp4", "a b.mp4", "c.mp4", "inner/c.mp4", "inner/d.mp4", "e=f.mp4", "<b>g.mp4", ".hidden/h.mp4"}
	for i, name := range names {
		bars(t, filepath.Join(dir, "in", name), i)
	}
	clip, err := os.ReadFile(filepath.Join(dir, "in", "c.mp4"))
	if err != nil {
		t.Fatal(err)
	}
	for name, content := range map[string][]byte{
		"twice.mp4": clip, "empty.mp4": nil, "text.mp4": []byte("a few words\n"), "cut.mp4": clip[:len(clip)/3], "left.alone": clip,
	} {
		if err := os.WriteFile(filepath.Join(dir, "in", name), content, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// inFolder runs the program in a folder and returns how it ended.
func inFolder(t *testing.T, dir string, args ...string) (exit int, said string) {
	t.Helper()
	cmd := exec.Command(program(t), args...)
	cmd.Dir = dir
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	cmd.Run() // how it ended is asked below
	return cmd.ProcessState.ExitCode(), stderr.String()
}

func program(t *testing.T) string {
	t.Helper()
	if _, err := exec.LookPath("ffmpeg"); err != nil {
		t.Skip("ffmpeg is not installed")
	}
	path, err := exec.LookPath("holdfast")
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// tree is what is below a folder: the content of each file by its name.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		rel, _ := filepath.Rel(dir, path)
		files[filepath.ToSlash(rel)] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// wantSameTree compares what is below two folders to the byte.
func wantSameTree(t *testing.T, got, want map[string]string) {
	t.Helper()
	for _, name := range slices.Sorted(maps.Keys(want)) {
		if text, ok := got[name]; !ok || text != want[name] {
			t.Errorf("%s: there %v, %d bytes, want %d", name, ok, len(text), len(want[name]))
		}
	}
	for name := range got {
		if _, ok := want[name]; !ok {
			t.Errorf("%s is too much", name)
		}
	}
}

const (
	classSheets   = 9 // clips that get one
	classFailures = 3
)

func TestBatch(t *testing.T) {
	dir := aClass(t)
	exit, said := inFolder(t, dir, "batch", "in", "--out", "out", "--jobs", "2")
	if exit != exitBatch {
		t.Fatalf("exit %d, said %s", exit, said)
	}
	for _, line := range []string{
		"in/cut.mp4: ", "in/empty.mp4: empty.mp4 is empty", "in/text.mp4: text.mp4 is text, not a clip",
		"names are read as {shot}_v{pass}", "3 clips without a sheet",
	} {
		if strings.Count(said, line) != 1 {
			t.Errorf("said %q, which does not hold %q once", said, line)
		}
	}
	made := tree(t, filepath.Join(dir, "out"))
	sheets, failures := 0, 0
	for name := range made {
		if strings.HasSuffix(name, ".record") {
			sheets++
		}
		if strings.HasPrefix(name, "failures/") {
			failures++
		}
	}
	if sheets != classSheets || failures != classFailures {
		t.Errorf("%d sheets and %d failures, want %d and %d", sheets, failures, classSheets, classFailures)
	}
	// A clip's own sheet is the one that the sheet command makes.
	if exit, said := inFolder(t, dir, "sheet", "--out", "alone", "in/hop_v2.mp4"); exit != 0 {
		t.Fatal(said)
	}
	for name, text := range tree(t, filepath.Join(dir, "alone")) {
		if made[name] != text {
			t.Errorf("%s differs from that of the sheet command", name)
		}
	}
	table, page := made["overview.csv"], made["overview.html"]
	if n := strings.Count(table, "\r\n"); n != 1+classSheets+1+classFailures {
		t.Errorf("%d lines in the table:\n%s", n, table)
	}
	for _, cell := range []string{`"in/hop_v10.mp4","hop_v10","hop",10,yes`, `"in/hop_v2.mp4","hop_v2","hop",2,,`, `"hop_v2",`, `,"c-`, `"text.mp4 is text, not a clip"`} {
		if !strings.Contains(table, cell) {
			t.Errorf("no %s in the table:\n%s", cell, table)
		}
	}
	if strings.Contains(page, "<b>g") || !strings.Contains(page, "&lt;b&gt;g") {
		t.Error("a name is markup in the overview")
	}
}

// Killed three times, a batch goes on where it was: nothing that is done is touched
// again, and what comes out is that of a run in one go.
func TestBatchKilledGoesOn(t *testing.T) {
	dir := aClass(t)
	if exit, said := inFolder(t, dir, "batch", "in", "--out", "once/out", "--no-pages"); exit != exitBatch {
		t.Fatal(said)
	}
	out := filepath.Join(dir, "out")
	done := map[string]time.Time{}
	for _, most := range []int{1, 4, 7} {
		killBatch(t, dir, out, most)
		for path, at := range done {
			if info, err := os.Stat(path); err != nil || !info.ModTime().Equal(at) {
				t.Errorf("%s was made again (%v)", path, err)
			}
		}
		for _, path := range outcomes(out) {
			info, err := os.Stat(path)
			if err != nil {
				t.Fatal(err)
			}
			done[path] = info.ModTime()
		}
		if len(done) < most {
			t.Fatalf("%d clips are done, want %d before the kill", len(done), most)
		}
	}
	exit, said := inFolder(t, dir, "batch", "in", "--out", "out", "--no-pages")
	if exit != exitBatch || !strings.Contains(said, fmt.Sprintf("12 clips, %d of them done before", len(done))) {
		t.Errorf("exit %d, said %s with %d done", exit, said, len(done))
	}
	for path, at := range done {
		if info, err := os.Stat(path); err != nil || !info.ModTime().Equal(at) {
			t.Errorf("%s was made again (%v)", path, err)
		}
	}
	wantSameTree(t, tree(t, out), tree(t, filepath.Join(dir, "once", "out")))
}

// outcomes are the files by which a clip is known to be done.
func outcomes(out string) []string {
	records, _ := filepath.Glob(filepath.Join(out, "[^.]*", "*.record"))
	failures, _ := filepath.Glob(filepath.Join(out, "failures", "*.json"))
	return append(records, failures...)
}

// killBatch starts the batch and kills it once so many clips are done.
func killBatch(t *testing.T, dir, out string, most int) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, program(t), "batch", "in", "--out", "out", "--jobs", "1", "--quiet", "--no-pages")
	cmd.Dir = dir
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	for len(outcomes(out)) < most && ctx.Err() == nil {
		time.Sleep(time.Millisecond)
	}
	cmd.Process.Kill()
	cmd.Wait()
	// The clip that was at work is told by the kernel, and clears up.
	for ctx.Err() == nil {
		if left, _ := filepath.Glob(filepath.Join(out, ".holdfast-*")); len(left) == 0 {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Error("something half made is left")
}

func TestShares(t *testing.T) {
	dir := aClass(t)
	if exit, said := inFolder(t, dir, "batch", "in", "--out", "once/out", "--no-pages"); exit != exitBatch {
		t.Fatal(said)
	}
	share := func(of string) string {
		t.Helper()
		exit, said := inFolder(t, dir, "batch", "in", "--out", "out", "--no-pages", "--share", of)
		if exit != 0 && exit != exitBatch {
			t.Fatalf("share %s: exit %d, said %s", of, exit, said)
		}
		return said
	}
	gathers := func(want int, text string) {
		t.Helper()
		before := tree(t, dir)
		exit, said := inFolder(t, dir, "gather", "out")
		if exit != want || !strings.Contains(said, text) {
			t.Errorf("exit %d, said %s; want %d and %q", exit, said, want, text)
		}
		if want == exitInput {
			wantSameTree(t, tree(t, dir), before)
		}
	}
	share("1/3")
	share("3/3")
	gathers(exitInput, "out lacks 1 of 3 shares: 2")
	share("2/3")
	share("1/2")
	gathers(exitInput, "shares of")
	if err := os.RemoveAll(filepath.Join(dir, "out", "shares", "1-of-2")); err != nil {
		t.Fatal(err)
	}
	// A share that was stopped is not whole.
	results := outcomes(filepath.Join(dir, "out", "shares", "2-of-3"))
	if len(results) == 0 {
		t.Fatal("share 2 has no results")
	}
	lost := filepath.Dir(results[0])
	if err := os.Rename(lost, filepath.Join(dir, "aside")); err != nil {
		t.Fatal(err)
	}
	gathers(exitInput, "1 of 12 clips are not done")
	if err := os.Rename(filepath.Join(dir, "aside"), lost); err != nil {
		t.Fatal(err)
	}
	gathers(exitBatch, "13 clips in out")
	wantSameTree(t, tree(t, filepath.Join(dir, "out")), tree(t, filepath.Join(dir, "once", "out")))
	gathers(exitBatch, "13 clips in out") // nothing is left to do
}

func TestBatchTwiceAtOnce(t *testing.T) {
	dir := aClass(t)
	if err := os.Mkdir(filepath.Join(dir, "out"), 0o777); err != nil {
		t.Fatal(err)
	}
	first := exec.Command(program(t), "batch", "in", "--out", "out", "--jobs", "1", "--quiet", "--no-pages")
	first.Dir = dir
	if err := first.Start(); err != nil {
		t.Fatal(err)
	}
	for until := time.Now().Add(patience); len(outcomes(filepath.Join(dir, "out"))) == 0 && time.Now().Before(until); {
		time.Sleep(time.Millisecond)
	}
	exit, said := inFolder(t, dir, "batch", "in", "--out", "out", "--no-pages")
	if exit != exitOutput || !strings.Contains(said, "another run is at work in this folder") {
		t.Errorf("exit %d, said %s", exit, said)
	}
	first.Wait()
	if got := first.ProcessState.ExitCode(); got != exitBatch {
		t.Errorf("the first ended with %d", got)
	}
}

// What is new in a watched folder is measured once it no longer grows.
func TestBatchWatches(t *testing.T) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in"), filepath.Join(dir, "out")
	if err := os.Mkdir(in, 0o777); err != nil {
		t.Fatal(err)
	}
	bars(t, filepath.Join(in, "a.mp4"), 1)
	bars(t, filepath.Join(dir, "late.mp4"), 2)
	cmd := exec.Command(program(t), "batch", "in", "--out", "out", "--watch", "--quiet")
	cmd.Dir = dir
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	defer cmd.Wait()
	defer cmd.Process.Kill()
	there := func(name string) {
		t.Helper()
		for until := time.Now().Add(time.Minute); time.Now().Before(until); time.Sleep(20 * time.Millisecond) {
			if table, err := os.ReadFile(filepath.Join(out, "overview.csv")); err == nil && bytes.Contains(table, []byte(name)) {
				return
			}
		}
		t.Fatalf("%s is not in the overview", name)
	}
	there("a.mp4")
	late, err := os.ReadFile(filepath.Join(dir, "late.mp4"))
	if err != nil {
		t.Fatal(err)
	}
	// It comes in pieces: half of it alone could not be read.
	f, err := os.Create(filepath.Join(in, "b.mp4"))
	if err != nil {
		t.Fatal(err)
	}
	for half := range slices.Chunk(late, len(late)/2+1) {
		if _, err := f.Write(half); err != nil {
			t.Fatal(err)
		}
		time.Sleep(watchPause / 4)
	}
	f.Close()
	there("b.mp4")
	if failures, _ := filepath.Glob(filepath.Join(out, "failures", "*")); len(failures) > 0 {
		t.Errorf("measured too early: %v", failures)
	}
	cmd.Process.Signal(os.Interrupt)
	cmd.Wait()
	if got := cmd.ProcessState.ExitCode(); got != 130 {
		t.Errorf("ended with %d, want 130", got)
	}
}
