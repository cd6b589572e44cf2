package figure

import (
	"math"

	"holdfast/motion/camera"
	"holdfast/motion/rank"
	"holdfast/motion/travel"
)

// A dissolve shows more of one picture and less of another from frame to frame.
// While both stand, each step changes the same: some share of the difference
// between the two. What travels changes something else on every step. So steps
// that change most of the picture alike, where flow finds nothing that travels,
// are a dissolve, and what they have in common is no travel (after the production
// model of edits: A. Hampapur, R. Jain, T. Weymouth, "Production Model Based
// Digital Video Segmentation", 1995; from memory).

const (
	// blendApart is how many steps lie between the two that are compared: at one
	// step both would share the grain of a frame, and slow things look alike.
	blendApart = 2
	// blendLike is the least likeness of two steps of a dissolve, as the cosine
	// between what they change: two thirds of that may be grain and coding, whose
	// own likeness is 0.
	blendLike = 0.3
	// blendLeast is how much of a change, in levels, half of the picture must
	// show: what coding mends stays below.
	blendLeast = 0.25
	// blendMost is how many times the middle change a cell counts for at most,
	// so that something that moves does not speak for the picture.
	blendMost = 2.0
	// blendLeft is how many times the middle of what the dissolve leaves
	// unexplained a cell must show for something to move in it, and blendShare
	// the part of its own change.
	blendLeft, blendShare = 4.0, 0.5
)

// blends compares the steps of a stretch with each other.
type blends struct {
	layers  []*Layer
	path    []camera.Similarity
	grid    *travel.Map
	seen    []tones                  // of each frame
	changes [2*blendApart + 1]change // of steps in turn
	scratch []float32
}

// A change is what a step changes in each cell, light taken out.
type change struct {
	tones  tones // levels; empty where the camera moves: two pictures then do as well
	middle float32
}

// settle takes out of the maps what dissolves change.
func (b *blends) settle(maps []*travel.Map) {
	for t := 1; t < len(b.layers)+blendApart; t++ {
		b.step(t)
		now := t - blendApart
		if now < 1 || maps[now] == nil || !astrayAll(maps[now]) {
			continue
		}
		explained := make([]bool, len(maps[now].Lost))
		b.explain(explained, b.at(now), b.at(now-blendApart))
		b.explain(explained, b.at(now), b.at(now+blendApart))
		still(maps[now], explained)
	}
}

// astrayAll reports whether flow lost most of what it looked at.
func astrayAll(m *travel.Map) bool {
	lost, found := 0, 0
	for i, v := range m.Lost {
		if v {
			lost++
		} else if m.Travel[i] > 0 {
			found++
		}
	}
	return lost > found
}

// still leaves no travel in the given cells of a map.
func still(m *travel.Map, cells []bool) {
	for i, in := range cells {
		if in {
			m.Travel[i], m.Lost[i] = 0, false
		}
	}
}

// at is what step t changes; t is one of the last steps worked out, or of those
// before the first, which change nothing.
func (b *blends) at(t int) *change { return &b.changes[(t+len(b.changes))%len(b.changes)] }

// step works out what the step to frame t changes. Light is taken out where that
// leaves less: in a picture that is mostly of one tone nothing tells it.
func (b *blends) step(t int) {
	c := b.at(t)
	c.tones = c.tones[:0]
	if t >= len(b.layers) || b.path[t] != b.path[t-1] {
		return
	}
	b.change(c, t, 1, 0)
	plain := c.middle
	if gain, bias := light(b.layers[t], b.layers[t-1]); gain != 1 || bias != 0 {
		b.change(c, t, gain, bias)
	}
	if c.middle > plain {
		b.change(c, t, 1, 0)
	}
}

// change sets c to how frame t differs from the one before in another light.
func (b *blends) change(c *change, t int, gain, bias float64) {
	c.tones = append(c.tones[:0], b.seen[t]...)
	for i, v := range b.seen[t-1] {
		lit := gain*float64(v) + bias
		if i%channelSeen != channelY {
			lit = 128 + gain*(float64(v)-128)
		}
		c.tones[i] -= float32(lit)
	}
	c.middle = b.median(c.tones.size)
}

// size is how much there is in cell i, levels.
func (v tones) size(i int) float32 {
	v = v[channelSeen*i:]
	return max(abs(v[channelY]), chromaWeight*abs(v[channelCb]), chromaWeight*abs(v[channelCr]))
}

// median is that of f over all cells.
func (b *blends) median(f func(i int) float32) float32 {
	b.scratch = b.scratch[:0]
	for i := range b.grid.Cols * b.grid.Rows {
		b.scratch = append(b.scratch, f(i))
	}
	return rank.Median(b.scratch)
}

// explain marks the cells in which step c changes what step d does, where both
// belong to one dissolve.
func (b *blends) explain(explained []bool, c, d *change) {
	if len(c.tones) == 0 || len(d.tones) == 0 || min(c.middle, d.middle) < blendLeast || c.likeness(d) < blendLike {
		return
	}
	ratio := c.middle / d.middle
	left := func(i int) float32 {
		most := float32(0)
		for k := range channelSeen {
			w := float32(chromaWeight)
			if k == channelY {
				w = 1
			}
			most = max(most, w*abs(c.tones[channelSeen*i+k]-ratio*d.tones[channelSeen*i+k]))
		}
		return most
	}
	limit := blendLeft * b.median(left)
	for i := range explained {
		explained[i] = explained[i] || left(i) <= max(limit, blendShare*c.tones.size(i))
	}
}

// likeness is the cosine between what two steps change, -1 to 1.
func (c *change) likeness(d *change) float64 {
	var cc, dd, cd float64
	for i, v := range c.tones {
		x := held(v, blendMost*c.middle)
		y := held(d.tones[i], blendMost*d.middle)
		cc, dd, cd = cc+x*x, dd+y*y, cd+x*y
	}
	return cd / math.Sqrt(cc*dd)
}

// held is v kept within limit of 0.
func held(v, limit float32) float64 { return float64(max(-limit, min(limit, v))) }
