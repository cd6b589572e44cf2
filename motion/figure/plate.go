package figure

import (
	"fmt"
	"math"
	"slices"

	"holdfast/motion/camera"
)

const (
	// plateSamples is how many frames of a stretch the plate is the median of:
	// odd, and enough for a figure to have left each spot for most of them.
	plateSamples = 31
	// plateLeast is in how many samples a spot must be seen to be known.
	plateLeast = 3
)

// A Plate is the background of a stretch of frames without the figures, in the
// camera's fixed frame of reference.
type Plate struct {
	world  *world
	canvas *Layer
	view   *Layer // the canvas as one frame sees it
}

// NewPlate makes the temporal median of the layers, which must be of one size
// and in order. path leads from the first of them to each, in working pixels, and
// must fit (see Fits).
func NewPlate(layers []*Layer, path []camera.Similarity) (*Plate, error) {
	if len(layers) == 0 || len(layers) != len(path) {
		return nil, fmt.Errorf("plate of %d layers and %d camera positions", len(layers), len(path))
	}
	w, h := layers[0].W, layers[0].H
	p := &Plate{world: newWorld(w, h, path)}
	samples, err := p.lay(layers)
	defer func() {
		for _, s := range samples {
			s.Close()
		}
	}()
	if err != nil {
		return nil, err
	}
	if p.canvas, err = NewLayer(p.world.size.X, p.world.size.Y); err != nil {
		return nil, err
	}
	if p.view, err = NewLayer(w, h); err != nil {
		p.canvas.Close()
		return nil, err
	}
	median(p.canvas, samples)
	return p, nil
}

// Close frees the plate's memory.
func (p *Plate) Close() {
	p.canvas.Close()
	p.view.Close()
}

// pick returns the indexes of at most n evenly spaced of count frames.
func pick(count, n int) []int {
	n = min(n, count)
	out := make([]int, n)
	for i := range out {
		out[i] = (2*i + 1) * count / (2 * n)
	}
	return out
}

// lay puts the sampled layers onto canvases of their own.
func (p *Plate) lay(layers []*Layer) ([]*Layer, error) {
	var samples []*Layer
	for _, t := range pick(len(layers), plateSamples) {
		s, err := NewLayer(p.world.size.X, p.world.size.Y)
		if err != nil {
			return samples, err
		}
		p.world.toCanvas(s, layers[t], t)
		samples = append(samples, s)
	}
	return samples, nil
}

// median sets each pixel of dst to the median of those samples that see it.
func median(dst *Layer, samples []*Layer) {
	least := min(plateLeast, len(samples))
	var values [3][plateSamples]uint8
	for i := 0; i < len(dst.Pix); i += channels {
		n := 0
		for _, s := range samples {
			// Only pixels seen whole: at the rim interpolation mixes in black.
			if s.Pix[i+channelSeen] == 255 {
				values[0][n], values[1][n], values[2][n] = s.Pix[i], s.Pix[i+1], s.Pix[i+2]
				n++
			}
		}
		if n < least {
			dst.Pix[i+channelSeen] = 0
			continue
		}
		for c := range values {
			v := values[c][:n]
			slices.Sort(v)
			dst.Pix[i+c] = v[n/2]
		}
		dst.Pix[i+channelSeen] = 255
	}
}

// relight brightens l; where brightness changes contrast, colour goes with it.
func (l *Layer) relight(gain, bias float64) {
	if gain == 1 && bias == 0 {
		return
	}
	var luma, chroma [256]uint8
	for v := range luma {
		luma[v] = clamp(gain*float64(v) + bias)
		chroma[v] = clamp(128 + gain*(float64(v)-128))
	}
	for i := 0; i < len(l.Pix); i += channels {
		l.Pix[i+channelY] = luma[l.Pix[i+channelY]]
		l.Pix[i+channelCb], l.Pix[i+channelCr] = chroma[l.Pix[i+channelCb]], chroma[l.Pix[i+channelCr]]
	}
}

func clamp(v float64) uint8 { return uint8(math.Round(min(255, max(0, v)))) }

// light fits the brightness of a frame to the plate's, so that flicker is no
// figure: luma = gain*plate + bias, by least squares, after the first time
// without what is far off.
func light(frame, plate *Layer) (gain, bias float64) {
	gain, bias = 1, 0
	limit := math.Inf(1)
	for range lightRounds {
		var n, sx, sy, sxx, sxy float64
		for i := 0; i < len(frame.Pix); i += lightStride * channels {
			if plate.Pix[i+channelSeen] != 255 {
				continue
			}
			x, y := float64(plate.Pix[i]), float64(frame.Pix[i])
			if math.Abs(y-gain*x-bias) > limit {
				continue
			}
			n, sx, sy, sxx, sxy = n+1, sx+x, sy+y, sxx+x*x, sxy+x*y
		}
		d := n*sxx - sx*sx
		if n < lightLeast || d <= n { // too little left, or all of one brightness
			return 1, 0
		}
		gain = (n*sxy - sx*sy) / d
		bias = (sy - gain*sx) / n
		limit = lightLimit
	}
	if gain < 1-lightGain || gain > 1+lightGain {
		return 1, 0
	}
	return gain, bias
}

const (
	lightRounds = 3
	lightLimit  = 12.0 // levels: what differs more is figure, not flicker
	lightStride = 8    // pixels between those looked at: some thousands tell light well
	lightLeast  = 16   // pixels that must be left to fit it to
	lightGain   = 0.4  // a larger change of brightness is no flicker but another picture
)
