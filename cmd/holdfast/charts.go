package main

import (
	"bytes"
	"context"
	"fmt"
	"image/png"
	"regexp"
	"strings"

	"holdfast/cmd/assemble"
	"holdfast/cmd/chart"
	"holdfast/cmd/draw"
	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/sheet"
)

var chartName = regexp.MustCompile(`^(-page[0-9]+)?\.chart\.(beats|motion|ground|timing|path)\.(png|svg)$`)

// isChart reports whether a name is that of a chart of this set.
func (s set) isChart(name string) bool {
	rest, ok := strings.CutPrefix(name, s.stem)
	return ok && chartName.MatchString(rest)
}

// writeCharts draws every chart that a sheet has something for, page by page.
func (j *sheetJob) writeCharts(ctx context.Context, folder *whole.Folder, s *sheet.Sheet, m *assemble.Measured) error {
	defer j.timed("the charts")("")
	strips, err := chartStrips(s, m)
	if err != nil {
		return err
	}
	for _, pages := range [][]*chart.Picture{
		chart.Beats(s), chart.Motion(s), chart.Ground(s, strips), chart.Timing(s), chart.Paths(s, followed(s, m.Boxes())),
	} {
		for _, p := range pages {
			if ctx.Err() != nil {
				return context.Cause(ctx)
			}
			if err := j.writeChart(folder, p); err != nil {
				return err
			}
		}
	}
	return nil
}

// writeChart writes a page of a chart in both forms.
func (j *sheetJob) writeChart(folder *whole.Folder, p *chart.Picture) error {
	for form, draw := range map[string]func() ([]byte, error){"png": p.PNG, "svg": p.SVG} {
		picture, err := draw()
		if err != nil {
			return err
		}
		if err := folder.Write(fmt.Sprintf("%s%s.chart.%s.%s", j.set().stem, p.Suffix(), p.Kind, form), picture); err != nil {
			return err
		}
	}
	return nil
}

// chartStrips are the ground strips as charts want them.
func chartStrips(s *sheet.Sheet, m *assemble.Measured) (list []chart.Strip, err error) {
	for _, st := range m.Strips() {
		band, err := draw.Across(s, st)
		if err != nil {
			return nil, err
		}
		picture, err := png.Decode(bytes.NewReader(band.PNG))
		if err != nil {
			return nil, fmt.Errorf("ground strip: %w", err)
		}
		list = append(list, chart.Strip{Start: band.Start, End: band.End, Picture: picture})
	}
	return list, nil
}

// followed are the points whose ways are known: the middles of figures and of parts
// shown by hand.
func followed(s *sheet.Sheet, boxes []assemble.FigureBoxes) (list []sheet.Point) {
	for _, b := range boxes {
		list = append(list, sheet.FigurePoint(b.Figure, b.Start, b.Boxes))
	}
	return append(list, s.PartPoints()...)
}
