package extract

import (
	"context"
	"fmt"
	"image"
	"os/exec"
	"runtime"
	"strconv"
	"sync"

	ffmpeg "github.com/u2takey/ffmpeg-go"
)

// maxThreads bounds the decoder's threads: each holds a few whole pictures,
// and beyond eight a clip gains little.
const maxThreads = 8

// decoding is what a decoder is asked for.
type decoding struct {
	in     input
	work   image.Point
	tb     timeBase // unit in which frame times are wanted
	single bool     // one thread
	woven  fields
	alpha  bool    // pictures come with a plane of it
	frames int64   // source frames to decode, 0: all
	until  float64 // seconds of the source to decode, 0: all
	limits Limits
}

var quietOnce sync.Once

// compile sets a graph's context and program and turns it into a command.
func compile(ctx context.Context, s *ffmpeg.Stream, program string) *exec.Cmd {
	quietOnce.Do(func() { ffmpeg.LogCompiledCommand = false })
	s.Context = ctx
	return s.SetFfmpegPath(program).Compile()
}

// command builds the ffmpeg command line: one input, two outputs. The first
// gives the scaled pictures on standard output. The second gives, on file
// descriptor 3, one line a frame with its time; it is made from an unscaled
// corner of a sixteenth of each side, which costs nothing, and whose size
// gives away when the stored size changes on the way. Both come after fields are
// taken apart, so that they stay in step.
func (d decoding) command(ctx context.Context, t tools) *exec.Cmd {
	in := ffmpeg.Input(d.in.url(), d.inputOptions())
	parts := d.woven.unweave(in.Get("V:0")).Split()
	format := "yuv420p"
	if d.alpha {
		format = "yuva420p"
	}
	pictures := parts.Get("pictures").
		Filter("scale", ffmpeg.Args{strconv.Itoa(d.work.X), strconv.Itoa(d.work.Y)},
			ffmpeg.KwArgs{"flags": "area+accurate_rnd+bitexact"}).
		Filter("format", ffmpeg.Args{format})
	corners := parts.Get("corners").
		Filter("crop", ffmpeg.Args{"ceil(iw/16)", "ceil(ih/16)", "0", "0"}, ffmpeg.KwArgs{"exact": "1"})
	first := ffmpeg.OutputContext(ctx, []*ffmpeg.Stream{pictures}, "pipe:1", d.outputOptions(ffmpeg.KwArgs{
		// Packets are numbered anew: the muxer complains about equal times,
		// and what it says must not be taken for damage.
		"format": "rawvideo", "c:v": "rawvideo", "bsf:v": "setts=N",
	}))
	second := ffmpeg.OutputContext(ctx, []*ffmpeg.Stream{corners}, "pipe:3", d.outputOptions(ffmpeg.KwArgs{
		"format": "framecrc", "c:v": "rawvideo", "flush_packets": "1", "autoscale": "0",
	}))
	return compile(ctx, ffmpeg.MergeOutputs(first, second), t.ffmpeg)
}

func (d decoding) inputOptions() ffmpeg.KwArgs {
	threads := min(runtime.NumCPU(), maxThreads)
	if d.single {
		threads = 1
	}
	o := ffmpeg.KwArgs{"nostdin": "", "hide_banner": "", "v": "error", "threads": threads}
	for _, a := range allowances(d.in, d.limits) {
		o[a[0]] = a[1]
	}
	return o
}

func (d decoding) outputOptions(o ffmpeg.KwArgs) ffmpeg.KwArgs {
	o["fps_mode"] = "passthrough"
	o["enc_time_base"] = fmt.Sprintf("%d:%d", d.tb.Num, d.tb.Den)
	if d.frames > 0 {
		o["frames:v"] = strconv.FormatInt(d.frames, 10)
	}
	if d.until > 0 {
		o["t"] = strconv.FormatFloat(d.until, 'f', 6, 64)
	}
	return o
}
