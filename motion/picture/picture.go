// Package picture holds one frame in the form that the measuring rooms read:
// its luma, the same luma lightly smoothed, and its chroma at half size.
package picture

import (
	"fmt"
	"image"

	"gocv.io/x/gocv"
)

// SmoothSigma is the standard deviation, in working pixels, of the blur under
// which gradients are taken. One pixel keeps edges where they are and makes
// bilinear interpolation nearly exact between pixels, which displacement to a
// hundredth of a pixel rests on.
const SmoothSigma = 1.0

// A Picture is one frame at working size. Its memory lies outside Go's heap:
// Close frees it.
type Picture struct {
	W, H   int
	Y      []uint8 // luma, W*H, row by row
	Smooth []uint8 // luma blurred by SmoothSigma, W*H
	Cb, Cr []uint8 // chroma, CW()*CH()

	y, smooth, cb, cr gocv.Mat
	scratch           []int
}

// New returns a black picture of w by h pixels.
func New(w, h int) (*Picture, error) {
	if w < 1 || h < 1 {
		return nil, fmt.Errorf("picture of %d by %d pixels", w, h)
	}
	cw, ch := (w+1)/2, (h+1)/2
	p := &Picture{
		W: w, H: h,
		y: gocv.NewMatWithSize(h, w, gocv.MatTypeCV8U), smooth: gocv.NewMatWithSize(h, w, gocv.MatTypeCV8U),
		cb: gocv.NewMatWithSize(ch, cw, gocv.MatTypeCV8U), cr: gocv.NewMatWithSize(ch, cw, gocv.MatTypeCV8U),
	}
	views := []struct {
		dst *[]uint8
		src *gocv.Mat
	}{{&p.Y, &p.y}, {&p.Smooth, &p.smooth}, {&p.Cb, &p.cb}, {&p.Cr, &p.cr}}
	for _, v := range views {
		b, err := v.src.DataPtrUint8()
		if err != nil {
			p.Close()
			return nil, fmt.Errorf("picture of %d by %d pixels: %w", w, h, err)
		}
		*v.dst = b
	}
	return p, nil
}

// CW and CH are the width and height of the chroma planes.
func (p *Picture) CW() int { return (p.W + 1) / 2 }

// CH is the height of the chroma planes.
func (p *Picture) CH() int { return (p.H + 1) / 2 }

// Close frees the picture's memory; the picture must not be used after it.
func (p *Picture) Close() {
	for _, m := range []*gocv.Mat{&p.y, &p.smooth, &p.cb, &p.cr} {
		m.Close()
	}
	p.Y, p.Smooth, p.Cb, p.Cr = nil, nil, nil, nil
}

// Set copies a 4:2:0 frame of the picture's size in and smooths its luma.
func (p *Picture) Set(f *image.YCbCr) error {
	if f.SubsampleRatio != image.YCbCrSubsampleRatio420 || f.Rect.Dx() != p.W || f.Rect.Dy() != p.H {
		return fmt.Errorf("frame of %v %v where 4:2:0 of %d by %d is wanted", f.Rect.Size(), f.SubsampleRatio, p.W, p.H)
	}
	copyRows(p.Y, p.W, f.Y, f.YStride, p.H)
	copyRows(p.Cb, p.CW(), f.Cb, f.CStride, p.CH())
	copyRows(p.Cr, p.CW(), f.Cr, f.CStride, p.CH())
	gocv.GaussianBlur(p.y, &p.smooth, image.Point{}, SmoothSigma, SmoothSigma, gocv.BorderReplicate)
	return nil
}

// Gray returns the luma as an image that shares the picture's memory.
func (p *Picture) Gray() *image.Gray {
	return &image.Gray{Pix: p.Y, Stride: p.W, Rect: image.Rect(0, 0, p.W, p.H)}
}

func copyRows(dst []uint8, w int, src []uint8, stride, h int) {
	for y := range h {
		copy(dst[y*w:(y+1)*w], src[y*stride:y*stride+w])
	}
}
