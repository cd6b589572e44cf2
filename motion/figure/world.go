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
	mx, my := float64(w-1)/2, float64(h-1)/2
	x0, y0, x1, y1 := -mx, -my, mx, my
	for _, s := range path {
		s.TX, s.TY = s.TX/Shrink, s.TY/Shrink
		wd.path = append(wd.path, s)
		if s == camera.Identity {
			continue
		}
		wd.still = false
		inv := s.Inverse()
		for _, c := range [4][2]float64{{-1, -1}, {1, -1}, {-1, 1}, {1, 1}} {
			x, y := inv.Apply(c[0]*mx, c[1]*my)
			x0, y0, x1, y1 = math.Min(x0, x), math.Min(y0, y), math.Max(x1, x), math.Max(y1, y)
		}
	}
	// Whole pixels of room, so that the first frame lies on the canvas unblurred.
	left, top := math.Ceil(-mx-x0), math.Ceil(-my-y0)
	wd.origin = [2]float64{mx + left, my + top}
	wd.size = image.Pt(w+int(left)+int(math.Ceil(x1-mx)), h+int(top)+int(math.Ceil(y1-my)))
	return wd
}

// matrix returns the affine matrix that takes canvas pixels to pixels of
// frame t.
func (wd *world) matrix(t int) gocv.Mat {
	s := wd.path[t]
	tx, ty := s.Apply(-wd.origin[0], -wd.origin[1])
	m := gocv.NewMatWithSize(2, 3, gocv.MatTypeCV64F)
	for i, v := range [6]float64{s.A, -s.B, tx + float64(wd.w-1)/2, s.B, s.A, ty + float64(wd.h-1)/2} {
		m.SetDoubleAt(i/3, i%3, v)
	}
	return m
}

// toCanvas lays frame t onto dst, a layer of canvas size.
func (wd *world) toCanvas(dst, src *Layer, t int) {
	if wd.still {
		copy(dst.Pix, src.Pix)
		return
	}
	m := wd.matrix(t)
	defer m.Close()
	gocv.WarpAffineWithParams(src.mat, &dst.mat, m, wd.size,
		gocv.InterpolationLinear|gocv.WarpInverseMap, gocv.BorderConstant, color.RGBA{})
}

// fromCanvas shows the canvas as frame t sees it.
func (wd *world) fromCanvas(dst, src *Layer, t int) {
	if wd.still {
		copy(dst.Pix, src.Pix)
		return
	}
	m := wd.matrix(t)
	defer m.Close()
	gocv.WarpAffineWithParams(src.mat, &dst.mat, m, image.Pt(wd.w, wd.h),
		gocv.InterpolationLinear, gocv.BorderConstant, color.RGBA{})
}
