package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"holdfast/cmd/draw"
	"holdfast/cmd/holdfast/internal/batch"
	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/cmd/page"
	"holdfast/motion/strip"
	"holdfast/sheet"
)

// An outputError says that a result could not be written.
type outputError struct{ err error }

func (e *outputError) Error() string { return e.err.Error() }
func (e *outputError) Unwrap() error { return e.err }

// A format is one way to write a sheet.
type format struct {
	name          string // what --as calls it
	suffix        string // of its file in a set
	showsWarnings bool   // to a person who reads it
	write         func(s *sheet.Sheet, w io.Writer, width int) error
}

// tableForm is what --as calls the form for people.
const tableForm = "table"

var formats = []format{
	{tableForm, ".txt", true, (*sheet.Sheet).WriteTable},
	{"csv", ".csv", false, func(s *sheet.Sheet, w io.Writer, _ int) error { return s.WriteCSV(w) }},
	{"json", ".json", false, func(s *sheet.Sheet, w io.Writer, _ int) error { return s.WriteJSON(w) }},
	{"notes", ".notes.csv", false, func(s *sheet.Sheet, w io.Writer, _ int) error { return s.WriteNotesCSV(w) }},
	{"vtt", ".vtt", false, func(s *sheet.Sheet, w io.Writer, _ int) error { return s.WriteVTT(w) }},
}

// formatNamed returns the format --as asks for.
func formatNamed(name string) (format, error) {
	var names []string
	for _, f := range formats {
		if f.name == name {
			return f, nil
		}
		names = append(names, f.name)
	}
	return format{}, usage(fmt.Sprintf("--as %s: there is no such form", sheet.Visible(name)),
		"the forms are "+strings.Join(names, ", "))
}

// render returns what a format makes of a sheet.
func (f format) render(s *sheet.Sheet, width int) ([]byte, error) {
	var b bytes.Buffer
	if err := f.write(s, &b, width); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// A set is the folder of files --out writes for one clip. The zero value
// writes nothing.
type set struct {
	stem      string // the clip's name as a file name without suffix
	folder    string // where the files go
	overwrite bool
}

// newSet plans the set of that name below a folder.
func newSet(out, stem string, overwrite bool) set {
	return set{stem: stem, folder: filepath.Join(out, stem), overwrite: overwrite}
}

// ours reports whether a name is that of a file of this set; nil while what
// exists is to be kept.
func (s set) ours() func(name string) bool {
	if !s.overwrite {
		return nil
	}
	return func(name string) bool {
		for _, f := range formats {
			if name == s.stem+f.suffix {
				return true
			}
		}
		own := []string{s.stem + pageSuffix, s.stem + exposureSuffix, s.stem + batch.PosterSuffix, s.stem + batch.RecordSuffix}
		return slices.Contains(own, name) || s.isGround(name) || s.isChart(name)
	}
}

// exposureSuffix ends the name of the exposure sheet.
const exposureSuffix = ".exposure.html"

// groundSuffix ends the names of ground strips; which shot and page they show
// comes before it.
const groundSuffix = ".ground.png"

var whichGround = regexp.MustCompile(`^(-shot[0-9]+)?(-page[0-9]+)?$`)

// isGround reports whether a name is that of a ground strip of this set.
func (s set) isGround(name string) bool {
	which, ours := strings.CutPrefix(name, s.stem)
	which, picture := strings.CutSuffix(which, groundSuffix)
	return ours && picture && whichGround.MatchString(which)
}

// check looks, before any work is done, whether the set can be written.
func (s set) check(clip string) error {
	if same(s.folder, clip) || same(filepath.Dir(s.folder), clip) {
		return usage(fmt.Sprintf("the output %s is the clip itself", sheet.Visible(s.folder)), "choose another folder with --out")
	}
	return whole.Vacant(s.folder, s.ours())
}

// same reports whether two paths lead to one file.
func same(a, b string) bool {
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	return errX == nil && errY == nil && os.SameFile(x, y)
}

// fill writes every format of a sheet, its exposure sheet and its ground strips, into a folder that
// is not in its place yet.
func (s set) fill(ctx context.Context, f *whole.Folder, sh *sheet.Sheet, strips []*strip.Strip) error {
	for _, form := range formats {
		text, err := form.render(sh, sheet.DefaultWidth)
		if err != nil {
			return err
		}
		if err := f.Write(s.stem+form.suffix, text); err != nil {
			return err
		}
	}
	if err := f.WriteFrom(s.stem+exposureSuffix, (&page.ExposureSheet{Sheet: sh}).Write); err != nil {
		return err
	}
	for _, st := range strips {
		if err := s.drawGround(ctx, f, sh, st); err != nil {
			return err
		}
	}
	return nil
}

// drawGround writes the pages of a ground strip one by one: a picture is drawn
// when the one before is on the disk.
func (s set) drawGround(ctx context.Context, f *whole.Folder, sh *sheet.Sheet, st *strip.Strip) error {
	for _, part := range draw.Ground(sh, st) {
		if ctx.Err() != nil {
			return context.Cause(ctx)
		}
		picture, err := part.PNG()
		if err != nil {
			return err
		}
		if err := f.Write(s.stem+part.Suffix()+groundSuffix, picture); err != nil {
			return err
		}
	}
	return nil
}
