package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"github.com/urfave/cli/v2"

	"holdfast/sheet"
)

func remarksFlag() cli.Flag {
	return &cli.StringFlag{Name: "remarks", Usage: "put a reviewer's own words beside the notes, from `FILE`: lines such as 43-51: longer hold here, or WebVTT"}
}

// A remarkFile is the remarks of a file, not yet placed in a clip. A nil one has
// none.
type remarkFile struct {
	path string
	list []sheet.PlacedRemark
}

// readRemarks reads the file of --remarks; nil where none is named.
func readRemarks(c *cli.Context) (*remarkFile, error) {
	if !c.IsSet("remarks") {
		return nil, nil
	}
	f := &remarkFile{path: c.String("remarks")}
	file, err := openPlain(f.path)
	if err != nil {
		return nil, f.refuse(err)
	}
	defer file.Close()
	if f.list, err = sheet.ReadRemarks(file); err != nil {
		return nil, f.refuse(err)
	}
	return f, nil
}

// openPlain opens a file, but no pipe, which may never speak.
func openPlain(path string) (*os.File, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, errors.New("there is no such file")
	case err != nil:
		return nil, reasonOf(err)
	case !info.Mode().IsRegular():
		return nil, errors.New("is not a regular file")
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, reasonOf(err)
	}
	return file, nil
}

// into puts the remarks beside a sheet's notes.
func (f *remarkFile) into(s *sheet.Sheet) error {
	if f == nil {
		return nil
	}
	if err := s.AddRemarks(f.list); err != nil {
		return f.refuse(err)
	}
	return nil
}

// refuse words what is wrong with the file as a wrong command line.
func (f *remarkFile) refuse(err error) error {
	hint := "name a text file of remarks"
	var wrong *sheet.RemarkError
	if errors.As(err, &wrong) {
		hint = wrong.Hint()
	}
	return usage(fmt.Sprintf("--remarks %s: %v", sheet.Visible(f.path), err), hint)
}
