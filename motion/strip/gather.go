package strip

import (
	"math"

	"holdfast/motion/camera"
	"holdfast/motion/figure"
)

const (
	// upShare and downShare are how far the band reaches over and under the ground's
	// level, in figure heights: a shoe's thickness, and what the level is unsure by.
	upShare, downShare = 0.045, 0.015
	// fullShare is how much of the upper part of the band a foot that stands fills
	// at least: its toes are thinner than its ankle.
	fullShare = 0.55
	// aroundSeconds is for how long before and after anything stands the strip goes
	// on.
	aroundSeconds = 1.0
)

// Settings are the thresholds in force.
func Settings() map[string]any {
	return map[string]any{
		"strip_up_share": upShare, "strip_down_share": downShare, "strip_full_share": fullShare,
		"strip_around_seconds": aroundSeconds, "strip_cells_most": Budget,
	}
}

// Frames are consecutive frames of a shot with what was found in them.
type Frames struct {
	First  int // of the clip
	Rate   float64
	Path   []camera.Similarity // from the shot's first frame to each
	Layers []*figure.Layer
	Bodies []figure.Silhouette
}

// New returns an empty strip of a shot that starts at a frame.
func New(w, h, start int) *Strip { return &Strip{W: w, H: h, Every: 1, Start: start} }

// Add adds the rows of frames that follow on those it has. spots are all that
// stood in them.
func (s *Strip) Add(f *Frames, spots []Spot) {
	for _, p := range f.Path {
		s.Path = append(s.Path, p.Inverse().Then(camera.Similarity{A: 1, TX: s.shift}))
	}
	if len(spots) == 0 {
		return
	}
	list := s.levels(spots)
	s.steady(list, f.First, f.First+len(f.Path)-1)
	list = s.levels(spots)
	for _, l := range list {
		s.Height = max(s.Height, l.height)
	}
	around := int(math.Round(aroundSeconds * f.Rate))
	for t := range f.Layers {
		frame := f.First + t
		if frame%s.Every == 0 && standsWithin(list, frame, around) {
			s.Rows = append(s.Rows, s.row(f, t, list))
		}
	}
	Fit([]*Strip{s}, Budget/2)
}

func standsWithin(list []level, frame, around int) bool {
	for i := range list {
		if list[i].gap(frame) <= around {
			return true
		}
	}
	return false
}

// row takes the band of frame t of f.
func (s *Strip) row(f *Frames, t int, list []level) Row {
	frame := f.First + t
	p := s.Path[frame-s.Start]
	v := view{layer: f.Layers[t], body: &f.Bodies[t], w: s.W, h: s.H, back: p.Inverse()}
	left, right := s.sides(p)
	r := Row{Frame: frame, X0: left, Cells: make([]Cell, right-left+1)}
	for i := range r.Cells {
		x := float64(left + i)
		l := nearest(list, frame, x)
		_, y := l.at(frame)
		r.Cells[i] = v.cell(x, y, l.height)
	}
	return r
}

// sides are the first and last column that a frame of the given place shows, no
// more than its width at twice its scale.
func (s *Strip) sides(p camera.Similarity) (left, right int) {
	half := float64(s.W-1) / 2
	mid := p.TX + half
	reach := half * min(2, p.Scale())
	return int(math.Ceil(mid - reach)), int(math.Floor(mid + reach))
}

// A view is one frame seen from the shot's frame of reference.
type view struct {
	layer *figure.Layer
	body  *figure.Silhouette
	w, h  int
	back  camera.Similarity // from the reference to the frame
}

// sum adds up pixels of one kind.
type sum struct{ n, y, cb, cr int }

func (a *sum) cell() Cell {
	if a.n == 0 {
		return Cell{Y: 128, Cb: 128, Cr: 128}
	}
	return Cell{Y: uint8(a.y / a.n), Cb: uint8(a.cb / a.n), Cr: uint8(a.cr / a.n)}
}

// cell takes the band at a column of the reference, around the given level.
func (v *view) cell(x, level, height float64) Cell {
	var bare, body sum
	up, down := max(2, upShare*height), max(1, downShare*height)
	thick := 0
	for y := level - up; y <= level+down; y++ {
		figure, ok := v.look(x, y, &bare, &body)
		if ok && figure && y <= level {
			thick++
		}
	}
	if body.n == 0 || thick == 0 {
		return bare.cell()
	}
	c := body.cell()
	c.Cover = uint8(255 * min(1, float64(thick)/(fullShare*up)))
	return c
}

// look adds the pixel at a place of the reference to what it is part of; ok is
// false outside the picture.
func (v *view) look(x, y float64, bare, body *sum) (isFigure, ok bool) {
	mx, my := float64(v.w-1)/2, float64(v.h-1)/2
	fx, fy := v.back.Apply(x-mx, y-my)
	px, py := int(math.Round(fx+mx)), int(math.Round(fy+my))
	if px < 0 || py < 0 || px >= v.w || py >= v.h {
		return false, false
	}
	lx, ly := min(px/figure.Shrink, v.layer.W-1), min(py/figure.Shrink, v.layer.H-1)
	isFigure = v.body.At(lx, ly)
	to := bare
	if isFigure {
		to = body
	}
	cb, cr := v.layer.Chroma(lx, ly)
	to.n, to.y, to.cb, to.cr = to.n+1, to.y+int(v.layer.Luma[py*v.w+px]), to.cb+int(cb), to.cr+int(cr)
	return isFigure, true
}
