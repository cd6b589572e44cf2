package extract

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/jpeg"

	"golang.org/x/image/draw"
)

const (
	// proxyArea bounds the pictures of a proxy, in pixels: 960 by 540 shows what a
	// foot does, at about a megabit a second.
	proxyArea = 960 * 540
	// proxyQuality is the CRF of a proxy: faults of coding are not yet in the way.
	proxyQuality = 23

	thumbArea    = 160 * 90 // pixels of a thumbnail
	thumbQuality = 72       // of JPEG, 1 to 100
)

// A Proxy is a small video of a clip: frame n of it is frame n of a reading with
// the same options.
type Proxy struct {
	Width, Height int
	Frames        int
	Thumbs        map[int][]byte // JPEG pictures of the frames that were asked for
}

// WriteProxy writes to path an H.264 video for looking at a clip frame by frame,
// and takes thumbnails of the frames, counted from the first one read, that thumb
// names. seen is told of every frame; it may be nil.
func WriteProxy(ctx context.Context, clip, path string, o Options, thumb func(frame int) bool, seen func(frame int)) (*Proxy, error) {
	o.WorkArea = proxyArea
	var p *Proxy
	err := Read(ctx, clip, o, func(r *Reader) (err error) {
		p, err = r.writeProxy(path, thumb, seen)
		return err
	})
	return p, err
}

func (r *Reader) writeProxy(path string, thumb func(int) bool, seen func(int)) (*Proxy, error) {
	size := r.clip.Work
	p := &Proxy{Width: size.X, Height: size.Y, Thumbs: map[int][]byte{}}
	err := WriteVideo(r.ctx, path, VideoOptions{
		Width: size.X, Height: size.Y, Rate: r.clip.Rate, CRF: proxyQuality, Preset: "veryfast", Seek: true,
	}, func(frame *image.YCbCr) error {
		if err := r.Next(frame); err != nil {
			return err
		}
		if thumb(p.Frames) {
			picture, err := thumbnail(frame)
			if err != nil {
				return fmt.Errorf("thumbnail of frame %d: %w", p.Frames, err)
			}
			p.Thumbs[p.Frames] = picture
		}
		if seen != nil {
			seen(p.Frames)
		}
		p.Frames++
		return nil
	})
	if err != nil {
		return nil, err
	}
	return p, nil
}

// thumbnail returns a small JPEG picture of a frame of limited range.
func thumbnail(frame *image.YCbCr) ([]byte, error) {
	size := workSize(frame.Rect.Dx(), frame.Rect.Dy(), thumbArea)
	small := image.NewRGBA(image.Rectangle{Max: size})
	draw.ApproxBiLinear.Scale(small, small.Rect, fullRange(frame), frame.Rect, draw.Src, nil)
	var b bytes.Buffer
	err := jpeg.Encode(&b, small, &jpeg.Options{Quality: thumbQuality})
	return b.Bytes(), err
}

// fullRange returns a copy of a frame with black at 0 and white at 255, as JPEG
// has them, where video has 16 and 235 (ITU-R BT.601, BT.709).
func fullRange(frame *image.YCbCr) *image.YCbCr {
	out := image.NewYCbCr(frame.Rect, frame.SubsampleRatio)
	copyFrame(out, frame)
	stretch(out.Y, 16, 219, 0)
	stretch(out.Cb, 128, 224, 128)
	stretch(out.Cr, 128, 224, 128)
	return out
}

// stretch maps zero to middle and spreads steps over 255.
func stretch(plane []byte, zero, steps, middle int) {
	var table [256]byte
	for v := range table {
		table[v] = byte(min(max(middle+((v-zero)*255+steps/2)/steps, 0), 255))
	}
	for i, v := range plane {
		plane[i] = table[v]
	}
}
