package main

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"holdfast/cmd/draw"
	"holdfast/extract"
	"holdfast/sheet"
)

func markupCommand() *cli.Command {
	return &cli.Command{
		Name:      "markup",
		Usage:     "write the clip with frame numbers, beats, feet and notes drawn into it",
		UsageText: "holdfast markup [OPTIONS] CLIP OUT.mp4",
		Description: "Frame for frame the clip, at its rate and size and with its sound, as an mp4 that\n" +
			"plays everywhere.",
		Flags: slices.Concat([]cli.Flag{
			&cli.StringFlag{Name: "sheet", Usage: "take the numbers from `FILE`, made of the same clip with --as json, instead of measuring again"},
			&cli.BoolFlag{Name: "thirds", DisableDefaultText: true, Usage: "draw the third lines"},
			&cli.StringSliceFlag{Name: "arc", Usage: "draw the path through each beat of `NAME`: 'figures' for the middle of each figure, or the name of a part that the sheet of --sheet has; may be given several times"},
			&cli.StringFlag{Name: "fps", Usage: "count frames at `RATE`; the clip is conformed to it"},
			&cli.IntFlag{Name: "first-frame", Value: 1, Usage: "call the clip's first frame `N`"},
			houseFlag(),
			remarksFlag(),
		}, measuringFlags(), voiceFlags("no progress, no warnings")),
		Action: func(c *cli.Context) error {
			job, err := newMarkupJob(c)
			if err != nil {
				return err
			}
			return job.run(c.Context)
		},
	}
}

// A markupJob is one run of the markup command.
type markupJob struct {
	clip, out string
	numbers   numbers
	thirds    bool
	arcs      []string
}

func newMarkupJob(c *cli.Context) (*markupJob, error) {
	names, err := arguments(c, 2, 2, "a clip and the name of an mp4 to write")
	if err != nil {
		return nil, err
	}
	j := &markupJob{clip: names[0], out: names[1], thirds: c.Bool("thirds"), arcs: c.StringSlice("arc")}
	if !strings.EqualFold(filepath.Ext(j.out), ".mp4") {
		return nil, usage(fmt.Sprintf("markup: %s is no name of an mp4", sheet.Visible(j.out)), "let it end in .mp4")
	}
	if _, err := os.Lstat(j.out); err == nil {
		return nil, &outputError{fmt.Errorf("%s is there already", sheet.Visible(j.out))}
	}
	j.numbers, err = readNumbers(c)
	return j, err
}

func (j *markupJob) run(ctx context.Context) error {
	s, boxes, err := j.numbers.withBoxes(ctx, j.clip)
	if err != nil {
		return err
	}
	points, err := arcsNamed(j.arcs, followed(s, boxes))
	if err != nil {
		return err
	}
	return j.numbers.readFull(ctx, j.clip, s, func(r *extract.Reader) error { return j.write(ctx, r, s, points) })
}

// write draws on every frame of a clip and writes it.
func (j *markupJob) write(ctx context.Context, r *extract.Reader, s *sheet.Sheet, points []sheet.Point) error {
	size := r.Clip().Work
	overlay := draw.NewOverlay(s, size, j.thirds).Tracing(points)
	bar := j.numbers.take.progress("writing", int64(s.Clip.Frames))
	defer bar.done()
	n := 0
	return extract.WriteVideo(ctx, j.out, extract.VideoOptions{
		Width: size.X, Height: size.Y, Rate: r.Clip().Rate, Matrix: r.Clip().Matrix, SoundOf: j.clip, Preset: "veryfast",
	}, func(frame *image.YCbCr) error {
		if n == s.Clip.Frames {
			return io.EOF
		}
		if err := r.Next(frame); err != nil {
			return unlike(j.clip, err)
		}
		overlay.Mark(frame, n)
		bar.frame(n)
		n++
		return nil
	})
}

// allFigures is what --arc calls the middles of all figures.
const allFigures = "figures"

// arcsNamed are the points that --arc asks for.
func arcsNamed(names []string, known []sheet.Point) (list []sheet.Point, err error) {
	there := []string{}
	for _, p := range known {
		if !slices.Contains(there, p.Name) {
			there = append(there, p.Name)
		}
	}
	for _, name := range names {
		found := len(list)
		for _, p := range known {
			if p.Name == name || name == allFigures && p.Figure > 0 {
				list = append(list, p)
			}
		}
		if len(list) == found {
			return nil, usage(fmt.Sprintf("--arc %s: nothing of that name was followed", sheet.Visible(name)), arcHint(there))
		}
	}
	return list, nil
}

// arcHint says what there is to ask for.
func arcHint(there []string) string {
	if len(there) == 0 {
		return "sheets hold no figures' places: leave --sheet out for figures; show a part to 'sheet' with --part"
	}
	return "there is: " + sheet.Visible(strings.Join(there, ", "))
}

// fullArea lets a clip be read at its own size: more pixels than any may have.
const fullArea = 1 << 40

// readFull reads the frames of a sheet's clip at their own size. use may be
// called twice; see extract.Read.
func (n numbers) readFull(ctx context.Context, clip string, s *sheet.Sheet, use func(*extract.Reader) error) error {
	return extract.Read(ctx, clip, extract.Options{
		FPS: extract.Rate(s.Clip.FPS), From: int64(s.Clip.Skipped), Count: int64(s.Clip.Frames), WorkArea: fullArea,
		Limits: n.take.read.Limits,
	}, use)
}

// unlike words the end of a clip before that of its sheet.
func unlike(clip string, err error) error {
	if errors.Is(err, io.EOF) {
		return fmt.Errorf("%s ended before the last frame measured", extract.SafeName(clip))
	}
	return err
}
