package motion

import (
	"math"

	"holdfast/motion/figure"
	"holdfast/motion/parts"
	"holdfast/motion/twins"
)

// A Twin is a stretch in which two parts of one shot do the same.
type Twin struct {
	Shot          int // index into Result.Shots
	First, Second int // indices into Result.Parts; NoPart for the left and the right half of the figure
	twins.Twin
}

// NoPart stands for a half of a figure, as the screen has it, that nobody showed.
const NoPart = -1

// tellTwins holds every two parts of a shot against each other.
func (r *Result) tellTwins(rate float64) {
	for i := range r.Parts {
		for k := i + 1; k < len(r.Parts); k++ {
			a, b := &r.Parts[i], &r.Parts[k]
			if a.Shot != b.Shot {
				continue
			}
			for _, t := range twins.Find(a.path(), b.path(), rate) {
				if a.carried(t) || b.carried(t) {
					continue
				}
				t.Start, t.End = t.Start+a.Start, t.End+a.Start
				r.Twins = append(r.Twins, Twin{a.Shot, i, k, t})
			}
		}
	}
}

// hiddenMost is the most frames on which a part may be hidden for its way over them to
// be taken as even.
const hiddenMost = 2

// path is how the part goes, in figure heights.
func (p *Part) path() twins.Path {
	var path twins.Path
	for _, s := range p.Steps {
		path.X, path.Y = append(path.X, s.DX/p.Height), append(path.Y, s.DY/p.Height)
	}
	for i := 1; i < len(p.Steps); i++ {
		k := i // the first frame from i on on which it is seen
		for k < len(p.Steps) && !p.Steps[k].Seen() {
			k++
		}
		if k == i || k-i > hiddenMost || k == len(p.Steps) || !p.Steps[i-1].Seen() {
			i = k
			continue
		}
		a, b := p.Steps[i-1].Box, p.Steps[k].Box
		n := float64(k-i+1) * p.Height
		for f := i; f <= k; f++ {
			path.X[f], path.Y[f] = (b.X+b.W/2-a.X-a.W/2)/n, (b.Y+b.H/2-a.Y-a.H/2)/n
		}
	}
	return path
}

// carriedShare is how far the whole body may go, against the way of the part, for the
// part to go by itself: two arms are a fifth of a body.
const carriedShare = 0.4

// carried reports whether a part goes where the whole body goes, in a stretch.
func (p *Part) carried(t twins.Twin) bool {
	var body, own, bx, by, x, y float64
	for _, s := range p.Steps[t.Start : t.End+1] {
		bx, by = bx+s.BodyX, by+s.BodyY
		if !math.IsNaN(s.DX) {
			x, y = x+s.DX, y+s.DY
		}
		body, own = max(body, math.Hypot(bx, by)), max(own, math.Hypot(x, y))
	}
	return body > carriedShare*own
}

// bodyChange is by how much the area of all figures may change from one frame to the
// next for its middle to say where they went.
const bodyChange = 0.05

// bodies sets how all figures as a whole go on each step, pixels with the camera taken
// out. It is 0 where that is not known.
func bodies(found *figure.Found, in *parts.Stretch) (ways [][2]float64) {
	ways = make([][2]float64, len(in.Path))
	var before, area float64
	var bx, by float64
	for t := range ways {
		if t >= len(found.Bodies) {
			break
		}
		x, y, n := found.Bodies[t].Middle()
		x, y = x*figure.Shrink, y*figure.Shrink
		before, area = area, float64(n)
		if before > 0 && area > 0 && max(before, area) <= (1+bodyChange)*min(before, area) {
			cx, cy := in.World(t-1, t, bx, by)
			ways[t] = [2]float64{x - bx - cx, y - by - cy}
		}
		bx, by = x, y
	}
	return ways
}
