package whole

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"sync"
	"syscall"
	"testing"
)

func txtOnly(name string) bool { return filepath.Ext(name) == ".txt" }

// put writes one folder with one file.
func put(ctx context.Context, final, text string, ours func(string) bool) error {
	f, err := Begin(final)
	if err != nil {
		return err
	}
	defer f.Discard()
	if err := f.Write("a.txt", []byte(text)); err != nil {
		return err
	}
	return f.Commit(ctx, ours)
}

func read(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// entries lists everything below a folder.
func entries(t *testing.T, dir string) (names []string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, _ fs.DirEntry, err error) error {
		if rel, _ := filepath.Rel(dir, path); rel != "." {
			names = append(names, rel)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

func TestFolderAppears(t *testing.T) {
	dir := t.TempDir()
	if err := put(t.Context(), filepath.Join(dir, "new", "er", "clip"), "one", nil); err != nil {
		t.Fatal(err)
	}
	want := []string{"new", "new/er", "new/er/clip", "new/er/clip/a.txt"}
	if got := entries(t, dir); !slices.Equal(got, want) {
		t.Errorf("found %q", got)
	}
}

func TestExistingFolderIsKept(t *testing.T) {
	final := filepath.Join(t.TempDir(), "clip")
	if err := put(t.Context(), final, "one", nil); err != nil {
		t.Fatal(err)
	}
	if err := put(t.Context(), final, "two", nil); !errors.Is(err, fs.ErrExist) {
		t.Errorf("error %v", err)
	}
	if got := read(t, filepath.Join(final, "a.txt")); got != "one" {
		t.Errorf("the folder now holds %q", got)
	}
	if err := put(t.Context(), final, "three", txtOnly); err != nil {
		t.Fatal(err)
	}
	if got := read(t, filepath.Join(final, "a.txt")); got != "three" {
		t.Errorf("asked to replace, the folder holds %q", got)
	}
	if got := entries(t, filepath.Dir(final)); !slices.Equal(got, []string{"clip", "clip/a.txt"}) {
		t.Errorf("left behind: %q", got)
	}
}

func TestForeignThingsAreNotReplaced(t *testing.T) {
	for name, plant := range map[string]func(final string) error{
		"a file":            func(p string) error { return os.WriteFile(p, nil, 0o666) },
		"a link":            func(p string) error { return os.Symlink("elsewhere", p) },
		"a link to results": func(p string) error { os.Mkdir(p+"x", 0o777); return os.Symlink(p+"x", p) },
		"another's file": func(p string) error {
			os.Mkdir(p, 0o777)
			return os.WriteFile(filepath.Join(p, "a.mp4"), nil, 0o666)
		},
		"a folder in it": func(p string) error { return os.MkdirAll(filepath.Join(p, "b.txt"), 0o777) },
	} {
		final := filepath.Join(t.TempDir(), "clip")
		if err := plant(final); err != nil {
			t.Fatal(err)
		}
		before := entries(t, filepath.Dir(final))
		if err := put(t.Context(), final, "one", txtOnly); !errors.Is(err, ErrForeign) {
			t.Errorf("%s: error %v", name, err)
		}
		if err := put(t.Context(), final, "one", nil); !errors.Is(err, fs.ErrExist) {
			t.Errorf("%s: error %v", name, err)
		}
		if got := entries(t, filepath.Dir(final)); !slices.Equal(got, before) {
			t.Errorf("%s: %q became %q", name, before, got)
		}
	}
}

// A place taken between the look and the move is still not replaced.
func TestRenameNewRefuses(t *testing.T) {
	dir := t.TempDir()
	from, to := filepath.Join(dir, "from"), filepath.Join(dir, "to")
	for _, p := range []string{from, to} {
		if err := os.Mkdir(p, 0o777); err != nil {
			t.Fatal(err)
		}
	}
	if err := renameNew(from, to); !errors.Is(err, fs.ErrExist) {
		t.Errorf("error %v", err)
	}
}

func TestFailureLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	ctx, cancel := context.WithCancelCause(t.Context())
	reason := errors.New("enough")
	cancel(reason)
	if err := put(ctx, filepath.Join(dir, "new", "er", "clip"), "one", nil); !errors.Is(err, reason) {
		t.Errorf("error %v", err)
	}
	if got := entries(t, dir); len(got) > 0 {
		t.Errorf("left behind: %q", got)
	}
}

func TestParentIsAFile(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	if err := os.WriteFile(file, []byte("mine"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, final := range []string{filepath.Join(file, "clip"), filepath.Join(file, "deep", "clip")} {
		var e *Error
		if err := put(t.Context(), final, "one", nil); !errors.As(err, &e) {
			t.Errorf("%s: error %v", final, err)
		}
	}
	if read(t, file) != "mine" {
		t.Error("the file changed")
	}
}

// A limit on the size of files stands in for a full disk: the write fails half
// way.
func TestFullDiskLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	f, err := Begin(filepath.Join(dir, "clip"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Discard()
	var e *Error
	if err := writeLimited(t, f, 8<<10); !errors.As(err, &e) || !errors.Is(err, syscall.EFBIG) {
		t.Errorf("error %v", err)
	}
	f.Discard()
	if got := entries(t, dir); len(got) > 0 {
		t.Errorf("left behind: %q", got)
	}
}

// writeLimited writes more than the limit allows.
func writeLimited(t *testing.T, f *Folder, limit uint64) error {
	var old syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &old); err != nil {
		t.Skip("no limit on file sizes here:", err)
	}
	signal.Ignore(syscall.SIGXFSZ)
	defer signal.Reset(syscall.SIGXFSZ)
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: limit, Max: old.Max}); err != nil {
		t.Fatal(err)
	}
	defer syscall.Setrlimit(syscall.RLIMIT_FSIZE, &old)
	return f.Write("big.txt", make([]byte, 2*limit))
}

func TestLeftoversAreSweptAndLiveFoldersAreNot(t *testing.T) {
	dir := t.TempDir()
	final := filepath.Join(dir, "clip")
	live, err := Begin(final)
	if err != nil {
		t.Fatal(err)
	}
	defer live.Discard()
	dead := filepath.Join(dir, prefix+"0000")
	if err := os.MkdirAll(filepath.Join(dead, "deep"), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := put(t.Context(), final, "one", nil); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Lstat(dead); !errors.Is(err, fs.ErrNotExist) {
		t.Error("the leftover of a dead run is still there")
	}
	if _, err := os.Lstat(live.temp); err != nil {
		t.Error("the folder of a live run is gone")
	}
}

func TestOneOfManyWins(t *testing.T) {
	final := filepath.Join(t.TempDir(), "new", "clip")
	errs := make([]error, 8)
	var group sync.WaitGroup
	for i := range errs {
		group.Add(1)
		go func() {
			defer group.Done()
			errs[i] = put(t.Context(), final, "one", nil)
		}()
	}
	group.Wait()
	won := 0
	for _, err := range errs {
		if err == nil {
			won++
		} else if !errors.Is(err, fs.ErrExist) {
			t.Errorf("a loser says %v", err)
		}
	}
	if won != 1 {
		t.Errorf("%d of 8 won", won)
	}
	if got := entries(t, filepath.Dir(final)); !slices.Equal(got, []string{"clip", "clip/a.txt"}) {
		t.Errorf("left behind: %q", got)
	}
}
