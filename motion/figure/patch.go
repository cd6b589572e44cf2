package figure

import (
	"math"
	"slices"

	"holdfast/motion/travel"
)

// A way is how far what flow lost went, in layer pixels.
type way struct {
	sum float64 // over all pixels
	top float64 // of the part that went farthest
}

// sum adds up how far the pixels that were left went.
func (s *shifter) sum(m *travel.Map, before, after bool) way {
	d := [3][]uint8{s.changed[0].Pix, s.changed[1].Pix, s.changed[2].Pix}
	s.left, s.arrived = s.left[:0], s.arrived[:0]
	for i, v := range d[1] {
		if v == 0 {
			continue
		}
		if before && d[0][i] != 0 || !before && d[2][i] == 0 {
			s.left = append(s.left, i)
			s.isLeft[i] = true
		}
		if after && d[2][i] != 0 || !after && d[0][i] == 0 {
			s.arrived = append(s.arrived, i)
		}
	}
	total := s.follow(m)
	for _, i := range s.left {
		s.isLeft[i] = false
	}
	return total
}

const (
	// farShare is the travel, in picture heights, beyond which what arrived and
	// what was left are not taken for the same part.
	farShare = 0.35
	// mostFollowed and mostPlaces bound the pixels that are followed and the
	// places each is looked for at; of more only every second, third, ... is
	// taken. Large parts are told as well by a few hundred pixels as by all.
	mostFollowed = 300
	mostPlaces   = 1200
)

// follow matches the pixels that were left in the cells that flow lost.
func (s *shifter) follow(m *travel.Map) way {
	var total way
	w := s.layers[0].W
	s.ways = s.ways[:0]
	stride := 1 + len(s.left)/mostFollowed
	for k := 0; k < len(s.left); k += stride {
		if i := s.left[k]; inLost(m, i%w, i/w) {
			if far := s.match(i); far > 0 {
				total.sum += far * float64(stride)
				s.ways = append(s.ways, far)
			}
		}
	}
	if n, part := len(s.ways), (partPixels+stride-1)/stride; n >= part {
		slices.Sort(s.ways)
		total.top = s.ways[n-part]
	}
	return total
}

// partPixels is how many layer pixels of something must go far for it to be a
// part of the figure: a hand of a figure a fifth of the picture high.
const partPixels = 6

const (
	patchReach  = 3   // layer pixels either side: a patch of 7 by 7
	patchStride = 2   // between the pixels of a patch that are compared
	nearPrice   = 0.3 // levels a pixel of way: of like places the nearest

	patchMost  = (2*patchReach/patchStride + 1) * (2*patchReach/patchStride + 1) // pixels compared
	patchLeast = patchMost / 4                                                   // of them that must have moved
)

// match returns how far, in layer pixels, the patch around pixel i went: to the
// pixel that something arrived at around which the patch looks most alike. Only
// pixels of the patch that moved are compared.
func (s *shifter) match(i int) float64 {
	w, h := s.layers[0].W, s.layers[0].H
	x, y := i%w, i/w
	reach := int(farShare * float64(h))
	var offsets [patchMost]int
	n := 0
	for dy := -patchReach; dy <= patchReach; dy += patchStride {
		for dx := -patchReach; dx <= patchReach; dx += patchStride {
			px, py := x+dx, y+dy
			if px < 0 || py < 0 || px >= w || py >= h || !s.isLeft[py*w+px] {
				continue
			}
			offsets[n] = dy*w + dx
			n++
		}
	}
	if n < patchLeast {
		return 0
	}
	a, b := s.views[1], s.views[2]
	best, far := math.Inf(1), 0.0
	for k := 0; k < len(s.arrived); k += 1 + len(s.arrived)/mostPlaces {
		j := s.arrived[k]
		jx, jy := j%w, j/w
		ddx, ddy := jx-x, jy-y
		if ddx > reach || ddx < -reach || ddy > reach || ddy < -reach || jx < patchReach || jy < patchReach || jx >= w-patchReach || jy >= h-patchReach {
			continue
		}
		way := math.Hypot(float64(ddx), float64(ddy))
		c := nearPrice * way * float64(n)
		for _, o := range offsets[:n] {
			if c >= best {
				break
			}
			c += apart(a, b, i+o, j+o)
		}
		if c < best {
			best, far = c, way
		}
	}
	return far
}

// apart is the difference of two pixels of two layers, levels summed over luma
// and chroma.
func apart(a, b *Layer, i, j int) float64 {
	p, q := a.Pix[i*channels:i*channels+channels], b.Pix[j*channels:j*channels+channels]
	sum := 0
	for c := range channelSeen {
		d := int(p[c]) - int(q[c])
		sum += max(d, -d)
	}
	return float64(sum)
}

// inLost reports whether a layer pixel lies in a lost cell.
func inLost(m *travel.Map, x, y int) bool {
	i, ok := m.Cell(x*Shrink, y*Shrink)
	return ok && m.Lost[i]
}
