package main

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"
	xdraw "golang.org/x/image/draw"

	"holdfast/cmd/draw"
	"holdfast/extract"
	"holdfast/sheet"
	"holdfast/sheet/compare"
)

// A sideBySide writes a reference and its pass in one picture. A nil one writes
// nothing.
type sideBySide struct {
	reference, pass, out string
	byTime               bool
	limits               extract.Limits
	voice
}

// newSideBySide understands --video and --by-time; nil where no video is wanted.
func newSideBySide(c *cli.Context, reference, pass string) (*sideBySide, error) {
	v := &sideBySide{reference: reference, pass: pass, out: c.String("video"), byTime: c.Bool("by-time")}
	var err error
	if v.limits, err = readLimits(c); err != nil {
		return nil, err
	}
	if v.voice, err = readVoice(c); err != nil {
		return nil, err
	}
	switch {
	case !c.IsSet("video") && v.byTime:
		return nil, usage("--by-time goes with --video", "say where with --video OUT.mp4")
	case !c.IsSet("video"):
		return nil, nil
	case !strings.EqualFold(filepath.Ext(v.out), ".mp4"):
		return nil, usage(fmt.Sprintf("--video %s is no name of an mp4", sheet.Visible(v.out)), "let it end in .mp4")
	case isSheetFile(reference) || isSheetFile(pass):
		return nil, usage("--video needs both clips, not sheets of them", "name the video files")
	}
	if _, err := os.Lstat(v.out); err == nil {
		return nil, &outputError{fmt.Errorf("%s is there already", sheet.Visible(v.out))}
	}
	return v, nil
}

// sideArea is how many pixels each of the two pictures has at most: together they
// fit a screen.
const sideArea = 960 * 540

// write writes the video.
func (v *sideBySide) write(ctx context.Context, c *compare.Comparison, reference, pass *sheet.Sheet) error {
	if v == nil {
		return nil
	}
	if !c.Related && !v.byTime {
		return usage("--video: the clips are not related, so no beat of one is a beat of the other", "write them with --by-time")
	}
	return v.readSide(ctx, v.reference, reference, func(left *extract.Reader) error {
		return v.readSide(ctx, v.pass, pass, func(right *extract.Reader) error {
			high := max(left.Clip().Work.Y, right.Clip().Work.Y)
			a := newSide(left, reference, high, "reference: "+sheet.Visible(reference.Clip.Name))
			b := newSide(right, pass, high, "pass: "+sheet.Visible(pass.Clip.Name))
			return v.writeBoth(ctx, a, b, v.steps(c))
		})
	})
}

func (v *sideBySide) readSide(ctx context.Context, clip string, s *sheet.Sheet, use func(*extract.Reader) error) error {
	return extract.Read(ctx, clip, extract.Options{FPS: extract.Rate(s.Clip.FPS), Count: int64(s.Clip.Frames), WorkArea: sideArea, Limits: v.limits}, use)
}

// steps are which frame of the reference, from 0, stands beside each frame of
// the video. By time the video goes on until both clips are over.
func (v *sideBySide) steps(c *compare.Comparison) []int {
	frames := c.Pass.Frames
	rate := c.Reference.FPS.Float() / c.Pass.FPS.Float()
	if v.byTime {
		frames = max(frames, int(math.Ceil(float64(c.Reference.Frames)/rate)))
	}
	list := make([]int, frames)
	for i := range list {
		if v.byTime {
			list[i] = int(float64(i) * rate)
			continue
		}
		at, _ := c.ReferenceFrame(c.Pass.FirstFrame + i)
		list[i] = int(math.Round(at)) - c.Reference.FirstFrame
	}
	return list
}

// writeBoth writes the frames: on the left the reference's, on the right the
// pass's one after the other.
func (v *sideBySide) writeBoth(ctx context.Context, left, right *side, steps []int) error {
	bar := v.progress("writing", int64(len(steps)))
	defer bar.done()
	size := image.Pt(left.size().X+right.size().X, left.size().Y)
	n := 0
	return extract.WriteVideo(ctx, v.out, extract.VideoOptions{
		Width: size.X, Height: size.Y, Rate: extract.Rate(right.clip.FPS), Matrix: right.reader.Clip().Matrix, SoundOf: v.pass, Preset: "veryfast",
	}, func(frame *image.YCbCr) error {
		if n == len(steps) {
			return io.EOF
		}
		if err := errors.Join(left.show(steps[n]), right.show(n)); err != nil {
			return err
		}
		blank(frame)
		left.lay(frame, 0)
		right.lay(frame, left.size().X)
		bar.frame(n)
		n++
		return nil
	})
}

// A side is one of the two clips: a frame of it as it is shown.
type side struct {
	reader  *extract.Reader
	clip    sheet.Clip
	overlay *draw.Overlay
	bare    *image.YCbCr // the frame as it was read
	marked  *image.YCbCr // the same at the height of the video, drawn upon
	at      int          // which it is, from 0; -1 before the first
	dark    bool         // the clip has no frame to show
}

func newSide(r *extract.Reader, s *sheet.Sheet, high int, title string) *side {
	work := r.Clip().Work
	size := image.Pt((work.X*high/work.Y+1)&^1, high)
	frame := func(size image.Point) *image.YCbCr {
		return image.NewYCbCr(image.Rectangle{Max: size}, image.YCbCrSubsampleRatio420)
	}
	return &side{
		reader: r, clip: s.Clip, overlay: draw.NewOverlay(s, size, false).Called(title),
		bare: frame(work), marked: frame(size), at: -1,
	}
}

func (s *side) size() image.Point { return s.marked.Rect.Size() }

// show gets a frame ready. Frames are read once, so that one before the last
// shown shows that again; beyond the clip's ends nothing is shown.
func (s *side) show(n int) error {
	s.dark = n < 0 || n >= s.clip.Frames
	if s.dark || n <= s.at {
		return nil
	}
	for s.at < n {
		if err := s.reader.Next(s.bare); err != nil {
			return unlike(s.reader.Clip().Path, err)
		}
		s.at++
	}
	scale(s.marked, s.bare)
	s.overlay.Mark(s.marked, s.at)
	return nil
}

// lay copies the frame into the picture of both, from a column on.
func (s *side) lay(dst *image.YCbCr, x int) {
	if s.dark {
		return
	}
	size := s.size()
	for y := range size.Y {
		copy(dst.Y[dst.YOffset(x, y):], s.marked.Y[y*s.marked.YStride:][:size.X])
	}
	for y := range size.Y / 2 {
		at := dst.COffset(x, 2*y)
		copy(dst.Cb[at:], s.marked.Cb[y*s.marked.CStride:][:size.X/2])
		copy(dst.Cr[at:], s.marked.Cr[y*s.marked.CStride:][:size.X/2])
	}
}

// blank makes a frame black.
func blank(f *image.YCbCr) {
	for i := range f.Y {
		f.Y[i] = 16
	}
	for i := range f.Cb {
		f.Cb[i], f.Cr[i] = 128, 128
	}
}

// scale draws a frame at the size of another.
func scale(dst, src *image.YCbCr) {
	plane := func(pix []byte, stride int, size image.Point) *image.Gray {
		return &image.Gray{Pix: pix, Stride: stride, Rect: image.Rectangle{Max: size}}
	}
	to, from := dst.Rect.Size(), src.Rect.Size()
	for _, p := range []struct{ dst, src *image.Gray }{
		{plane(dst.Y, dst.YStride, to), plane(src.Y, src.YStride, from)},
		{plane(dst.Cb, dst.CStride, to.Div(2)), plane(src.Cb, src.CStride, from.Div(2))},
		{plane(dst.Cr, dst.CStride, to.Div(2)), plane(src.Cr, src.CStride, from.Div(2))},
	} {
		xdraw.ApproxBiLinear.Scale(p.dst, p.dst.Rect, p.src, p.src.Rect, xdraw.Src, nil)
	}
}
