package figure

import (
	"image"
	"image/color"
	"math"

	"gocv.io/x/gocv"

	"holdfast/motion/camera"
)

// A world is the camera's fixed frame of reference for some frames: the
// coordinates of the first of them, on a canvas wide enough for all.
type world struct {
	w, h   int                 // layer size
	path   []camera.Similarity // from the first frame to each, centred, layer pixels
	origin [2]float64          // canvas position of the first frame's middle
	size   image.Point         // canvas size
	still  bool                // the camera never moved: canvas and layer are one
}

// newWorld lays out the canvas for layers of w by h pixels. path leads from
// the first frame to each in working pixels.
func newWorld(w, h int, path []camera.Similarity) *world {
	wd := &world{w: w, h: h, still: true}
	e := newExtent(w, h)
	for _, s := range path {
		s = shrunk(s)
		wd.path = append(wd.path, s)
		if s != camera.Identity {
			wd.still = false
			e.add(s)
		}
	}
	// Whole pixels of room, so that the first frame lies on the canvas unblurred.
	left, top := math.Ceil(-e.mx-e.x0), math.Ceil(-e.my-e.y0)
	wd.origin = [2]float64{e.mx + left, e.my + top}
	wd.size = image.Pt(w+int(left)+int(math.Ceil(e.x1-e.mx)), h+int(top)+int(math.Ceil(e.y1-e.my)))
	return wd
}

// shrunk returns a motion in working pixels as one in layer pixels.
func shrunk(s camera.Similarity) camera.Similarity {
	s.TX, s.TY = s.TX/Shrink, s.TY/Shrink
	return s
}

// toCanvas lays frame t onto dst, a layer of canvas size.
func (wd *world) toCanvas(dst, src *Layer, t int) { wd.warp(dst, src, t, gocv.WarpInverseMap) }

// fromCanvas shows the canvas as frame t sees it.
func (wd *world) fromCanvas(dst, src *Layer, t int) { wd.warp(dst, src, t, 0) }

func (wd *world) warp(dst, src *Layer, t int, direction gocv.InterpolationFlags) {
	if wd.still {
		copy(dst.Pix, src.Pix)
		return
	}
	dst.warp(src, wd.path[t], wd.origin, middle(wd.w, wd.h), direction)
}

// middle is the middle of a picture in its pixels, whose centres lie at whole
// numbers.
func middle(w, h int) [2]float64 { return [2]float64{float64(w-1) / 2, float64(h-1) / 2} }

// warp shows src on l, bilinear between pixels. s takes places on src, counted
// from the place from, to places on l, counted from the place to; with
// WarpInverseMap it is the other way round.
func (l *Layer) warp(src *Layer, s camera.Similarity, from, to [2]float64, direction gocv.InterpolationFlags) {
	tx, ty := s.Apply(-from[0], -from[1])
	m := gocv.NewMatWithSize(2, 3, gocv.MatTypeCV64F)
	defer m.Close()
	for i, v := range [6]float64{s.A, -s.B, tx + to[0], s.B, s.A, ty + to[1]} {
		m.SetDoubleAt(i/3, i%3, v)
	}
	gocv.WarpAffineWithParams(src.mat, &l.mat, m, image.Pt(l.W, l.H),
		gocv.InterpolationLinear|direction, gocv.BorderConstant, color.RGBA{})
}

// place is where pixel (x, y) of frame t lies on the canvas.
func (wd *world) place(t int, x, y float64) (float64, float64) {
	m := middle(wd.w, wd.h)
	x, y = wd.path[t].Inverse().Apply(x-m[0], y-m[1])
	return x + wd.origin[0], y + wd.origin[1]
}

// seen is where a place on the canvas lies in frame t.
func (wd *world) seen(t int, x, y float64) (float64, float64) {
	m := middle(wd.w, wd.h)
	x, y = wd.path[t].Apply(x-wd.origin[0], y-wd.origin[1])
	return x + m[0], y + m[1]
}

// scale is how large frame t shows what the first frame shows.
func (wd *world) scale(t int) float64 { return math.Hypot(wd.path[t].A, wd.path[t].B) }

// boxOnCanvas is the box on the canvas around a box in frame t.
func (wd *world) boxOnCanvas(b Box, t int) Box {
	return b.around(func(x, y float64) (float64, float64) { return wd.place(t, x, y) })
}

// carry is where frame to sees what stands in a box of frame from.
func (wd *world) carry(b Box, from, to int) Box {
	if wd.still {
		return b
	}
	return b.around(func(x, y float64) (float64, float64) {
		x, y = wd.place(from, x, y)
		return wd.seen(to, x, y)
	})
}

// around is the box around where the corner pixels of b go.
func (b Box) around(to func(x, y float64) (float64, float64)) (c Box) {
	for _, at := range [4][2]int{{b.X0, b.Y0}, {b.X1 - 1, b.Y0}, {b.X0, b.Y1 - 1}, {b.X1 - 1, b.Y1 - 1}} {
		c = c.Union(pixelBox(to(float64(at[0]), float64(at[1]))))
	}
	return c
}

// pixelBox is the box of the pixel nearest to a place.
func pixelBox(x, y float64) Box {
	px, py := int(math.Round(x)), int(math.Round(y))
	return Box{px, py, px + 1, py + 1}
}

// show marks in s, a silhouette of frame t, what a mask on the canvas marks.
func (wd *world) show(s *Silhouette, m *Mask, t int) {
	for y := range s.H {
		for x := range s.W {
			cx, cy := wd.place(t, float64(x), float64(y))
			px, py := int(math.Round(cx)), int(math.Round(cy))
			if px >= 0 && py >= 0 && px < m.W && py < m.H && m.Pix[py*m.W+px] != 0 {
				s.set(y*s.W + x)
			}
		}
	}
}
