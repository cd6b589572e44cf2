package flow

import (
	"fmt"
	"image"
	"math"

	"gocv.io/x/gocv"
)

// Seek looks for a small picture in that area of a larger one in which its upper
// left corner may lie, to a fraction of a pixel. like is the correlation of both,
// means and contrast taken out: 1 where they are the same, 0 for chance. It is 0
// where the area holds no place for it.
func Seek(small, in *image.Gray, area image.Rectangle) (at Point, like float64, err error) {
	size := small.Rect.Size()
	area = area.Intersect(image.Rectangle{Max: in.Rect.Size().Sub(size).Add(image.Pt(1, 1))})
	if area.Empty() || size.X < 2 || size.Y < 2 || plain(small) {
		return Point{}, 0, nil
	}
	a, err := grayMat(small)
	if err != nil {
		return Point{}, 0, err
	}
	defer a.Close()
	ground := image.Rectangle{Min: area.Min, Max: area.Max.Add(size).Sub(image.Pt(1, 1))}
	b, err := grayMat(Crop(in, ground))
	if err != nil {
		return Point{}, 0, err
	}
	defer b.Close()
	likes, mask := gocv.NewMat(), gocv.NewMat()
	defer likes.Close()
	defer mask.Close()
	gocv.MatchTemplate(b, a, &likes, gocv.TmCcoeffNormed, mask)
	v, err := likes.DataPtrFloat32()
	if err != nil {
		return Point{}, 0, fmt.Errorf("look for a part: %w", err)
	}
	return crest(v, area)
}

// plain reports whether a picture is of one colour: it is like everything.
func plain(p *image.Gray) bool {
	for y := range p.Rect.Dy() {
		for _, v := range p.Pix[y*p.Stride : y*p.Stride+p.Rect.Dx()] {
			if v != p.Pix[0] {
				return false
			}
		}
	}
	return true
}

// crest is the highest place of a map of likenesses, by parabolas through its
// neighbours.
func crest(v []float32, area image.Rectangle) (Point, float64, error) {
	w, h := area.Dx(), area.Dy()
	best := 0
	for i, x := range v {
		if x > v[best] {
			best = i
		}
	}
	x, y := best%w, best/w
	top := float64(v[best])
	if math.IsNaN(top) || math.IsInf(top, 0) || top <= 0 {
		return Point{}, 0, nil // no contrast on either side
	}
	p := Point{float64(area.Min.X + x), float64(area.Min.Y + y)}
	if x > 0 && x+1 < w {
		p.X += vertex(float64(v[best-1]), top, float64(v[best+1]))
	}
	if y > 0 && y+1 < h {
		p.Y += vertex(float64(v[best-w]), top, float64(v[best+w]))
	}
	return p, min(1, top), nil
}

// vertex is where a parabola through three values, one apart, has its top, from the
// middle one.
func vertex(before, top, after float64) float64 {
	if d := before - 2*top + after; d < 0 {
		return max(-0.5, min(0.5, (before-after)/(2*d)))
	}
	return 0
}

// Crop copies an area of a picture, as far as it lies inside.
func Crop(p *image.Gray, area image.Rectangle) *image.Gray {
	area = area.Intersect(image.Rectangle{Max: p.Rect.Size()})
	c := image.NewGray(image.Rectangle{Max: area.Size()})
	for y := range area.Dy() {
		o := (area.Min.Y+y)*p.Stride + area.Min.X
		copy(c.Pix[y*c.Stride:], p.Pix[o:o+area.Dx()])
	}
	return c
}
