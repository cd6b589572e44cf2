package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"holdfast/cmd/assemble"
	"holdfast/cmd/holdfast/internal/cache"
	"holdfast/extract"
	"holdfast/sheet"
)

// A sheetFileError says that a file which should hold a sheet does not.
type sheetFileError struct {
	name string // escaped base name
	err  error
}

func (e *sheetFileError) Error() string { return fmt.Sprintf("%s is no beat sheet: %v", e.name, e.err) }
func (e *sheetFileError) Unwrap() error { return e.err }

const sheetFileHint = "make it again with: holdfast sheet --as json CLIP"

// A taker gets the sheet of a clip, or of a sheet made before.
type taker struct {
	read  extract.Options // how clips are read
	first int             // number of their first frame
	house *sheet.House
	cache cache.Cache
	voice
}

// measuringFlags are for every command that measures clips.
func measuringFlags() []cli.Flag { return slices.Concat(careFlags(), cacheFlags(), limitFlags()) }

// maxFirst bounds the number of the first frame; that of the last then stays
// far below what a sheet holds.
const maxFirst = 100_000_000

// readTaker understands them together with --fps, --first-frame, --house and those of
// the voice. Of commands without --first-frame the first frame is 1.
func readTaker(c *cli.Context) (t taker, err error) {
	t.first = 1
	if c.IsSet("first-frame") {
		t.first = c.Int("first-frame")
	}
	if t.first < -maxFirst || t.first > maxFirst {
		return t, usage(fmt.Sprintf("--first-frame %d is out of range", t.first), fmt.Sprintf("frame numbers go from %d to %d", -maxFirst, maxFirst))
	}
	if t.voice, err = readVoice(c); err != nil {
		return t, err
	}
	if t.cache, err = readCache(c); err != nil {
		return t, err
	}
	if t.read, err = readReading(c); err != nil {
		return t, err
	}
	t.house, err = readHouse(c)
	return t, err
}

// readReading understands how clips are to be read.
func readReading(c *cli.Context) (o extract.Options, err error) {
	if o.WorkArea, err = readCare(c); err != nil {
		return o, err
	}
	if o.Limits, err = readLimits(c); err != nil {
		return o, err
	}
	if c.IsSet("fps") {
		if o.FPS, err = extract.ParseRate(c.String("fps")); err != nil {
			return o, usage(fmt.Sprintf("--fps: %v", err), "write a rate such as 24, 23.976 or 30000/1001")
		}
	}
	return o, nil
}

// isSheetFile reports whether a name is that of a sheet made before.
func isSheetFile(path string) bool { return strings.EqualFold(filepath.Ext(path), ".json") }

// take measures a clip, or reads its sheet.
func (t *taker) take(ctx context.Context, path string) (*sheet.Sheet, error) {
	if isSheetFile(path) {
		return readSheet(path)
	}
	return t.measure(ctx, path)
}

// measure measures a clip.
func (t *taker) measure(ctx context.Context, path string) (*sheet.Sheet, error) {
	s, _, err := t.measureBoxes(ctx, path)
	return s, err
}

// measureBoxes measures a clip, and says where its figures are.
func (t *taker) measureBoxes(ctx context.Context, path string) (*sheet.Sheet, []assemble.FigureBoxes, error) {
	j := &sheetJob{clip: path, taker: *t, metres: sheet.DefaultFigureHeight}
	m, err := j.measure(ctx)
	if err != nil {
		return nil, nil, err
	}
	s := m.Sheet()
	for _, w := range s.Clip.Warnings {
		t.say("%s: warning: %s", s.Clip.Name, w)
	}
	return s, m.Boxes(), nil
}

func readSheet(path string) (*sheet.Sheet, error) {
	name := extract.SafeName(path)
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, &extract.InputError{Name: name, Kind: extract.Missing}
	case err != nil:
		return nil, &sheetFileError{name, reasonOf(err)}
	case !info.Mode().IsRegular():
		// A pipe may never speak.
		return nil, &extract.InputError{Name: name, Kind: extract.NotRegular}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, &sheetFileError{name, reasonOf(err)}
	}
	defer f.Close()
	s, err := sheet.Read(f)
	if err != nil {
		return nil, &sheetFileError{name, err}
	}
	return s, nil
}
