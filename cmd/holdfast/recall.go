package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"github.com/urfave/cli/v2"

	"holdfast/cmd/assemble"
	"holdfast/cmd/holdfast/internal/cache"
	"holdfast/extract"
)

// cacheVariable names the folder of the cache where it is set.
const cacheVariable = "HOLDFAST_CACHE"

const (
	// defaultCacheMB is room for hundreds of usual clips: one of ten seconds takes a
	// few hundred kilobytes.
	defaultCacheMB = 256
	maxCacheMB     = 1 << 20
)

func cacheFlags() []cli.Flag {
	return []cli.Flag{
		&cli.BoolFlag{Name: "no-cache", DisableDefaultText: true, Usage: "measure anew, and keep nothing for the next run"},
		&cli.IntFlag{Name: "cache-size", Value: defaultCacheMB, Usage: "let what is kept of earlier runs take `MB` on the disk, all together"},
	}
}

// readCache understands them. Where no folder can be told there is no cache.
func readCache(c *cli.Context) (cache.Cache, error) {
	mb := c.Int("cache-size")
	switch {
	case mb < 1 || mb > maxCacheMB:
		return cache.Cache{}, usage(fmt.Sprintf("--cache-size %d is out of range", mb),
			fmt.Sprintf("sizes go from 1 to %d MB; --no-cache does without", maxCacheMB))
	case c.Bool("no-cache") && c.IsSet("cache-size"):
		return cache.Cache{}, usage("--no-cache and --cache-size say opposite things", "leave one of them out")
	case c.Bool("no-cache"):
		return cache.Cache{}, nil
	}
	return cache.Cache{Dir: cacheFolder(), Bytes: int64(mb) * 1e6}, nil
}

// cacheFolder is where what was measured is kept; empty for nowhere.
func cacheFolder() string {
	if dir := os.Getenv(cacheVariable); dir != "" {
		return dir
	}
	dir, err := os.UserCacheDir() // $XDG_CACHE_HOME, or ~/.cache
	if err != nil {
		return ""
	}
	return filepath.Join(dir, "holdfast")
}

// recall returns what an earlier run measured in the same clip in the same way;
// nil where there is none. key is that of this run, empty where nothing can be kept.
func (j *sheetJob) recall(ctx context.Context) (m *assemble.Measured, key string) {
	if j.cache.Dir == "" {
		return nil, ""
	}
	sum, err := extract.SHA256(ctx, j.clip)
	if err != nil {
		return nil, "" // the reader words it better
	}
	if key, err = j.key(ctx, sum); err != nil {
		return nil, ""
	}
	content, ok := j.cache.Get(key)
	if !ok {
		return nil, key
	}
	if m, err = assemble.Kept(content); err != nil || m.SHA256 != sum {
		return nil, key
	}
	m.Rename(extract.SafeName(j.clip), j.clip)
	j.detail("%s was measured before: taken from the cache", m.Clip().Name)
	return m, key
}

// keep stores what was measured for the next run, unless the clip is no longer the
// one that the key was made of, or its name stands in what was measured.
func (j *sheetJob) keep(ctx context.Context, key string, m *assemble.Measured) {
	named := slices.ContainsFunc(m.Warnings, func(w string) bool { return strings.Contains(w, m.Clip().Name) })
	if now, err := j.key(ctx, m.SHA256); key == "" || named || err != nil || now != key {
		return
	}
	content, err := m.Keep()
	if err == nil {
		err = j.cache.Put(key, content)
	}
	if err != nil {
		j.detail("not kept in the cache: %v", err)
	}
}

// key is made of all that decides what is measured in a clip whose checksum is
// sum: the program, ffmpeg, how the clip is read, what is shown by hand and which
// sound is heard. What decides about the output alone is not in it.
func (j *sheetJob) key(ctx context.Context, sum string) (string, error) {
	program, err := programStamp()
	if err != nil {
		return "", err
	}
	tools, err := extract.ToolStamp()
	if err != nil {
		return "", err
	}
	heard, err := j.sound.stamp(ctx)
	if err != nil {
		return "", err
	}
	parts := []string{program, tools, sum, clipKind(j.clip), heard, fmt.Sprintf("%+v", j.read)}
	for _, m := range j.marks {
		// Their frames are numbers as the first one is called.
		parts = append(parts, fmt.Sprintf("%d %s %s", j.first, m.option, m.text))
	}
	return cache.Key(parts...), nil
}

// clipKind is what of a clip's name may decide how it is read: its suffix, which
// hints at the form of the file, or the pattern of a sequence.
func clipKind(path string) string {
	if base := filepath.Base(path); strings.ContainsAny(base, "%[*?") {
		return base
	}
	return strings.ToLower(filepath.Ext(path))
}

// stamp tells one choice of sound from another.
func (o soundOptions) stamp(ctx context.Context) (string, error) {
	if o.file == "" {
		return fmt.Sprintf("own %v %g", !o.none, o.offset), nil
	}
	sum, err := extract.SHA256(ctx, o.file)
	return fmt.Sprintf("%s %s %g", sum, extract.SafeName(o.file), o.offset), err
}

// programStamp is the checksum of the running program, made once: each build
// measures for itself, whatever it calls its version.
var programStamp = sync.OnceValues(func() (string, error) {
	path, err := os.Executable()
	if err != nil {
		return "", err
	}
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
})
