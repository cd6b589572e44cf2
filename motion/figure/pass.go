package figure

import (
	"math"

	"holdfast/motion/camera"
	"holdfast/motion/rank"
	"holdfast/motion/travel"
)

// What passes close before the lens hides the figures and moves none of them. It
// is larger than they are, comes in over the rim of the picture, and a moment
// later the picture is what it was a moment before.

const (
	// passSeconds is for how long anything may be hidden: no longer than what
	// passes by without making a cut.
	passSeconds = 1.0 / 3
	// passShare is how much of the picture must be hidden at once for it to be by
	// something close to the lens; passRim is how much counts while that comes in
	// or goes out.
	passShare, passRim = 0.25, 0.01
	// passWay is how far what is hidden must go, in widths or heights of the picture,
	// and passSpans in how many times passSeconds at most: a limb that swings to and
	// fro before the lens hides for a moment as well, but where it is for good.
	passWay, passSpans = 0.5, 3
	// passLeast is the least difference in levels that hides: what is out of focus
	// begins faintly. passNoise is the same in differences between before and after.
	passLeast, passNoise = 2.0, 4.0
	// passBack is the part of its difference to which a cell must come back.
	passBack = 0.5
	// hiddenShare is how much of the figures' cells must be hidden for a step to
	// tell nothing.
	hiddenShare = 0.5
)

// passes finds what passes before the lens in a stretch of frames.
type passes struct {
	layers []*Layer
	path   []camera.Similarity // layer pixels
	grid   *travel.Map
	tones  []tones // of each frame
	span   int     // frames for which anything may be hidden
	view   *Layer
	noise  []float32
}

func newPasses(layers []*Layer, path []camera.Similarity, grid *travel.Map, tones []tones, rate float64) (*passes, error) {
	p := &passes{layers: layers, grid: grid, tones: tones, span: max(1, int(math.Round(passSeconds*rate)))}
	for _, s := range path {
		p.path = append(p.path, shrunk(s))
	}
	var err error
	p.view, err = NewLayer(layers[0].W, layers[0].H)
	return p, err
}

func (p *passes) close() {
	if p.view != nil {
		p.view.Close()
	}
}

// find returns for each frame the cells that something passing by hides, with no
// cells at all where nothing does.
func (p *passes) find() []Region {
	hidden := make([]Region, len(p.layers))
	for _, t := range p.likely() {
		hidden[t] = p.look(t)
	}
	for start := 0; start < len(hidden); {
		end := start
		for end < len(hidden) && hidden[end].share() >= passRim {
			end++
		}
		if run := hidden[start:end]; len(run) > passSpans*p.span || !crosses(run) {
			clear(run)
		}
		if end == start {
			hidden[start] = Region{}
			end++
		}
		start = end
	}
	return hidden
}

// crosses reports whether what hides the cells of successive frames is large and
// goes through the picture from side to side.
func crosses(run []Region) bool {
	most := 0.0
	for _, r := range run {
		most = max(most, r.share())
	}
	if most < passShare {
		return false
	}
	x0, y0 := run[0].middle()
	x1, y1 := run[len(run)-1].middle()
	return max(math.Abs(x1-x0), math.Abs(y1-y0)) >= passWay
}

// likely lists the frames near to one on which much seems hidden, the camera not
// taken out.
func (p *passes) likely() []int {
	near := make([]bool, len(p.layers))
	for t := p.span; t+p.span < len(near); t++ {
		n := 0
		for i := range p.grid.Cols * p.grid.Rows {
			if hides(p.tones[t-p.span], p.tones[t], p.tones[t+p.span], i, passLeast) {
				n++
			}
		}
		if n == 0 || float64(n) < passShare/2*float64(p.grid.Cols*p.grid.Rows) {
			continue
		}
		for k := max(p.span, t-p.span); k <= min(len(near)-1-p.span, t+p.span); k++ {
			near[k] = true
		}
	}
	var list []int
	for t, v := range near {
		if v {
			list = append(list, t)
		}
	}
	return list
}

// hides reports whether cell i shows something else for a moment.
func hides(before, now, after tones, i int, least float32) bool {
	d := min(now.unlike(before, i), now.unlike(after, i))
	return d > least && before.unlike(after, i) <= passBack*d
}

// look returns the cells of frame t that hang together with the rim and show
// something else for a moment. Of a piece half must have come back: in front of a
// figure that moves nothing does.
func (p *passes) look(t int) Region {
	now := p.tones[t]
	before, after := p.seen(t-p.span, t).lit(now), p.seen(t+p.span, t).lit(now)
	least := p.least(before, after)
	hidden := newRegion(p.grid)
	other, back := make([]bool, len(hidden.Cells)), make([]bool, len(hidden.Cells))
	for i := range other {
		// At the rim a camera that moves saw some cells only before or after.
		was, is := before, after
		if !was.known(i) {
			was = after
		} else if !is.known(i) {
			is = before
		}
		other[i] = min(now.unlike(was, i), now.unlike(is, i)) > least
		back[i] = hides(was, now, is, i, least)
	}
	seen := make([]bool, len(other))
	for i, v := range other {
		if !v || seen[i] {
			continue
		}
		piece := gather(p.grid, i, seen, func(j int) bool { return other[j] })
		n, rim := 0, false
		for _, j := range piece {
			rim = rim || hidden.onRim(j)
			if back[j] {
				n++
			}
		}
		if !rim || 2*n < len(piece) {
			continue
		}
		for _, j := range piece {
			hidden.Cells[j] = true
		}
	}
	return hidden
}

// seen is frame k as the camera of frame t sees it.
func (p *passes) seen(k, t int) tones {
	if p.path[k] == p.path[t] {
		return p.tones[k]
	}
	m := middle(p.view.W, p.view.H)
	p.view.warp(p.layers[k], p.path[k].Inverse().Then(p.path[t]), m, m, 0)
	return tones(nil).set(p.view, p.grid)
}

// least is the difference, in levels, from which a cell shows something else.
func (p *passes) least(before, after tones) float32 {
	p.noise = p.noise[:0]
	for i := range p.grid.Cols * p.grid.Rows {
		if d := before.unlike(after, i); d >= 0 {
			p.noise = append(p.noise, d)
		}
	}
	if len(p.noise) == 0 {
		return passLeast
	}
	return max(passLeast, passNoise*rank.Median(p.noise))
}

// onRim reports whether cell i lies at a side of the picture.
func (r Region) onRim(i int) bool {
	col, row := i%r.Cols, i/r.Cols
	return col == 0 || row == 0 || col == r.Cols-1 || row == r.Rows-1
}

// share is the part of all cells that r holds.
func (r Region) share() float64 { return float64(r.Size()) / float64(max(1, len(r.Cells))) }

// middle is the mean place of r's cells, in widths and heights of the picture.
func (r Region) middle() (x, y float64) {
	for i, in := range r.Cells {
		if in {
			x, y = x+float64(i%r.Cols)+0.5, y+float64(i/r.Cols)+0.5
		}
	}
	n := float64(r.Size())
	return x / (n * float64(r.Cols)), y / (n * float64(r.Rows))
}

// hiddenSteps tells of which steps too little is seen because something passes;
// regions are the cells of the figures, by frame.
func hiddenSteps(hidden, regions []Region) []bool {
	steps := make([]bool, len(regions))
	for t := 1; t < len(steps); t++ {
		before, after := hidden[t-1], hidden[t]
		if before.Size()+after.Size() == 0 {
			continue
		}
		n, lost := 0, 0
		for i, in := range regions[t-1].Cells {
			if !in {
				continue
			}
			n++
			if before.has(i) || after.has(i) {
				lost++
			}
		}
		steps[t] = float64(lost) >= hiddenShare*float64(n)
	}
	return steps
}

// has reports whether cell i is one of r's.
func (r Region) has(i int) bool { return i < len(r.Cells) && r.Cells[i] }
