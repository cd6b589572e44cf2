package extract

import (
	"image"
	"strings"
)

// A Matrix says how the brightness and colour of a video picture make red, green
// and blue: the shares of red and blue in its brightness.
type Matrix struct{ Red, Blue float64 }

// The two matrices in use.
var (
	BT601 = Matrix{0.299, 0.114}   // ITU-R BT.601: standard definition, and pictures made of RGB
	BT709 = Matrix{0.2126, 0.0722} // ITU-R BT.709: high definition
)

// hdHeight is the height from which a file that says nothing is taken for high
// definition: common practice of players, no source.
const hdHeight = 720

// matrixOf is the matrix of a stream: what it says, else what its kind and size
// make likely.
func matrixOf(v probedStream) Matrix {
	rgb := false
	for _, prefix := range []string{"rgb", "bgr", "gbr", "pal8", "argb", "abgr", "0rgb", "0bgr"} {
		rgb = rgb || strings.HasPrefix(v.PixelFormat, prefix)
	}
	switch {
	case rgb: // ffmpeg makes 4:2:0 of it by this one
		return BT601
	case v.ColorSpace == "bt709", strings.HasPrefix(v.ColorSpace, "bt2020"):
		return BT709
	case v.ColorSpace == "smpte170m", v.ColorSpace == "bt470bg", v.ColorSpace == "fcc":
		return BT601
	case v.Height >= hdHeight:
		return BT709
	}
	return BT601
}

// RGBA returns a frame that Next filled, limited range, as red, green and blue.
func (m Matrix) RGBA(f *image.YCbCr) *image.RGBA {
	out := image.NewRGBA(image.Rectangle{Max: f.Rect.Size()})
	green := 1 - m.Red - m.Blue
	for y := range f.Rect.Dy() {
		row := out.Pix[y*out.Stride:]
		for x := range f.Rect.Dx() {
			i := f.COffset(f.Rect.Min.X+x, f.Rect.Min.Y+y)
			luma := (float64(f.Y[f.YOffset(f.Rect.Min.X+x, f.Rect.Min.Y+y)]) - 16) / 219
			cb, cr := (float64(f.Cb[i])-128)/224, (float64(f.Cr[i])-128)/224
			r, b := luma+2*(1-m.Red)*cr, luma+2*(1-m.Blue)*cb
			g := (luma - m.Red*r - m.Blue*b) / green
			row[4*x], row[4*x+1], row[4*x+2], row[4*x+3] = byteOf(r), byteOf(g), byteOf(b), 255
		}
	}
	return out
}

func byteOf(v float64) uint8 { return uint8(min(max(255*v+0.5, 0), 255)) }
