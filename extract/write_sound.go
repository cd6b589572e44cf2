package extract

import (
	"context"
	"os/exec"
	"strconv"

	ffmpeg "github.com/u2takey/ffmpeg-go"
)

// A soundtrack is the sound of a clip, to be written beside pictures made of it.
type soundtrack struct {
	in     input
	start  float64 // seconds of the file's clock at which the first picture is up
	length float64 // seconds; 0: to the end
}

// cut leaves what is heard from so many seconds on, for so long. There may be no
// soundtrack.
func (s *soundtrack) cut(from, length float64) {
	if s != nil {
		s.start, s.length = s.start+from, length
	}
}

// findSound returns the sound of a clip; nil where it has none.
func findSound(ctx context.Context, t tools, path string) (*soundtrack, error) {
	in, err := openInput(ctx, path, Rate{})
	if err != nil {
		return nil, err
	}
	if in.sequence != nil {
		return nil, nil
	}
	o, err := Options{}.withDefaults()
	if err != nil {
		return nil, err
	}
	p, err := probe(ctx, t, in, o.Limits)
	if err != nil {
		return nil, err
	}
	videos := p.videoStreams()
	if !p.sound() || len(videos) == 0 {
		return nil, nil
	}
	return &soundtrack{in: in, start: seconds(videos[0].StartTime).Seconds()}, nil
}

// soundBitRate is clear for speech and music, and little beside the pictures.
const soundBitRate = "160k"

// encoderWithSound is encoder with the sound of a clip beside the pictures: what
// comes before the first of them is left out, and silence stands where sound
// begins later.
func encoderWithSound(ctx context.Context, t tools, path string, w VideoOptions, sound *soundtrack) *exec.Cmd {
	options := ffmpeg.KwArgs{}
	o, err := Options{}.withDefaults()
	if err == nil {
		for _, a := range allowances(sound.in, o.Limits) {
			options[a[0]] = a[1]
		}
	}
	// Without these the clock of the file is shifted so that it begins at 0.
	options["itsoffset"] = strconv.FormatFloat(-sound.start, 'f', 6, 64)
	options["copyts"] = ""
	heard := ffmpeg.Input(sound.in.url(), options).Get("a:0").
		Filter("aresample", ffmpeg.Args{"48000"}, ffmpeg.KwArgs{"async": "1", "first_pts": "0"}).
		Filter("aformat", nil, ffmpeg.KwArgs{"channel_layouts": "mono|stereo"})
	if sound.length > 0 {
		heard = heard.Filter("atrim", nil, ffmpeg.KwArgs{"end": strconv.FormatFloat(sound.length, 'f', 6, 64)})
	}
	encoding := w.encoding()
	encoding["c:a"], encoding["b:a"], encoding["flags:a"] = "aac", soundBitRate, "+bitexact"
	out := ffmpeg.OutputContext(ctx, []*ffmpeg.Stream{rawPictures(w), heard}, fileURL(path), encoding)
	return compile(ctx, out.OverwriteOutput(out), t.ffmpeg)
}
