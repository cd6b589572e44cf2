package main

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/png"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"holdfast/cmd/draw"
	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/extract"
	"holdfast/sheet"
)

func stillsCommand() *cli.Command {
	return &cli.Command{
		Name:      "stills",
		Usage:     "write the frames that matter as pictures, and a page of all of them",
		UsageText: "holdfast stills [OPTIONS] CLIP",
		Description: "The middle of each hold, the peak of each move, the frame on which each contact\n" +
			"begins, and the top of each hop, at full size and named by frame number.",
		Flags: slices.Concat([]cli.Flag{
			&cli.StringFlag{Name: "out", Value: ".", Usage: "write to a folder named after the clip in `DIR`"},
			&cli.BoolFlag{Name: "overwrite", DisableDefaultText: true, Usage: "replace an older result"},
			&cli.StringFlag{Name: "at", Usage: "write these `FRAMES` too, such as 43,60-64 or 00:00:02:12"},
			&cli.IntFlag{Name: "every", Usage: "and every `N`th frame"},
			&cli.BoolFlag{Name: "only", DisableDefaultText: true, Usage: "write what --at and --every name, and nothing else"},
			&cli.StringFlag{Name: "sheet", Usage: "take the numbers from `FILE`, made of the same clip with --as json, instead of measuring again"},
			&cli.StringFlag{Name: "fps", Usage: "count frames at `RATE`; the clip is conformed to it"},
			&cli.IntFlag{Name: "first-frame", Value: 1, Usage: "call the clip's first frame `N`"},
			houseFlag(),
		}, measuringFlags(), voiceFlags("no progress, no warnings, and nothing said")),
		Action: func(c *cli.Context) error {
			job, err := newStillsJob(c)
			if err != nil {
				return err
			}
			return job.run(c.Context)
		},
	}
}

// A stillsJob is one run of the stills command.
type stillsJob struct {
	clip      string
	wish      stillWish
	numbers   numbers
	out       string
	overwrite bool
}

func newStillsJob(c *cli.Context) (*stillsJob, error) {
	j := &stillsJob{out: c.String("out"), overwrite: c.Bool("overwrite")}
	var err error
	if j.clip, err = oneArgument(c, "clip"); err != nil {
		return nil, err
	}
	if j.out == "" {
		return nil, usage("--out: no folder given", "--out . writes here")
	}
	if j.wish, err = readStillWish(c); err != nil {
		return nil, err
	}
	j.numbers, err = readNumbers(c)
	return j, err
}

func (j *stillsJob) run(ctx context.Context) error {
	if err := whole.Vacant(j.folder(), j.ours()); err != nil {
		return err
	}
	s, err := j.numbers.of(ctx, j.clip)
	if err != nil {
		return err
	}
	chosen, err := j.wish.choose(s)
	if err != nil {
		return err
	}
	return j.numbers.readFull(ctx, j.clip, s, func(r *extract.Reader) error { return j.write(ctx, r, s, chosen) })
}

func (j *stillsJob) stem() string   { return whole.Stem(filepath.Base(j.clip)) }
func (j *stillsJob) folder() string { return filepath.Join(j.out, j.stem()+"-stills") }

var stillName = regexp.MustCompile(`^\.(-?[0-9]{4,}|page[0-9]+)\.png$`)

// ours reports whether a name is that of a file of these stills; nil while what
// exists is to be kept.
func (j *stillsJob) ours() func(name string) bool {
	if !j.overwrite {
		return nil
	}
	return func(name string) bool {
		rest, ok := strings.CutPrefix(name, j.stem())
		return ok && stillName.MatchString(rest)
	}
}

// write picks the chosen frames out of the clip, and writes them and their pages.
func (j *stillsJob) write(ctx context.Context, r *extract.Reader, s *sheet.Sheet, chosen []still) error {
	folder, err := whole.Begin(j.folder())
	if err != nil {
		return err
	}
	defer folder.Discard()
	thumbs, err := j.writeStills(r, s, chosen, folder)
	if err != nil {
		return err
	}
	if err := j.writePages(s, thumbs, folder); err != nil {
		return err
	}
	if err := folder.Commit(ctx, j.ours()); err != nil {
		return err
	}
	j.numbers.take.say("wrote %d stills to %s", len(chosen), j.folder())
	return nil
}

func (j *stillsJob) writeStills(r *extract.Reader, s *sheet.Sheet, chosen []still, folder *whole.Folder) ([]draw.Thumb, error) {
	bar := j.numbers.take.progress("writing", int64(s.Clip.Frames))
	defer bar.done()
	frame := image.NewYCbCr(image.Rectangle{Max: r.Clip().Work}, image.YCbCrSubsampleRatio420)
	var thumbs []draw.Thumb
	for n := s.Clip.FirstFrame; len(thumbs) < len(chosen); n++ {
		if err := r.Next(frame); err != nil {
			return nil, unlike(j.clip, err)
		}
		bar.frame(n - s.Clip.FirstFrame)
		want := chosen[len(thumbs)]
		if n != want.frame {
			continue
		}
		picture := r.Clip().Matrix.RGBA(frame)
		var b bytes.Buffer
		if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, picture); err != nil {
			return nil, fmt.Errorf("frame %d: %w", n, err)
		}
		if err := folder.Write(fmt.Sprintf("%s.%s.png", j.stem(), draw.FrameNumber(n)), b.Bytes()); err != nil {
			return nil, err
		}
		thumbs = append(thumbs, draw.Thumb{Picture: draw.Shrink(picture), Number: n, Words: want.words})
	}
	return thumbs, nil
}

// writePages writes the pages of thumbs.
func (j *stillsJob) writePages(s *sheet.Sheet, thumbs []draw.Thumb, folder *whole.Folder) error {
	pages := (len(thumbs) + draw.ThumbsOnPage - 1) / draw.ThumbsOnPage
	for i := range pages {
		below := fmt.Sprintf("%d of %d frames at %s fps", len(thumbs), s.Clip.Frames, s.Clip.FPS.Words())
		if pages > 1 {
			below += fmt.Sprintf("; page %d of %d", i+1, pages)
		}
		page, err := draw.Thumbs(sheet.Visible(s.Clip.Name), below, thumbs[i*draw.ThumbsOnPage:min((i+1)*draw.ThumbsOnPage, len(thumbs))])
		if err != nil {
			return err
		}
		if err := folder.Write(fmt.Sprintf("%s.page%d.png", j.stem(), i+1), page); err != nil {
			return err
		}
	}
	return nil
}
