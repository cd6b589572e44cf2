package extract

import (
	"io"
	"math"
	"math/big"
	"math/bits"
)

// conformer lays source frames out on an even row of another rate: output
// frame k shows the source frame whose time, counted from the first one, is
// nearest to k/rate; of two equally near ones the earlier. A frame that stays up
// for longer than the usual step is held until half such a step before the next,
// as a player shows it. It holds two pictures, whatever the length of the clip.
type conformer struct {
	take func() (*picture, error) // the next source frame; io.EOF at the end
	give func(*picture)           // hands a picture back
	rate Rate
	last Rate     // one over the time that the last frame stays up
	tb   timeBase // of the time stamps; set before the first frame is judged
	// even is the source's constant rate, zero when it has none. Time stamps
	// then only say which frame of it this is, so that their rounding (to a
	// millisecond in Matroska) does not decide which of two frames is nearer.
	even Rate

	now, next     *picture
	nowAt, nextAt int64    // units since the first frame, holes closed
	origin, shift int64    // in ticks, in units
	unit          timeBase // a tick, or a frame of the even rate
	k             int64    // next output frame
	end           int64    // number of output frames, once the source has ended
	a, b          uint64   // see begin
	slot          int64    // the usual step, in units
	begun         bool
	breaks        int64 // holes closed
}

// frame returns the picture of the next output frame; it stays with the
// conformer. io.EOF at the end.
func (c *conformer) frame() (*picture, error) {
	if !c.begun {
		if err := c.begin(); err != nil {
			return nil, err
		}
	}
	for c.next != nil && c.pastMiddle() {
		if err := c.step(); err != nil {
			return nil, err
		}
	}
	if c.next == nil && c.k >= c.end {
		return nil, io.EOF
	}
	c.k++
	return c.now, nil
}

func (c *conformer) begin() error {
	c.begun = true
	first, err := c.take()
	if err != nil {
		return err
	}
	c.origin = first.time.pts
	c.now = first
	c.unit = c.tb
	if !c.even.IsZero() {
		c.unit = timeBase{c.even.Den, c.even.Num}
	}
	c.slot = int64(math.Max(1, math.Ceil(slotTicks(c.unit, c.last)-gridTolerance)))
	// k/rate > (now+next)/2 units  <=>  k*a > (now+next)*b
	g := gcd(2*c.rate.Den*c.unit.Den, c.rate.Num*c.unit.Num)
	c.a = uint64(2 * c.rate.Den * c.unit.Den / g)
	c.b = uint64(c.rate.Num * c.unit.Num / g)
	return c.fetch()
}

// pastMiddle tells whether output frame k is nearer to next than to now, which counts
// as lying no farther before next than the usual step.
func (c *conformer) pastMiddle() bool {
	before := max(c.nowAt, c.nextAt-c.slot)
	leftHigh, left := bits.Mul64(uint64(c.k), c.a)
	rightHigh, right := bits.Mul64(uint64(before)+uint64(c.nextAt), c.b)
	return leftHigh > rightHigh || leftHigh == rightHigh && left > right
}

// step makes the next frame the current one.
func (c *conformer) step() error {
	c.give(c.now)
	c.now, c.nowAt, c.next = c.next, c.nextAt, nil
	return c.fetch()
}

// fetch reads ahead to the next frame with a later time.
func (c *conformer) fetch() error {
	for {
		pic, err := c.take()
		if err == io.EOF {
			c.finish()
			return nil
		}
		if err != nil {
			return err
		}
		at := c.place(pic.time.pts)
		if at <= c.nowAt {
			c.give(pic)
			continue
		}
		c.next, c.nextAt = pic, at
		return nil
	}
}

// place counts a time from the first frame, in units, and closes holes that
// are too long to be true.
func (c *conformer) place(pts int64) int64 {
	at := pts - c.origin
	if !c.even.IsZero() {
		at = int64(math.Round(float64(at) / slotTicks(c.tb, c.even)))
	}
	at -= c.shift
	if float64(at-c.nowAt)*c.unit.seconds() <= maxHole {
		return at
	}
	c.breaks++
	c.shift += at - c.nowAt - c.slot
	return c.nowAt + c.slot
}

// finish works out how many output frames the clip has: those whose time is
// before the end of the last source frame. A rounded time stamp may lie half
// a tick late, so of a source without an even rate a frame that begins within
// the last of many ticks does not count.
func (c *conformer) finish() {
	unit := big.NewRat(c.unit.Num, c.unit.Den)
	end := new(big.Rat).Mul(big.NewRat(c.nowAt, 1), unit)
	end.Add(end, big.NewRat(c.last.Den, c.last.Num))
	if c.even.IsZero() && slotTicks(c.unit, c.rate) >= 1/gridTolerance {
		end.Sub(end, unit)
	}
	end.Mul(end, c.rate.rat())
	q, rest := new(big.Int).QuoRem(end.Num(), end.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	c.end = max(q.Int64(), c.k, 1)
}
