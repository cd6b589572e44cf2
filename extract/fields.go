package extract

import (
	"context"
	"encoding/json"
	"slices"

	ffmpeg "github.com/u2takey/ffmpeg-go"
)

// fields says which pictures of a clip are made of two fields, taken half a frame
// apart and woven line by line. What moves is torn into combs there, which is no
// move and no edge of a figure.
type fields string

// The values are those of the filter's option that asks the same.
const (
	noFields     fields = ""
	markedFields fields = "interlaced" // the pictures that the decoder marks
	allFields    fields = "all"        // every picture
)

// fewestLines is how high and wide a picture must be to be taken apart, in pixels:
// the filter refuses less than 8.
const fewestLines = 16

// unmarkedCodecs have decoders that mark no picture: what the container says of
// fields goes for all of them.
var unmarkedCodecs = []string{"png", "qtrle", "mjpeg", "huffyuv", "ffvhuff", "utvideo"}

// silentCodecs may be interlaced without ffprobe saying so of the stream: only
// their pictures tell.
var silentCodecs = []string{"dvvideo", "dnxhd", "mpeg4", "vc1", "wmv3"}

// findFields says how the pictures of a stream are woven.
func findFields(ctx context.Context, t tools, in input, v probedStream, l Limits) (fields, error) {
	woven := slices.Contains([]string{"tt", "bb", "tb", "bt"}, v.FieldOrder)
	switch {
	case v.Height < fewestLines || v.Width < fewestLines:
		return noFields, nil
	case woven && slices.Contains(unmarkedCodecs, v.Codec):
		return allFields, nil
	case woven:
		return markedFields, nil
	case in.sequence == nil && slices.Contains(silentCodecs, v.Codec):
		return askFields(ctx, t, in, l)
	}
	return noFields, nil
}

// askFields decodes the first picture to see whether it is marked. A clip whose
// first picture cannot be decoded is taken for one without fields: what is wrong
// with it comes out when it is read.
func askFields(ctx context.Context, t tools, in input, l Limits) (fields, error) {
	args := append([]string{"-hide_banner", "-v", "error"}, dashed(allowances(in, l))...)
	args = append(args, "-select_streams", "V:0", "-read_intervals", "%+#1", "-show_entries", "frame=interlaced_frame", "-of", "json", "-i", in.url())
	out, _, err := output(ctx, t.ffprobe, args...)
	if ctx.Err() != nil {
		return noFields, context.Cause(ctx)
	}
	var answer struct {
		Frames []struct {
			Interlaced int `json:"interlaced_frame"`
		} `json:"frames"`
	}
	if err != nil || json.Unmarshal(out, &answer) != nil || len(answer.Frames) == 0 || answer.Frames[0].Interlaced == 0 {
		return noFields, nil
	}
	return markedFields, nil
}

// unweave keeps the earlier field of woven pictures and makes up the lines
// between from their neighbours in space and time (three-field method of M. Weston,
// BBC; from memory). As many pictures come out as went in, with their times. Where
// nothing moves, the picture stays what it was.
func (f fields) unweave(s *ffmpeg.Stream) *ffmpeg.Stream {
	if f == noFields {
		return s
	}
	return s.Filter("bwdif", nil, ffmpeg.KwArgs{"mode": "send_frame", "parity": "auto", "deint": string(f)})
}
