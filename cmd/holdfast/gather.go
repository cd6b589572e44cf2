package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"net/url"
	"os"
	"path/filepath"

	"github.com/urfave/cli/v2"

	"holdfast/cmd/holdfast/internal/batch"
	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/cmd/page"
	"holdfast/sheet"
	"holdfast/sheet/overview"
)

func gatherCommand() *cli.Command {
	return &cli.Command{
		Name:      "gather",
		Usage:     "put the shares of a batch together",
		UsageText: "holdfast gather [OPTIONS] DIR",
		Description: "DIR is what the shares were given as --out. Nothing is moved unless every share is there and\n" +
			"done; what comes out is, to the byte, what one machine would have made.",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "name", Usage: "tell shot and pass by a `PATTERN` of names, such as '{shot}_v{pass}'"},
			&cli.BoolFlag{Name: "quiet", DisableDefaultText: true, Usage: "say nothing; clips that failed are told all the same"},
			&cli.BoolFlag{Name: "verbose", DisableDefaultText: true, Usage: "say how long each step takes"},
		},
		Action: func(c *cli.Context) error {
			v, err := readVoice(c)
			if err != nil {
				return err
			}
			folder, err := oneArgument(c, "folder")
			if err != nil {
				return err
			}
			pattern, err := readNames(c)
			if err != nil {
				return err
			}
			return gather(c.Context, folder, pattern, v)
		},
	}
}

// readNames understands --name; nil: it is not given.
func readNames(c *cli.Context) (*overview.Pattern, error) {
	text := c.String("name")
	if text == "" {
		return nil, nil
	}
	p, err := overview.ParsePattern(text)
	if err != nil {
		return nil, usage(fmt.Sprintf("--name: %v", err), "write a pattern such as '{shot}_v{pass}'")
	}
	return &p, nil
}

func gather(ctx context.Context, folder string, pattern *overview.Pattern, v voice) error {
	plan, err := batch.Gather(ctx, folder)
	if err != nil {
		return err
	}
	if err := writeOverview(folder, plan, pattern, v); err != nil {
		return err
	}
	v.say("%s in %s", batchClips(len(plan.Clips)), folder)
	return tellGathered(folder, plan, v)
}

// tellGathered tells which clips have no sheet, as the batch command does.
func tellGathered(folder string, plan *batch.Plan, v voice) error {
	items, err := overviewItems(folder, plan)
	if err != nil {
		return err
	}
	failed := 0
	for _, item := range items {
		if item.Fail != nil {
			failed++
			tellFailure(v.stderr, item.Path, item.Fail.Error)
		}
	}
	if failed == 0 {
		return nil
	}
	return &batchError{failed, true}
}

// writeOverview sums up what is in the folder of a batch.
func writeOverview(folder string, plan *batch.Plan, pattern *overview.Pattern, v voice) error {
	defer v.timed("the overview")("")
	items, err := overviewItems(folder, plan)
	if err != nil {
		return err
	}
	o, err := overview.New(items, namesPattern(items, pattern, v), sheet.Tool{Name: "holdfast", Version: version},
		func(name string) (*sheet.Sheet, error) { return batch.ReadSheet(folder, name) })
	if err != nil {
		return err
	}
	p := &page.Overview{
		Title: filepath.Base(folder), Overview: o,
		Link:   func(name string) string { return pageLink(folder, name) },
		Poster: func(name string) []byte { return poster(folder, name) },
	}
	for file, write := range map[string]func(io.Writer) error{batch.OverviewPage: p.Write, batch.OverviewTable: o.WriteCSV} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			return err
		}
		if err := whole.WriteFile(filepath.Join(folder, file), b.Bytes()); err != nil {
			return err
		}
	}
	return nil
}

// overviewItems are the clips of a plan with what came of them.
func overviewItems(folder string, plan *batch.Plan) (items []overview.Item, err error) {
	for _, c := range plan.Clips {
		item := overview.Item{Name: c.Name, Path: c.Path, Same: c.Same}
		if c.Same == "" {
			failed, err := plan.Failure(folder, c)
			if err != nil {
				return nil, err
			}
			if failed != nil {
				item.Fail = &overview.Fail{Error: failed.Error, Hint: failed.Hint}
			}
		}
		items = append(items, item)
	}
	return items, nil
}

// namesPattern is what was asked for, or a guess, which is said.
func namesPattern(items []overview.Item, asked *overview.Pattern, v voice) overview.Pattern {
	if asked != nil {
		return *asked
	}
	var names []string
	for _, item := range items {
		names = append(names, overview.NameOf(filepath.ToSlash(item.Path)))
	}
	p := overview.Guess(names)
	if p.String() != "" {
		v.say("names are read as %s; --name says otherwise", p)
	}
	return p
}

// pageLink is the URL of a clip's own page from the overview; empty where it has
// none.
func pageLink(folder, name string) string {
	path := filepath.Join(name, name+pageSuffix)
	if _, err := os.Stat(filepath.Join(folder, path)); err != nil {
		return ""
	}
	return (&url.URL{Path: "./" + filepath.ToSlash(path)}).String()
}

// poster is the picture of a clip; nil where there is none to be read.
func poster(folder, name string) []byte {
	picture, err := os.ReadFile(filepath.Join(folder, name, name+batch.PosterSuffix))
	if err != nil {
		return nil
	}
	return picture
}
