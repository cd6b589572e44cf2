package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"github.com/urfave/cli/v2"

	"holdfast/sheet"
)

func rulesCommand() *cli.Command {
	return &cli.Command{
		Name:      "rules",
		Usage:     "list the rules that notes come from",
		UsageText: "holdfast rules [OPTIONS]",
		Description: "Says of each rule what it measures, and of each of its thresholds the value, the\n" +
			"range a house may set it in, and why it is what it is.",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "as", Value: "table", Usage: "print them as `FORM`: table, json, toml (a whole house file to begin from)"},
			houseFlag(),
		},
		Action: listRules,
	}
}

func houseFlag() cli.Flag {
	return &cli.StringFlag{Name: "house", Usage: "take thresholds, and which rules are off, from the TOML `FILE`; see holdfast rules"}
}

// ruleForms are the ways to print the rules.
var ruleForms = map[string]func(w io.Writer, house *sheet.House, width int) error{
	"table": sheet.WriteRulesTable,
	"json":  func(w io.Writer, house *sheet.House, _ int) error { return sheet.WriteRulesJSON(w, house) },
	"toml":  func(w io.Writer, house *sheet.House, _ int) error { return sheet.WriteHouse(w, house) },
}

func listRules(c *cli.Context) error {
	if c.Args().Present() {
		return usage("rules takes no clip", "holdfast rules; holdfast sheet --house FILE CLIP holds a clip to them")
	}
	write, ok := ruleForms[c.String("as")]
	if !ok {
		return usage(fmt.Sprintf("--as %s: there is no such form", sheet.Visible(c.String("as"))), "the forms are table, json, toml")
	}
	house, err := readHouse(c)
	if err != nil {
		return err
	}
	var text bytes.Buffer
	screen := screenOf(c.App.Writer)
	if err := write(&text, house, screen.width); err != nil {
		return err
	}
	return printText(c.App.Writer, screen.dress(text.Bytes(), c.String("as")))
}

// readHouse reads the file of --house; nil where none is named. Whatever is wrong
// with it is a wrong command line.
func readHouse(c *cli.Context) (*sheet.House, error) {
	if !c.IsSet("house") {
		return nil, nil
	}
	path := c.String("house")
	if path == "" {
		return nil, usage("--house: no file given", "holdfast rules --as toml prints one to begin from")
	}
	refuse := func(err error, hint string) (*sheet.House, error) {
		return nil, usage(fmt.Sprintf("--house %s: %v", sheet.Visible(path), err), hint)
	}
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return refuse(errors.New("there is no such file"), "holdfast rules --as toml prints one to begin from")
	}
	if err != nil {
		return refuse(reasonOf(err), "name a file that you may read")
	}
	defer f.Close()
	house, err := sheet.ReadHouse(f)
	var wrong *sheet.HouseError
	switch {
	case errors.As(err, &wrong):
		return refuse(wrong, wrong.Hint())
	case err != nil:
		return refuse(reasonOf(err), "name a TOML file")
	}
	return house, nil
}

// reasonOf is what the system says of a file, without its name, which stands
// before it already.
func reasonOf(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}
