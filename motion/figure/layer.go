// Package figure tells the figures of a shot from their background: a plate of
// the still world, silhouettes of what differs from it, and figures followed
// over time.
package figure

import (
	"fmt"

	"gocv.io/x/gocv"

	"holdfast/motion/picture"
)

// Shrink is the factor by which silhouettes are smaller than the working
// picture: half its size, the resolution of its chroma.
const Shrink = 2

// channels of a layer's pixel: luma, both chromas, and whether it was seen.
const (
	channelY = iota
	channelCb
	channelCr
	channelSeen
	channels
)

// A Layer is a frame at half the working size, four bytes a pixel: luma, blue
// and red chroma, and 255 where the picture has a value at all, which stops
// being everywhere once the layer is moved. Close frees it.
type Layer struct {
	W, H int
	Pix  []uint8
	Luma []uint8 // of the frame at its working size; nil where l shows no frame
	mat  gocv.Mat
	full gocv.Mat // holds Luma, outside Go's heap like mat
}

// NewLayer returns an empty layer of w by h pixels.
func NewLayer(w, h int) (*Layer, error) {
	if w < 1 || h < 1 {
		return nil, fmt.Errorf("layer of %d by %d pixels", w, h)
	}
	l := &Layer{W: w, H: h, mat: gocv.NewMatWithSize(h, w, gocv.MatTypeCV8UC4)}
	pix, err := l.mat.DataPtrUint8()
	if err != nil {
		l.mat.Close()
		return nil, fmt.Errorf("layer of %d by %d pixels: %w", w, h, err)
	}
	l.Pix = pix
	return l, nil
}

// Close frees the layer's memory.
func (l *Layer) Close() {
	l.mat.Close()
	if l.Luma != nil {
		l.full.Close()
	}
	l.Pix, l.Luma = nil, nil
}

// Set fills l, half the size of p, from p.
func (l *Layer) Set(p *picture.Picture) error {
	if l.Luma == nil {
		l.full = gocv.NewMatWithSize(p.H, p.W, gocv.MatTypeCV8U)
		luma, err := l.full.DataPtrUint8()
		if err != nil {
			l.full.Close()
			return fmt.Errorf("luma of %d by %d pixels: %w", p.W, p.H, err)
		}
		l.Luma = luma
	}
	copy(l.Luma, p.Y)
	for y := range l.H {
		up, down := p.Y[min(2*y, p.H-1)*p.W:], p.Y[min(2*y+1, p.H-1)*p.W:]
		row := l.Pix[y*l.W*channels:]
		for x := range l.W {
			a, b := min(2*x, p.W-1), min(2*x+1, p.W-1)
			d := row[x*channels : x*channels+channels : x*channels+channels]
			d[channelY] = uint8((int(up[a]) + int(up[b]) + int(down[a]) + int(down[b]) + 2) / 4)
			c := y*p.CW() + x
			d[channelCb], d[channelCr], d[channelSeen] = p.Cb[c], p.Cr[c], 255
		}
	}
	return nil
}

// Chroma returns the blue and red chroma of a pixel of the layer.
func (l *Layer) Chroma(x, y int) (cb, cr uint8) {
	p := l.Pix[(y*l.W+x)*channels:]
	return p[channelCb], p[channelCr]
}
