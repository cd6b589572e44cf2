package figure

import (
	"math"
	"slices"
)

// Figures that pass each other are one piece for a while. The linker then ends one
// track, gives the piece to the other and starts a new track where they part; who
// is who after that is told by where each was going and how tall it was.

const (
	// crossSeconds is how long two figures are one piece at most.
	crossSeconds = 2.0
	// crossPace is over how long, in seconds, the pace of a figure is taken before
	// it meets the other: a stride or so.
	crossPace = 0.5
	// crossAlike is how tall the smaller of two figures is at least against the
	// taller one: less is a part that comes off a figure.
	crossAlike = 0.5
	// crossHeight is how much, as a share of it, the height of a figure that walks
	// may well vary.
	crossHeight = 0.1
)

// A meeting is a track that others end in and start from: on frame end the one
// that ends was seen last, on frame start the one that starts was seen first. Both
// are the same track where that was lost for but a moment.
type meeting struct {
	stays, ends, starts *Track
	end, start          int
}

// uncross gives the tracks of figures that pass each other to one figure each.
func (l *linker) uncross(rate float64) {
	for {
		c, ok := l.meeting(int(math.Round(crossSeconds * rate)))
		if !ok {
			return
		}
		a, b := c.part(int(math.Round(crossPace * rate)))
		l.tracks = slices.DeleteFunc(l.tracks, func(t *Track) bool { return t == c.starts && t != c.ends })
		*c.stays, *c.ends = a, b
	}
}

// meeting finds the first one that lasts no longer than most frames.
func (l *linker) meeting(most int) (meeting, bool) {
	for _, c := range l.partings() {
		if c.start-c.end > most {
			continue
		}
		for _, c.stays = range l.tracks {
			if c.stays != c.ends && c.stays != c.starts && c.crosses() {
				return c, true
			}
		}
	}
	return meeting{}, false
}

// partings are the gaps within tracks, and from where each ends to where others
// start.
func (l *linker) partings() (list []meeting) {
	for _, t := range l.tracks {
		last := t.Start
		for f := t.Start; f <= t.End(); f++ {
			if t.At(f).Empty() {
				continue
			}
			if f > last+1 {
				list = append(list, meeting{ends: t, starts: t, end: last, start: f})
			}
			last = f
		}
		for _, o := range l.tracks {
			if o.Start > t.End()+1 {
				list = append(list, meeting{ends: t, starts: o, end: t.End(), start: o.Start})
			}
		}
	}
	return list
}

// crosses reports whether one track goes into another and comes out of it, all of
// figures and not of parts.
func (c *meeting) crosses() bool {
	before, met := c.stays.At(c.end), c.stays.At(c.end+1)
	together, after := c.stays.At(c.start-1), c.stays.At(c.start)
	if before.Empty() || met.Empty() || together.Empty() || after.Empty() {
		return false
	}
	return met.Overlap(c.ends.At(c.end)) > 0 && together.Overlap(c.starts.At(c.start)) > 0 &&
		alike(before, c.ends.At(c.end)) && alike(after, c.starts.At(c.start))
}

func alike(a, b Box) bool { return float64(min(a.H(), b.H())) >= crossAlike*float64(max(a.H(), b.H())) }

// part returns the tracks of both figures over all that either was seen in. pace is
// over how many frames their ways are taken before they meet.
func (c *meeting) part(pace int) (a, b Track) {
	p, q := c.stays.expect(c.end, c.start, pace), c.ends.expect(c.end, c.start, pace)
	u, v := placeOf(c.stays.At(c.start)), placeOf(c.starts.At(c.start))
	if p.to(u)+q.to(v) <= p.to(v)+q.to(u) {
		return c.joined(c.stays, c.stays), c.joined(c.ends, c.starts)
	}
	return c.joined(c.stays, c.starts), c.joined(c.ends, c.stays)
}

// A standing is the middle of a box, how far off that may well be, and its height,
// layer pixels.
type standing struct{ x, y, off, h float64 }

func placeOf(b Box) standing {
	return standing{x: float64(b.X0+b.X1) / 2, y: float64(b.Y0+b.Y1) / 2, off: float64(b.W()), h: float64(b.H())}
}

// to is how unlike a figure is to be at o that is expected at s.
func (s standing) to(o standing) float64 {
	return math.Hypot(s.x-o.x, s.y-o.y)/s.off + math.Abs(s.h-o.h)/(crossHeight*s.h)
}

// expect is where a track that goes on from frame last as it did for the frames
// before comes to be on frame at. It may as well stop there, or be faster.
func (t *Track) expect(last, at, pace int) standing {
	now := placeOf(t.At(last))
	for n := pace; n > 0; n-- {
		if b := t.At(last - n); !b.Empty() {
			was, u := placeOf(b), float64(at-last)/float64(n)
			dx, dy := u*(now.x-was.x), u*(now.y-was.y)
			now.x, now.y, now.off = now.x+dx, now.y+dy, max(now.off, math.Hypot(dx, dy))
			break
		}
	}
	return now
}

// joined is the track from one until it meets the other figure, over to another
// from where they part. Between the two its box goes over as steadily as can be.
func (c *meeting) joined(from, to *Track) Track {
	t := Track{Start: from.Start, Boxes: slices.Clone(from.Boxes[:c.end-from.Start+1])}
	a, b := from.At(c.end), to.At(c.start)
	for f := c.end + 1; f < c.start; f++ {
		t.Boxes = append(t.Boxes, a.toward(b, float64(f-c.end)/float64(c.start-c.end)).within(c.stays.At(f)))
	}
	t.Boxes = append(t.Boxes, to.Boxes[c.start-to.Start:]...)
	return t
}

// toward is the box the given share of the way to another.
func (b Box) toward(o Box, u float64) Box {
	mix := func(p, q int) int { return p + int(math.Round(u*float64(q-p))) }
	return Box{mix(b.X0, o.X0), mix(b.Y0, o.Y0), mix(b.X1, o.X1), mix(b.Y1, o.Y1)}
}

// within is what of b lies in another box, or all of that where nothing does.
func (b Box) within(o Box) Box {
	in := b.clip(o)
	if in.Empty() {
		return o
	}
	return in
}
