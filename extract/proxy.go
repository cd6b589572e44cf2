package extract

import (
	"bytes"
	"context"
	"errors"
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
	Sound         bool
	Thumbs        map[int][]byte // JPEG pictures of the frames that were asked for
}

// WriteProxy writes to path an H.264 video for looking at a clip frame by frame,
// with its sound,
// and takes thumbnails of the frames, counted from the first one read, that thumb
// names. seen is told of every frame; it may be nil.
func WriteProxy(ctx context.Context, clip, path string, o Options, thumb func(frame int) bool, seen func(frame int)) (*Proxy, error) {
	o.WorkArea = proxyArea
	write := func(sound bool) (p *Proxy, err error) {
		err = Read(ctx, clip, o, func(r *Reader) (err error) {
			p, err = r.writeProxy(path, sound && r.clip.Sound, thumb, seen)
			return err
		})
		return p, err
	}
	p, err := write(true)
	var failed *OutputError
	if errors.As(err, &failed) && !failed.Exists {
		// It may be the sound: of a kind that is not known, or none at all.
		return write(false)
	}
	return p, err
}

func (r *Reader) writeProxy(path string, sound bool, thumb func(int) bool, seen func(int)) (*Proxy, error) {
	size := r.clip.Work
	p := &Proxy{Width: size.X, Height: size.Y, Sound: sound, Thumbs: map[int][]byte{}}
	o := VideoOptions{Width: size.X, Height: size.Y, Rate: r.clip.Rate, CRF: proxyQuality, Preset: "veryfast", Seek: true, Matrix: r.clip.Matrix}
	if sound {
		o.SoundOf, o.SoundFrom = r.clip.Path, float64(r.o.From)/r.clip.Rate.Float()
		if r.last < noLimit {
			o.SoundFor = float64(r.last-r.o.From+1) / r.clip.Rate.Float()
		}
	}
	err := WriteVideo(r.ctx, path, o, func(frame *image.YCbCr) error {
		if err := r.Next(frame); err != nil {
			return err
		}
		if thumb(p.Frames) {
			picture, err := thumbnail(frame, r.clip.Matrix)
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

// Thumbnail returns a small JPEG picture of frame o.From of a clip.
func Thumbnail(ctx context.Context, clip string, o Options) (picture []byte, err error) {
	o.WorkArea, o.Count, o.To = proxyArea, 1, 0
	err = Read(ctx, clip, o, func(r *Reader) error {
		frame := newPicture(r.clip.Work, false).img
		if err := r.Next(frame); err != nil {
			return err
		}
		picture, err = thumbnail(frame, r.clip.Matrix)
		return err
	})
	return picture, err
}

// thumbnail returns a small JPEG picture of a frame.
func thumbnail(frame *image.YCbCr, m Matrix) ([]byte, error) {
	size := workSize(frame.Rect.Dx(), frame.Rect.Dy(), thumbArea)
	small := image.NewRGBA(image.Rectangle{Max: size})
	draw.ApproxBiLinear.Scale(small, small.Rect, m.RGBA(frame), frame.Rect, draw.Src, nil)
	var b bytes.Buffer
	err := jpeg.Encode(&b, small, &jpeg.Options{Quality: thumbQuality})
	return b.Bytes(), err
}
