package draw

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/math/fixed"
)

// A pen draws on a frame of video: 4:2:0, limited range (ITU-R BT.601). What it
// draws beyond the frame is lost.
type pen struct {
	*image.YCbCr
	faces *faces
}

// A tint is a colour in a frame of video.
type tint struct{ y, cb, cr float64 }

func tintOf(c color.RGBA) tint {
	r, g, b := float64(c.R), float64(c.G), float64(c.B)
	y := 0.299*r + 0.587*g + 0.114*b
	return tint{16 + y*219/255, 128 + (b-y)*0.564*224/255, 128 + (r-y)*0.713*224/255}
}

// fill lays a share of a colour over a rectangle.
func (p pen) fill(r image.Rectangle, c color.RGBA, share float64) {
	p.cover(r, tintOf(c), func(int, int) float64 { return share })
}

// cover lays a colour over a rectangle, each pixel by its share.
func (p pen) cover(r image.Rectangle, t tint, share func(x, y int) float64) {
	r = r.Intersect(p.Rect)
	for y := r.Min.Y; y < r.Max.Y; y++ {
		row := p.Y[p.YOffset(r.Min.X, y):]
		for x := r.Min.X; x < r.Max.X; x++ {
			if s := share(x, y); s > 0 {
				row[x-r.Min.X] = blend(row[x-r.Min.X], t.y, s)
			}
		}
	}
	p.coverChroma(r, t, share)
}

// coverChroma does the same for colour, which has one value for four pixels: by
// the mean of their shares.
func (p pen) coverChroma(r image.Rectangle, t tint, share func(x, y int) float64) {
	for y := r.Min.Y &^ 1; y < r.Max.Y; y += 2 {
		for x := r.Min.X &^ 1; x < r.Max.X; x += 2 {
			sum := 0.0
			for i := range 4 {
				if at := image.Pt(x+i%2, y+i/2); at.In(r) {
					sum += share(at.X, at.Y)
				}
			}
			if sum > 0 {
				i := p.COffset(x, y)
				p.Cb[i], p.Cr[i] = blend(p.Cb[i], t.cb, sum/4), blend(p.Cr[i], t.cr, sum/4)
			}
		}
	}
}

func blend(under uint8, over, share float64) uint8 {
	return uint8(float64(under) + share*(over-float64(under)) + 0.5)
}

// stroke draws a straight line of a thickness with soft edges.
func (p pen) stroke(x0, y0, x1, y1, thick float64, c color.RGBA) {
	pad := thick/2 + 1
	r := image.Rect(int(math.Min(x0, x1)-pad), int(math.Min(y0, y1)-pad), int(math.Max(x0, x1)+pad)+1, int(math.Max(y0, y1)+pad)+1)
	dx, dy := x1-x0, y1-y0
	length := dx*dx + dy*dy
	p.cover(r, tintOf(c), func(x, y int) float64 {
		px, py := float64(x)-x0, float64(y)-y0
		u := 0.0
		if length > 0 {
			u = math.Min(1, math.Max(0, (px*dx+py*dy)/length))
		}
		off := math.Hypot(px-u*dx, py-u*dy)
		return math.Min(1, math.Max(0, thick/2+0.5-off))
	})
}

// write puts words with their left end at x and their line's middle at y.
func (p pen) write(s style, words string, x, y int, c color.RGBA) {
	dot := fixed.P(x, y+int(s.size*0.35+0.5))
	t := tintOf(c)
	for _, r := range words {
		dr, mask, at, advance, ok := p.faces.glyph(s, dot, r)
		if !ok {
			continue
		}
		p.cover(dr, t, func(x, y int) float64 {
			_, _, _, a := mask.At(at.X+x-dr.Min.X, at.Y+y-dr.Min.Y).RGBA()
			return float64(a) / 0xffff
		})
		dot.X += advance
	}
}

// width is how wide words are, pixels.
func (p pen) width(s style, words string) int { return p.faces.width(s, words) }
