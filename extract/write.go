package extract

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"

	ffmpeg "github.com/u2takey/ffmpeg-go"
)

// Codec is a way to write video.
type Codec string

// The codecs that WriteVideo knows.
const (
	H264         Codec = "h264"          // H.264 in mp4; even sides
	H264Lossless Codec = "h264-lossless" // H.264 without loss in mp4; even sides
	FFV1         Codec = "ffv1"          // FFV1 in Matroska, without loss; any sides
)

// VideoOptions say how to write a video. Width and Height must be set.
type VideoOptions struct {
	Width, Height int    // of the frames, in pixels
	Rate          Rate   // default 24/1
	Codec         Codec  // default H264
	CRF           int    // H264: 1 (best) to 51; default 18
	Preset        string // H.264: ultrafast to veryslow; default medium
	Matrix        Matrix // of the frames, for players to know; default: not said
	Seek          bool   // H.264: a player gets to any frame at once; default false
	// SoundOf names a clip whose sound is written beside the pictures, which must
	// be those of that clip, in step; H.264 only. Empty, or a clip without sound:
	// no sound.
	SoundOf string
	// SoundFrom is how many seconds into the clip the first picture is up, SoundFor
	// how long there is sound; default to the end.
	SoundFrom, SoundFor float64
}

// seekFrames is how far apart the key frames of a video are that is made to be
// stepped through: half a second at 24, for a tenth more bytes than the encoder's
// own choice.
const seekFrames = 12

var presets = map[string]bool{
	"ultrafast": true, "superfast": true, "veryfast": true, "faster": true, "fast": true,
	"medium": true, "slow": true, "slower": true, "veryslow": true,
}

// maxVideoSide bounds a side of a written video, in pixels.
const maxVideoSide = 16384

func (w VideoOptions) withDefaults() (VideoOptions, error) {
	if w.Rate.IsZero() {
		w.Rate = Rate{24, 1}
	}
	if w.Codec == "" {
		w.Codec = H264
	}
	if w.CRF == 0 {
		w.CRF = 18
	}
	if w.Preset == "" {
		w.Preset = "medium"
	}
	rate, err := NewRate(w.Rate.Num, w.Rate.Den)
	w.Rate = rate
	switch {
	case err != nil:
		return w, err
	case w.Codec != H264 && w.Codec != H264Lossless && w.Codec != FFV1:
		return w, fmt.Errorf("unknown codec %s", quoteName(string(w.Codec)))
	case w.Width < 1 || w.Height < 1 || w.Width > maxVideoSide || w.Height > maxVideoSide:
		return w, fmt.Errorf("size %d×%d is outside 1 to %d", w.Width, w.Height, maxVideoSide)
	case w.Codec != FFV1 && (w.Width%2 != 0 || w.Height%2 != 0):
		return w, fmt.Errorf("size %d×%d is odd: %s needs even sides", w.Width, w.Height, w.Codec)
	case w.SoundOf != "" && w.Codec == FFV1:
		return w, fmt.Errorf("no sound is written beside %s", w.Codec)
	case w.CRF < 1 || w.CRF > 51:
		return w, fmt.Errorf("quality %d is outside 1 to 51", w.CRF)
	case !presets[w.Preset]:
		return w, fmt.Errorf("unknown preset %s", quoteName(w.Preset))
	}
	return w, nil
}

// encoding returns the options of the output.
func (w VideoOptions) encoding() ffmpeg.KwArgs {
	o := ffmpeg.KwArgs{
		// One thread: x264's bytes change with the number of threads.
		"threads": 1, "fflags": "+bitexact", "flags:v": "+bitexact", "map_metadata": -1,
		"pix_fmt": "yuv420p", "color_range": "tv", "fps_mode": "passthrough",
	}
	switch w.Matrix {
	case BT601:
		o["colorspace"] = "smpte170m"
	case BT709:
		// Chromium takes a video of less than 720 lines for BT.601 unless it says all three.
		o["colorspace"], o["color_primaries"], o["color_trc"] = "bt709", "bt709", "bt709"
	}
	switch w.Codec {
	case FFV1:
		o["format"], o["c:v"], o["level"], o["g"], o["slices"] = "matroska", "ffv1", 3, 1, 4
		return o
	case H264Lossless:
		o["qp"] = 0
	default:
		o["crf"] = w.CRF
	}
	if w.Seek {
		// No frame rests on a later one, so that frame n has time n over the rate
		// in every player, and none has to decode ahead.
		o["g"], o["bf"], o["sc_threshold"] = seekFrames, 0, 0
	}
	o["format"], o["c:v"], o["preset"], o["movflags"] = "mp4", "libx264", w.Preset, "+faststart"
	return o
}

// WriteVideo writes a video of the frames that next draws, until it returns
// io.EOF. The frame that next gets is 4:2:0, of the full size, limited range,
// and holds what was drawn last. The same frames give the same bytes on any
// number of cores.
//
// The file appears whole under its name, or not at all, and never in place of
// another: what cannot be written is an *OutputError, an error of next comes
// back as it is.
func WriteVideo(ctx context.Context, path string, w VideoOptions, next func(frame *image.YCbCr) error) error {
	w, err := w.withDefaults()
	if err != nil {
		return &OptionError{fmt.Sprintf("write %s: %v", SafeName(path), err)}
	}
	t, err := findTools(ctx)
	if err != nil {
		return err
	}
	var sound *soundtrack
	if w.SoundOf != "" {
		if sound, err = findSound(ctx, t, w.SoundOf); err != nil {
			return err
		}
		sound.cut(w.SoundFrom, w.SoundFor)
	}
	return writeWhole(ctx, path, func(temporary string) error {
		count, err := encode(ctx, t, temporary, w, sound, next)
		if err != nil {
			return err
		}
		return checkWritten(ctx, t, temporary, w, count)
	})
}

// encode runs the encoder and feeds it.
func encode(ctx context.Context, t tools, path string, w VideoOptions, sound *soundtrack, next func(*image.YCbCr) error) (int64, error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	theirs, ours, err := os.Pipe()
	if err != nil {
		return 0, fmt.Errorf("make a pipe: %w", err)
	}
	widenPipe(ours)
	cmd := encoder(ctx, t, path, w)
	if sound != nil {
		cmd = encoderWithSound(ctx, t, path, w, sound)
	}
	cmd.Stdin = theirs
	c, err := startChild(cmd, theirs)
	if err != nil {
		ours.Close()
		return 0, &ToolError{Tool: "ffmpeg", What: "does not start", Err: err}
	}
	count, err := feed(ctx, ours, newPicture(image.Pt(w.Width, w.Height), false), next)
	ours.Close()
	var failed writeFailed
	if err != nil && !errors.As(err, &failed) {
		cancel() // next failed: what the encoder makes of it is of no use
	}
	waitErr := c.wait()
	switch {
	case ctx.Err() != nil && err == nil, failed.error != nil && ctx.Err() != nil:
		return 0, context.Cause(ctx)
	case err != nil && failed.error == nil:
		return 0, err
	case waitErr != nil || err != nil:
		return 0, &OutputError{Name: SafeName(path), What: "the encoder failed" + parenthesis(lastLine(c.tail.text())), Err: errors.Join(waitErr, err)}
	case count == 0:
		return 0, &OutputError{Name: SafeName(path), What: "there is no frame to write"}
	}
	return count, nil
}

func encoder(ctx context.Context, t tools, path string, w VideoOptions) *exec.Cmd {
	out := ffmpeg.OutputContext(ctx, []*ffmpeg.Stream{rawPictures(w)}, fileURL(path), w.encoding())
	return compile(ctx, out.OverwriteOutput(out), t.ffmpeg)
}

// rawPictures is the input that the pictures come in by.
func rawPictures(w VideoOptions) *ffmpeg.Stream {
	return ffmpeg.Input("pipe:0", ffmpeg.KwArgs{
		"nostdin": "", "hide_banner": "", "v": "error", "protocol_whitelist": "pipe,file",
		"format": "rawvideo", "pixel_format": "yuv420p", "framerate": w.Rate.String(),
		"video_size": strconv.Itoa(w.Width) + "x" + strconv.Itoa(w.Height),
	})
}

// writeFailed marks an error of the pipe to the encoder, as against one of
// the caller.
type writeFailed struct{ error }

// feed draws and writes frames until next returns io.EOF.
func feed(ctx context.Context, pipe io.Writer, pic *picture, next func(*image.YCbCr) error) (int64, error) {
	for count := int64(0); ; count++ {
		if ctx.Err() != nil {
			return count, context.Cause(ctx)
		}
		if err := next(pic.img); errors.Is(err, io.EOF) {
			return count, nil
		} else if err != nil {
			return count, err
		}
		if _, err := pipe.Write(pic.pix); err != nil {
			return count, writeFailed{err}
		}
	}
}

// checkWritten looks at what was written as at a stranger's file: on a full
// disk ffmpeg ends as if all were well.
func checkWritten(ctx context.Context, t tools, path string, w VideoOptions, count int64) error {
	o, err := Options{Limits: Limits{Pixels: -1, Frames: -1}}.withDefaults()
	if err != nil {
		return err
	}
	in := input{path: path, name: SafeName(path)}
	broken := func(err error) error {
		return &OutputError{Name: in.name, What: "the file is not whole after writing", Err: err}
	}
	p, err := probe(ctx, t, in, o.Limits)
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	if err != nil {
		return broken(err)
	}
	v := p.videoStreams()
	if len(v) == 0 || v[0].Width != int64(w.Width) || v[0].Height != int64(w.Height) {
		return broken(nil)
	}
	packets, err := listPackets(ctx, t, in, o.Limits)
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	if err != nil || int64(len(packets)) != count {
		return broken(err)
	}
	return nil
}

// writeWhole has make write a temporary file in the folder of path, and gives
// it its name when all of it is on the disk.
func writeWhole(ctx context.Context, path string, make func(temporary string) error) (err error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return &OutputError{Name: SafeName(path), What: "its folder cannot be found", Err: err}
	}
	if _, err := os.Lstat(abs); err == nil {
		return alreadyThere(abs)
	}
	f, err := os.CreateTemp(filepath.Dir(abs), ".holdfast-*.part")
	if err != nil {
		return &OutputError{Name: SafeName(abs), What: reason(err), Err: err}
	}
	temporary := f.Name()
	f.Close()
	defer os.Remove(temporary)
	if err := make(temporary); err != nil {
		var out *OutputError
		if errors.As(err, &out) {
			out.Name = SafeName(abs)
		}
		return err
	}
	return place(ctx, temporary, abs)
}
