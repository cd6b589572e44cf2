package extract

import (
	"image"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Clip is what is known of a clip before it is decoded.
type Clip struct {
	Path string // absolute; of a sequence, with its pattern
	Name string // base name or pattern, escaped; never a folder

	Width, Height int         // displayed, in pixels: quarter turns and pixel aspect applied
	Work          image.Point // size of the pictures that Next fills: even sides

	Rate       Rate // of the frames that Next gives
	SourceRate Rate // the clip's own constant rate, or the one nearest to its usual interval
	Variable   bool // no constant rate fits the source's time stamps
	Conformed  bool // frames are picked by time: Rate is not the source's, or Variable

	Sound       bool
	SoundLead   float64 // seconds from the file's beginning, where its sound is counted from, to the first frame
	Codec       string  // ffmpeg's name of the codec
	PixelFormat string  // ffmpeg's name of the stored pixel format; may be empty
	Matrix      Matrix  // of the frames that Next gives

	Sequence bool
	First    int64 // number of a sequence's first picture; 0 for files

	Claimed         int64         // source frames that the container says it has; 0 when it says nothing
	ClaimedDuration time.Duration // 0 when it says nothing
}

// Expect is the number of frames that a reading of the whole clip will
// probably give, for showing progress; 0 when nothing is known. The true
// number comes from decoding.
func (c Clip) Expect() int64 {
	if !c.Conformed || c.SourceRate.IsZero() {
		return c.Claimed
	}
	if c.Variable && c.ClaimedDuration > 0 {
		return int64(math.Round(c.ClaimedDuration.Seconds() * c.Rate.Float()))
	}
	return int64(math.Round(float64(c.Claimed) * c.Rate.Float() / c.SourceRate.Float()))
}

// describe makes a Clip of what was probed, with the warnings that are due
// whatever comes.
func describe(in input, p probed, area int) (Clip, []string) {
	v := p.videoStreams()[0]
	g := displayed(v)
	c := Clip{
		Path: in.path, Name: in.name,
		Width: g.width, Height: g.height, Work: workSize(g.width, g.height, area),
		Sound: p.sound(), Codec: v.Codec, PixelFormat: v.PixelFormat, Matrix: matrixOf(v),
		ClaimedDuration: claimedDuration(p, v),
	}
	if n, err := strconv.ParseInt(v.FrameCount, 10, 64); err == nil && n > 0 {
		c.Claimed = n
	}
	if in.sequence != nil {
		c.Sequence, c.First, c.Claimed, c.ClaimedDuration = true, in.sequence.first, in.sequence.count, 0
	}
	return c, slices.Concat(g.warnings, oddities(p, v), leftovers(in, p))
}

// leftovers warns of a file that holds more, or less, than one whole clip.
func leftovers(in input, p probed) []string {
	if in.clips > 1 {
		return []string{"the file holds " + strconv.Itoa(in.clips) + " clips one after the other: the first is read"}
	}
	if p.Format.Name == "mpegts" && in.size%188 != 0 && in.size%192 != 0 && in.size%204 != 0 {
		return []string{"the file ends in the middle of a packet: its end may be missing"}
	}
	return nil
}

// manyChapters is more than any clip of a shot has a use for: such a file was
// made for something else, or to be a burden.
const manyChapters = 100

// oddities warns of what is read, but not as its maker may have meant.
func oddities(p probed, v probedStream) []string {
	var w []string
	if n := len(p.videoStreams()); n > 1 {
		w = append(w, "the file has "+strconv.Itoa(n)+" video streams: the first is read")
	}
	if n := len(p.Chapters); n > manyChapters {
		w = append(w, "the file carries "+strconv.Itoa(n)+" chapters, which are not read")
	}
	if v.Transfer == "smpte2084" || v.Transfer == "arib-std-b67" {
		w = append(w, "the clip has high dynamic range: its brightness is measured as it is coded")
	}
	if seeThrough(v) && !clearByNature(v.Codec) {
		w = append(w, "the clip has an alpha channel: what is clear is measured over mid grey")
	}
	if v.Tags.AlphaMode == "1" { // a picture of its own, which the decoder passes over
		w = append(w, "the clip has an alpha channel, which is left out")
	}
	for _, s := range p.Streams {
		if s.Type == "subtitle" {
			return append(w, "the subtitles are left out")
		}
	}
	return w
}

// claimedDuration takes the stream's own word before the file's, which may
// be that of the sound.
func claimedDuration(p probed, v probedStream) time.Duration {
	if d := seconds(v.Duration); d > 0 {
		return d
	}
	// These two count from time zero, not from the first frame.
	start := max(0, seconds(v.StartTime))
	if d := clock(v.Tags.Duration); d > start {
		return d - start
	}
	if d := seconds(p.Format.Duration); strings.HasPrefix(p.Format.Name, "matroska") && d > start {
		return d - start
	}
	return seconds(p.Format.Duration)
}

// maxSeconds keeps absurd claims inside a time.Duration.
const maxSeconds = 1 << 33

// seconds reads a decimal number of seconds; 0 when there is none.
func seconds(s string) time.Duration {
	f, err := strconv.ParseFloat(s, 64)
	if err != nil || !(f > -maxSeconds && f < maxSeconds) {
		return 0
	}
	return time.Duration(f * float64(time.Second))
}

// clock reads "00:00:02.600000000"; 0 when it is something else.
func clock(s string) time.Duration {
	parts := strings.Split(s, ":")
	if len(parts) != 3 {
		return 0
	}
	h, errH := strconv.ParseUint(parts[0], 10, 16)
	m, errM := strconv.ParseUint(parts[1], 10, 8)
	sec := seconds(parts[2])
	if errH != nil || errM != nil || sec < 0 || sec > time.Minute {
		return 0
	}
	return time.Duration(h)*time.Hour + time.Duration(m)*time.Minute + sec
}
