package main

import (
	_ "embed"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
	"github.com/urfave/cli/v2"
)

// licenceList has a line for each module that go.mod pins: its path, version,
// licence (SPDX identifier), and whether it is in the program or only used by
// tests and for building. A test holds it to go.mod.
//
//go:embed licences.txt
var licenceList string

func licencesCommand() *cli.Command {
	return &cli.Command{
		Name:      "licences",
		Usage:     "list what the program is made of, with versions and licences",
		UsageText: "holdfast licences",
		Action: func(c *cli.Context) error {
			if err := noArguments(c, "holdfast licences"); err != nil {
				return err
			}
			return printText(c.App.Writer, []byte(licenceTable()))
		},
	}
}

// A licence is one line of the list.
type licence struct{ module, version, name, part string }

func licences() []licence {
	var all []licence
	for line := range strings.Lines(licenceList) {
		f := strings.SplitN(strings.TrimSpace(line), " ", 4)
		all = append(all, licence{f[0], f[1], f[2], f[3]})
	}
	return all
}

// outside is what the program needs beside the modules.
var outside = []licence{
	{"OpenCV", "4.6 or newer", "Apache-2.0", "linked"},
	{"ffmpeg, ffprobe", "5.1 or newer", "LGPL-2.1-or-later or GPL, by how they were built", "run as programs"},
}

func licenceTable() string {
	t := table.NewWriter()
	t.SetStyle(table.Style{Box: table.BoxStyle{PaddingRight: "  ", MiddleHorizontal: "-"}, Format: table.FormatOptions{Header: text.FormatDefault}})
	t.AppendHeader(table.Row{"module", "version", "licence", "part"})
	for _, l := range append(licences(), outside...) {
		t.AppendRow(table.Row{l.module, l.version, l.name, l.part})
	}
	var b strings.Builder
	b.WriteString("holdfast " + version + ", MIT\n\n")
	for line := range strings.Lines(t.Render() + "\n") {
		b.WriteString(strings.TrimRight(line, " \n") + "\n")
	}
	return b.String()
}
