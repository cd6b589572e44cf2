package main

import (
	"context"
	"fmt"

	ffmpeg "github.com/u2takey/ffmpeg-go"

	"holdfast/extract"
)

// decodeOnly is the command line that decodes a clip and scales it to the
// working size as holdfast does, and does nothing with the pictures: the least
// that any measuring of them can cost.
func decodeOnly(ctx context.Context, clip string, c care) ([]string, error) {
	r, err := extract.Open(ctx, clip, extract.Options{WorkArea: cares[c]})
	if err != nil {
		return nil, err
	}
	work := r.Clip().Work
	if err := r.Close(); err != nil {
		return nil, err
	}
	scale := fmt.Sprintf("scale=%d:%d:flags=area+accurate_rnd+bitexact,format=yuv420p", work.X, work.Y)
	cmd := ffmpeg.Input("file:"+clip, ffmpeg.KwArgs{"nostdin": "", "hide_banner": "", "v": "error"}).
		Output("-", ffmpeg.KwArgs{"map": "0:V:0", "an": "", "fps_mode": "passthrough", "vf": scale, "f": "null"}).
		Compile()
	return cmd.Args, nil
}
