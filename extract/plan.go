package extract

import (
	"fmt"
	"math"
)

// plan probes the input, works out its rate and says how to decode it.
func (r *Reader) plan(t tools) (decoding, error) {
	p, err := probe(r.ctx, t, r.in, r.o.Limits)
	if err != nil {
		return decoding{}, err
	}
	videos := p.videoStreams()
	if len(p.Streams) == 0 {
		return decoding{}, unreadable(r.in, nil)
	}
	if len(videos) == 0 {
		return decoding{}, inputError(r.in.path, NoVideo, "")
	}
	r.clip, r.warnings = describe(r.in, p, r.o.WorkArea)
	if r.clip.Claimed > r.o.Frames {
		return decoding{}, framesLimit(r.in, r.o.Limits)
	}
	d := decoding{in: r.in, work: r.clip.Work, single: r.o.SingleThread, alpha: seeThrough(videos[0]), limits: r.o.Limits}
	if d.woven, err = findFields(r.ctx, t, r.in, videos[0], r.o.Limits); err != nil {
		return decoding{}, err
	}
	if d.woven != noFields {
		r.warn("the clip is interlaced: the earlier field of each frame is measured, the lines between are made up")
	}
	if r.in.sequence != nil {
		r.planSequence(&d)
		return d, nil
	}
	packets, err := listPackets(r.ctx, t, r.in, r.o.Limits)
	if err != nil {
		return decoding{}, err
	}
	if len(packets) == 0 {
		return decoding{}, inputError(r.in.path, NoIndex, "")
	}
	hidden := countDiscarded(packets)
	r.tm, d.tb = timeFile(r.in, videos[0], r.clip.Claimed-hidden, packets)
	r.stored = int64(len(packets)) - hidden
	r.sparse = lasting(packets, d.tb) >= lastingShare*r.clip.ClaimedDuration.Seconds()
	r.claim(r.stored, hidden, parseClaim(videos[0].AverageRate))
	r.clip.SoundLead = seconds(videos[0].StartTime).Seconds() - seconds(p.Format.StartTime).Seconds()
	r.planFile(&d, r.clip.SoundLead)
	return d, nil
}

// planSequence takes the rate that was given; a sequence has no time of its own.
func (r *Reader) planSequence(d *decoding) {
	r.clip.Rate, r.clip.SourceRate = r.in.rate, r.in.rate
	r.tm = timing{rate: r.in.rate, last: r.in.rate}
	d.tb = timeBase{r.in.rate.Den, r.in.rate.Num}
	d.frames = min(r.in.sequence.count, r.lastWithin())
	r.stored = r.in.sequence.count
	if r.o.FPS.IsZero() {
		r.warn("no frame rate given for the sequence: %s taken", r.in.rate)
	}
	if r.o.SingleThread {
		r.conform()
	}
}

// claim settles how many frames the container says there are. Its own count
// takes in frames that an edit list hides, so that its duration may say less.
// Without a count it is the number of packets, or more when the duration at a
// constant rate has room for more.
func (r *Reader) claim(shown, hidden int64, average Rate) {
	length := r.clip.ClaimedDuration.Seconds()
	if counted := r.clip.Claimed - hidden; counted > 0 {
		if room := int64(math.Round(length * average.Float())); room > 0 {
			counted = min(counted, room)
		}
		r.clip.Claimed = max(counted, shown)
		return
	}
	r.clip.Claimed = shown + int64(r.tm.missing)
	if r.tm.variable || r.tm.untimed || r.tm.breaks > 0 {
		return
	}
	// A frame of slack: durations are rounded, and sound often ends later.
	room := int64(math.Round(length * r.tm.rate.Float()))
	if room > r.clip.Claimed+1 && !r.clip.Sound {
		r.clip.Claimed = room
	}
}

// planFile decides whether frames are passed through or picked by time.
// offset is how many seconds after the file the video begins.
func (r *Reader) planFile(d *decoding, offset float64) {
	r.clip.SourceRate, r.clip.Variable = r.tm.rate, r.tm.variable
	r.clip.Rate = r.tm.rate
	if !r.o.FPS.IsZero() {
		r.clip.Rate = r.o.FPS
	}
	r.warnOfTiming()
	if r.tm.untimed || r.clip.Claimed == 1 {
		d.frames = r.lastWithin() % noLimit
		return
	}
	if !r.tm.variable && r.tm.missing == 0 && !r.o.SingleThread && r.clip.Rate == r.tm.rate {
		d.frames = r.lastWithin() % noLimit
		return
	}
	r.conform()
	if r.last < noLimit && r.tm.breaks == 0 {
		d.until = math.Max(0, offset) + float64(r.last+1)/r.clip.Rate.Float() + trimSlack
	}
}

// trimSlack is how much longer than asked for a clip is decoded, in seconds,
// so that the frame after the last is there to compare with.
const trimSlack = 1.0

// lastWithin is the number of frames up to the last one asked for.
func (r *Reader) lastWithin() int64 {
	if r.last >= noLimit {
		return noLimit
	}
	return r.last + 1
}

func (r *Reader) conform() {
	r.clip.Conformed = r.tm.variable || r.clip.Rate != r.clip.SourceRate
	r.conf = &conformer{
		take: r.take, give: func(p *picture) { r.pump.free <- p },
		rate: r.clip.Rate, last: r.tm.last,
	}
	if !r.tm.variable {
		r.conf.even = r.tm.rate
	}
}

func (r *Reader) warn(format string, args ...any) {
	r.warnings = append(r.warnings, fmt.Sprintf(format, args...))
}

func (r *Reader) warnOfTiming() {
	switch {
	case r.tm.untimed:
		r.warn("the clip has no time stamps: %s frames per second taken", r.clip.Rate)
	case r.tm.variable:
		r.warn("variable frame rate: conformed to %s frames per second", r.clip.Rate)
	case r.clip.Claimed == 1:
		r.warn("the clip is a single frame")
	case r.clip.Rate != r.tm.rate:
		r.warn("conformed from %s to %s frames per second", r.tm.rate, r.clip.Rate)
	}
	if r.tm.missing > 0 {
		r.warn("frames missing on the way: %d (the one before is shown in their place)", r.tm.missing)
	}
	if r.tm.doubled > 0 {
		r.warn("frames with the time of another, left out: %d", r.tm.doubled)
	}
	if r.tm.breaks > 0 {
		r.warn("leaps of the time stamps, closed: %d", r.tm.breaks)
	}
}
