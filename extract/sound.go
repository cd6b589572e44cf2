package extract

import (
	"bufio"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"

	ffmpeg "github.com/u2takey/ffmpeg-go"
)

// SoundRate is how many samples a second ReadSound gives: the rate for which
// ITU-R BS.1770 prints the coefficients of its filter.
const SoundRate = 48000

// SoundChannels is how many values each sample has: left and right. A single
// channel is shared out between both at equal power; more than two are mixed down.
const SoundChannels = 2

// A Sound says which sound to read, and from when on.
type Sound struct {
	Path    string
	Start   float64 // seconds after the file's own beginning; before it there is silence
	Seconds float64 // how much to read at most
	Limits  Limits
}

// Sound is the clip's own, from the first frame asked for on, as long as so many
// frames last. It is in step with the frames whatever the two streams' starts are.
func (r *Reader) Sound(frames int) Sound {
	fps := r.clip.Rate.Float()
	return Sound{
		Path: r.in.path, Start: r.clip.SoundLead + float64(r.o.From)/fps, Seconds: float64(frames) / fps, Limits: r.o.Limits,
	}
}

// soundBlock is how many samples are handed over at a time: a tenth of a second.
const soundBlock = SoundRate / 10

// ReadSound decodes the first sound stream of a file and hands it over in blocks
// of whole samples, left and right in turn, full scale at 1. A block is only good
// until the next. Holes between the time stamps are filled with silence, so that
// what comes stays in step. Nothing comes after the sound's own end.
func ReadSound(ctx context.Context, s Sound, use func(samples []float32) error) error {
	if s.Seconds <= 0 {
		return nil
	}
	o, err := Options{Limits: s.Limits}.withDefaults()
	if err != nil {
		return err
	}
	t, err := findTools(ctx)
	if err != nil {
		return err
	}
	in, err := openSound(s.Path)
	if err != nil {
		return err
	}
	d := soundDecoding{in: in, until: math.Max(0, s.Start) + s.Seconds, limits: o.Limits}
	p := &soundPart{skip: wholeSamples(s.Start), left: wholeSamples(s.Seconds), use: use}
	if err := p.silence(); err != nil {
		return err
	}
	said, err := streamCommand(ctx, p.read, func(ctx context.Context) *exec.Cmd { return d.command(ctx, t) })
	switch {
	case ctx.Err() != nil:
		return context.Cause(ctx)
	case p.failed != nil:
		return p.failed
	case err != nil && !p.any:
		e := inputError(in.path, NoSound, "")
		e.Err = err
		return e
	case err != nil || said.any():
		return &SoundDamagedError{Name: in.name}
	}
	return nil
}

func wholeSamples(seconds float64) int64 { return int64(math.Round(seconds * SoundRate)) }

// openSound looks at what path names before any child does. Unlike a clip, it may
// hold nothing but sound.
func openSound(path string) (input, error) {
	abs, err := filepath.Abs(path)
	if err != nil || path == "" {
		return input{}, inputError(path, Missing, "no name given")
	}
	in := input{path: abs, name: SafeName(abs), soundOnly: true}
	info, err := os.Stat(abs)
	if err != nil {
		return input{}, statError(abs, err)
	}
	if err := checkRegular(abs, info); err != nil {
		return input{}, err
	}
	in.size = info.Size()
	in.sniffed, err = sniffFile(abs)
	var refused *InputError
	if errors.As(err, &refused) && refused.Kind == NoVideo {
		return in, nil
	}
	return in, err
}

// soundDecoding is what a decoder of sound is asked for.
type soundDecoding struct {
	in     input
	until  float64 // seconds of the file to decode
	limits Limits
}

func (d soundDecoding) command(ctx context.Context, t tools) *exec.Cmd {
	in := ffmpeg.Input(d.in.url(), decoding{in: d.in, limits: d.limits, single: true}.inputOptions())
	sound := in.Get("a:0").
		Filter("aresample", ffmpeg.Args{strconv.Itoa(SoundRate)}, ffmpeg.KwArgs{"async": "1", "first_pts": "0"}).
		Filter("aformat", nil, ffmpeg.KwArgs{"sample_fmts": "flt", "sample_rates": strconv.Itoa(SoundRate), "channel_layouts": "stereo"})
	out := ffmpeg.OutputContext(ctx, []*ffmpeg.Stream{sound}, "pipe:1", ffmpeg.KwArgs{
		"format": "f32le", "c:a": "pcm_f32le", "t": strconv.FormatFloat(d.until, 'f', 6, 64),
	})
	return compile(ctx, out, t.ffmpeg)
}

// A soundPart takes a stretch out of a decoded stream.
type soundPart struct {
	skip, left int64 // samples before the stretch, negative where silence comes first; samples of it yet to come
	use        func([]float32) error
	any        bool  // the decoder gave something
	failed     error // of use
}

// silence hands over what comes before the file's own beginning.
func (p *soundPart) silence() error {
	quiet := make([]float32, soundBlock*SoundChannels)
	for p.skip < 0 && p.left > 0 {
		n := min(-p.skip, p.left, soundBlock)
		if err := p.use(quiet[:n*SoundChannels]); err != nil {
			return err
		}
		p.skip, p.left = p.skip+n, p.left-n
	}
	return nil
}

// read hands over the stretch. What comes after it is drained, so that the child
// does not die of a closed pipe.
func (p *soundPart) read(r io.Reader) error {
	const sampleBytes = 4 * SoundChannels
	b := bufio.NewReaderSize(r, soundBlock*sampleBytes)
	raw, samples := make([]byte, soundBlock*sampleBytes), make([]float32, soundBlock*SoundChannels)
	for {
		n, err := io.ReadFull(b, raw)
		p.any = p.any || n > 0
		block := samples[:n/sampleBytes*SoundChannels]
		for i := range block {
			block[i] = finite(math.Float32frombits(binary.LittleEndian.Uint32(raw[4*i:])))
		}
		if p.failed = p.hand(block); p.failed != nil {
			return p.failed
		}
		switch {
		case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
			return nil
		case err != nil:
			return err
		}
	}
}

func (p *soundPart) hand(block []float32) error {
	n := min(p.skip, int64(len(block)/SoundChannels))
	block, p.skip = block[n*SoundChannels:], p.skip-n
	n = min(p.left, int64(len(block)/SoundChannels))
	if p.left -= n; n == 0 {
		return nil
	}
	return p.use(block[:n*SoundChannels])
}

// finite makes silence of what is no number, and keeps the rest within reason:
// floating-point files may hold anything.
func finite(v float32) float32 {
	const most = 1000 // 60 dB over full scale
	switch {
	case v != v:
		return 0
	case v > most:
		return most
	case v < -most:
		return -most
	}
	return v
}

// SoundDamagedError says that a sound could only be read in part. What was handed
// over before stands.
type SoundDamagedError struct{ Name string }

func (e *SoundDamagedError) Error() string {
	return fmt.Sprintf("the sound of %s is damaged: parts of it may be wrong or missing", e.Name)
}
