package extract

import (
	"image"
	"slices"
	"strings"
)

// Where a picture lets through what is behind it, mid grey is behind: on black the
// black lines of a drawing on a clear cel would be gone, on white the white ones.
const (
	greyLuma   = 126 // half-way between black, 16, and white, 235
	greyChroma = 128
	opaque     = 255
)

// seeThrough tells whether the pictures of a stream may let something through. GIFs are
// left alone: ffmpeg hands them out on white, as drawn on paper.
func seeThrough(v probedStream) bool {
	if v.Codec == "gif" {
		return false
	}
	if v.PixelFormat == "pal8" { // the palette has alpha
		return true
	}
	return slices.ContainsFunc([]string{"yuva", "rgba", "bgra", "argb", "abgr", "gbrap", "ya8", "ya16"},
		func(prefix string) bool { return strings.HasPrefix(v.PixelFormat, prefix) })
}

// clearByNature tells of codecs whose pictures have alpha as a matter of course,
// clear or not.
func clearByNature(codec string) bool { return slices.Contains([]string{"png", "apng", "webp"}, codec) }

// overGrey lays a picture over mid grey. alpha is as wide and high as the picture,
// without gaps between its rows. It tells whether anything was let through.
func overGrey(f *image.YCbCr, alpha []byte) bool {
	if !slices.ContainsFunc(alpha, func(a byte) bool { return a != opaque }) {
		return false
	}
	w, h := f.Rect.Dx(), f.Rect.Dy()
	for y := range h {
		row := f.Y[y*f.YStride:]
		for x, a := range alpha[y*w : (y+1)*w] {
			row[x] = mixed(row[x], greyLuma, int(a), opaque)
		}
	}
	for y := range (h + 1) / 2 {
		cb, cr := f.Cb[y*f.CStride:], f.Cr[y*f.CStride:]
		for x := range (w + 1) / 2 {
			a := 0
			for _, dy := range []int{0, 1} {
				for _, dx := range []int{0, 1} {
					a += int(alpha[min(2*y+dy, h-1)*w+min(2*x+dx, w-1)])
				}
			}
			cb[x], cr[x] = mixed(cb[x], greyChroma, a, 4*opaque), mixed(cr[x], greyChroma, a, 4*opaque)
		}
	}
	return true
}

// mixed is v with a share of part/whole, the rest of it below.
func mixed(v, below byte, part, whole int) byte {
	return byte((int(v)*part + int(below)*(whole-part) + whole/2) / whole)
}
