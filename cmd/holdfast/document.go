package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/sheet"
)

// A form is one way to write a T.
type form[T any] struct {
	name   string // what --as calls it
	suffix string // of its file
	write  func(v T, w io.Writer, width int) error
}

// A document is what a command that holds sheets against each other puts out:
// one form to standard output, and all of them to a folder where one is named.
type document[T any] struct {
	forms     []form[T]
	as        form[T]
	out       string // folder for the document's own; empty: none
	overwrite bool
	take      taker
	page      func(ctx context.Context, folder *whole.Folder) error // writes its page too; nil: it has none
	stdout    io.Writer
}

// documentFlags are the options of every such command.
func documentFlags(forms string) []cli.Flag {
	return slices.Concat([]cli.Flag{
		&cli.StringFlag{Name: "as", Value: "table", Usage: "print it as `FORM`: " + forms},
		&cli.StringFlag{Name: "out", Usage: "also write every form to a folder of its own in `DIR`"},
		&cli.BoolFlag{Name: "overwrite", DisableDefaultText: true, Usage: "let --out replace an older result"},
		&cli.StringFlag{Name: "fps", Usage: "count frames at `RATE`; the clips are conformed to it. Of an image sequence, that it was rendered at (24 unless said)"},
		houseFlag(),
	}, measuringFlags(), voiceFlags("no progress, no warnings; with --out print nothing"))
}

// newDocument understands those options.
func newDocument[T any](c *cli.Context, forms []form[T]) (*document[T], error) {
	d := &document[T]{
		forms: forms, out: c.String("out"), overwrite: c.Bool("overwrite"),
		stdout: c.App.Writer,
	}
	i := slices.IndexFunc(forms, func(f form[T]) bool { return f.name == c.String("as") })
	if i < 0 {
		return nil, usage(fmt.Sprintf("--as %s: there is no such form", sheet.Visible(c.String("as"))), "the forms are "+formNames(forms))
	}
	d.as = forms[i]
	if c.IsSet("out") && d.out == "" {
		return nil, usage("--out: no folder given", "--out . writes here")
	}
	if d.overwrite && d.out == "" {
		return nil, usage("--overwrite goes with --out", "say where with --out DIR")
	}
	var err error
	d.take, err = readTaker(c)
	return d, err
}

func formNames[T any](forms []form[T]) string {
	var names []string
	for _, f := range forms {
		names = append(names, f.name)
	}
	return strings.Join(names, ", ")
}

func (d *document[T]) folder(stem string) string { return filepath.Join(d.out, stem) }

// ours reports whether a name is that of a file of this document; nil while what
// exists is to be kept.
func (d *document[T]) ours(stem string) func(name string) bool {
	if !d.overwrite {
		return nil
	}
	return func(name string) bool {
		return name == stem+pageSuffix || slices.ContainsFunc(d.forms, func(f form[T]) bool { return name == stem+f.suffix })
	}
}

// vacant reports, before any work is done, what would be in the way.
func (d *document[T]) vacant(stem string) error {
	if d.out == "" {
		return nil
	}
	return whole.Vacant(d.folder(stem), d.ours(stem))
}

// put prints v, and writes its files if they are wanted: they are ready before
// anything is printed and move to their place after.
func (d *document[T]) put(ctx context.Context, stem string, v T) error {
	if d.out == "" {
		return d.print(v)
	}
	folder, err := whole.Begin(d.folder(stem))
	if err != nil {
		return err
	}
	defer folder.Discard()
	for _, f := range d.forms {
		var text bytes.Buffer
		if err := f.write(v, &text, sheet.DefaultWidth); err != nil {
			return err
		}
		if err := folder.Write(stem+f.suffix, text.Bytes()); err != nil {
			return err
		}
	}
	if d.page != nil {
		if err := d.page(ctx, folder); err != nil {
			return err
		}
	}
	if !d.take.quiet {
		if err := d.print(v); err != nil {
			return err
		}
	}
	if err := folder.Commit(ctx, d.ours(stem)); err != nil {
		return err
	}
	d.take.say("wrote %s", d.folder(stem))
	return nil
}

func (d *document[T]) print(v T) error {
	var text bytes.Buffer
	screen := screenOf(d.stdout)
	if err := d.as.write(v, &text, screen.width); err != nil {
		return err
	}
	return printText(d.stdout, screen.dress(text.Bytes(), d.as.name))
}
