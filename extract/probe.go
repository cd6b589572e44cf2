package extract

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
)

// probeFields is what is asked about a file. No tags but one: they are
// strangers' text of any length.
const probeFields = "stream=index,codec_type,codec_name,width,height,pix_fmt,sample_aspect_ratio,field_order,color_transfer,color_space," +
	"r_frame_rate,avg_frame_rate,time_base,start_time,duration,nb_frames" +
	":stream_disposition=attached_pic:stream_tags=alpha_mode,DURATION:stream_side_data=rotation" +
	":format=format_name,start_time,duration:chapter=id"

// probed is what ffprobe says about a file. Numbers that JSON carries as text
// stay text until they are used.
type probed struct {
	Streams  []probedStream `json:"streams"`
	Chapters []struct{}     `json:"chapters"` // only how many is wanted
	Format   struct {
		Name      string `json:"format_name"`
		StartTime string `json:"start_time"`
		Duration  string `json:"duration"`
	} `json:"format"`
}

type probedStream struct {
	Index       int    `json:"index"`
	Type        string `json:"codec_type"`
	Codec       string `json:"codec_name"`
	Width       int64  `json:"width"`
	Height      int64  `json:"height"`
	PixelFormat string `json:"pix_fmt"`
	PixelAspect string `json:"sample_aspect_ratio"`
	FieldOrder  string `json:"field_order"`
	Transfer    string `json:"color_transfer"`
	ColorSpace  string `json:"color_space"`
	RealRate    string `json:"r_frame_rate"`
	AverageRate string `json:"avg_frame_rate"`
	TimeBase    string `json:"time_base"`
	StartTime   string `json:"start_time"`
	Duration    string `json:"duration"`
	FrameCount  string `json:"nb_frames"`
	Disposition struct {
		AttachedPicture int `json:"attached_pic"`
	} `json:"disposition"`
	Tags struct {
		AlphaMode string `json:"alpha_mode"`
		Duration  string `json:"DURATION"`
	} `json:"tags"`
	SideData []struct {
		Rotation *float64 `json:"rotation"`
	} `json:"side_data_list"`
}

// moving tells whether a stream is video and not a cover picture.
func (s probedStream) moving() bool {
	return s.Type == "video" && s.Disposition.AttachedPicture == 0
}

// parseProbe reads ffprobe's JSON.
func parseProbe(out []byte) (probed, error) {
	var p probed
	err := json.Unmarshal(out, &p)
	return p, err
}

// videoStreams returns the moving streams in order; ffmpeg's V:0 is the first.
func (p probed) videoStreams() []probedStream {
	var v []probedStream
	for _, s := range p.Streams {
		if s.moving() {
			v = append(v, s)
		}
	}
	return v
}

func (p probed) sound() bool {
	for _, s := range p.Streams {
		if s.Type == "audio" {
			return true
		}
	}
	return false
}

// probe asks what a file is and refuses what cannot be read.
func probe(ctx context.Context, t tools, in input, l Limits) (probed, error) {
	args := append([]string{"-hide_banner", "-v", "error"}, dashed(allowances(in, l))...)
	args = append(args, "-show_entries", probeFields, "-of", "json", "-i", in.url())
	out, said, err := output(ctx, t.ffprobe, args...)
	if ctx.Err() != nil {
		return probed{}, context.Cause(ctx)
	}
	p, jsonErr := parseProbe(out)
	if err == nil && jsonErr != nil {
		return probed{}, &ToolError{Tool: "ffprobe", What: "gave an answer that cannot be read", Err: jsonErr}
	}
	if problem := judgeProbe(in, p, said, l); problem != nil {
		return probed{}, problem
	}
	if err != nil {
		return probed{}, unreadable(in, err)
	}
	return p, nil
}

// judgeProbe says why a probed file cannot be read, or nil.
func judgeProbe(in input, p probed, said *tail, l Limits) error {
	videos := p.videoStreams()
	if len(videos) > 0 && videos[0].Width > 0 && videos[0].Height > 0 {
		return checkPixels(in, videos[0].Width, videos[0].Height, l)
	}
	if said != nil {
		if w, h, ok := refusedSize(said.text()); ok {
			return checkPixels(in, w, h, Limits{Pixels: min(l.Pixels, w*h-1)})
		}
	}
	switch {
	case len(videos) > 0:
		return inputError(in.path, NoFrames, "the size of its pictures cannot be found")
	case len(p.Streams) > 0:
		return inputError(in.path, NoVideo, "")
	}
	return nil
}

// unreadable words the failure of ffprobe, whose own words often mislead.
func unreadable(in input, err error) error {
	e := inputError(in.path, NotClip, "")
	if in.container {
		e.Kind = NoIndex
	}
	e.Err = err
	return e
}

// sizeComplaint is how ffmpeg words a picture beyond -max_pixels. ffprobe then
// reports no size at all, so this is the only place where it can be read.
var sizeComplaint = regexp.MustCompile(`Picture size (\d{1,9})x(\d{1,9}) (?:is invalid|exceeds)`)

func refusedSize(said string) (w, h int64, ok bool) {
	m := sizeComplaint.FindStringSubmatch(said)
	if m == nil {
		return 0, 0, false
	}
	w, errW := strconv.ParseInt(m[1], 10, 64)
	h, errH := strconv.ParseInt(m[2], 10, 64)
	return w, h, errW == nil && errH == nil && w > 0 && h > 0
}

func checkPixels(in input, w, h int64, l Limits) error {
	if w > noLimit/h || w*h > l.Pixels {
		return &LimitError{
			Name: in.name, Limit: "Pixels",
			Got: fmt.Sprintf("pictures of %d×%d", w, h), Max: fmt.Sprintf("%d pixels", l.Pixels),
		}
	}
	return nil
}

// packet is one packet of the video stream, times in units of its time base.
type packet struct {
	PTS      *int64 `json:"pts"`
	DTS      *int64 `json:"dts"`
	Duration *int64 `json:"duration"`
	Flags    string `json:"flags"`
}

// errTooManyPackets stops the listing at the limit of frames.
var errTooManyPackets = errors.New("too many packets")

// readPackets parses the packet list of ffprobe as it comes and gives each
// packet to use.
func readPackets(r io.Reader, use func(packet) error) error {
	d := json.NewDecoder(r)
	for {
		token, err := d.Token()
		if err != nil {
			return err
		}
		if token == "packets" {
			break
		}
	}
	if token, err := d.Token(); err != nil || token != json.Delim('[') {
		return errors.Join(errors.New("packet list is no list"), err)
	}
	for d.More() {
		var p packet
		if err := d.Decode(&p); err != nil {
			return err
		}
		if err := use(p); err != nil {
			return err
		}
	}
	// The rest is drained so that the child does not die of a closed pipe.
	_, err := io.Copy(io.Discard, io.MultiReader(d.Buffered(), r))
	return err
}

// listPackets has ffprobe take the file apart without decoding. What was read
// before a failure counts: cut files end in one.
func listPackets(ctx context.Context, t tools, in input, l Limits) ([]packet, error) {
	args := append([]string{"-hide_banner", "-v", "error"}, dashed(allowances(in, l))...)
	args = append(args, "-select_streams", "V:0", "-show_entries", "packet=pts,dts,duration,flags", "-of", "json", "-i", in.url())
	var packets []packet
	_, err := stream(ctx, func(r io.Reader) error {
		return readPackets(r, func(p packet) error {
			if int64(len(packets)) >= l.Frames {
				return errTooManyPackets
			}
			packets = append(packets, p)
			return nil
		})
	}, t.ffprobe, args...)
	switch {
	case ctx.Err() != nil:
		return nil, context.Cause(ctx)
	case errors.Is(err, errTooManyPackets):
		return nil, framesLimit(in, l)
	}
	return packets, nil
}

func framesLimit(in input, l Limits) *LimitError {
	return &LimitError{
		Name: in.name, Limit: "Frames",
		Got: "it has or claims more", Max: fmt.Sprintf("%d frames", l.Frames),
	}
}
