package figure

import (
	"math"
)

// A cast shadow darkens the ground by one ratio in all colours and leaves its
// texture. What differs from the plate like that is no figure: R. Cucchiara, C.
// Grana, M. Piccardi, A. Prati, "Detecting Moving Objects, Ghosts, and Shadows
// in Video Streams", 2003, for the ratio; the texture is our own addition, for
// clothes that are darker than the ground.

const (
	// shadowDark and shadowPale are the least and the largest ratio of a
	// shadow's luma to the bare ground's.
	shadowDark, shadowPale = 0.4, 0.985
	// shadowHue is how far, in levels beside the noise, the chroma of a shadow
	// may lie from the ground's chroma times the ratio.
	shadowHue = 4.0
	// shadowSide is the side, in layer pixels, of the square whose texture is
	// compared: smaller than a foot.
	shadowSide = 3
	// shadowGrain is how far, as a share of the ground's luma, the ratio may
	// vary over the square ...
	shadowGrain = 0.075
	// shadowNoise is what noise adds to that, in standard deviations.
	shadowNoise = 2.0
)

// dropShadow clears in m what is shadow of the plate's view in the frame; noise
// is the standard deviation of a pixel, levels.
func (p *Plate) dropShadow(m *Mask, frame *Layer, noise float64) {
	gain, bias := light(frame, p.view)
	w := frame.W
	const reach = shadowSide / 2
	for y := range frame.H {
		for x := range w {
			i := y*w + x
			if m.Pix[i] == 0 || x < reach || y < reach || x >= w-reach || y >= frame.H-reach {
				continue
			}
			if p.shaded(frame, i, gain, bias, noise) {
				m.Pix[i] = shadowMark
			}
		}
	}
	for i, v := range m.Pix {
		if v == shadowMark {
			m.Pix[i] = 0
		}
	}
}

// shadowMark is what a shadow's pixels hold until all are told.
const shadowMark = 1

func (p *Plate) shaded(frame *Layer, i int, gain, bias, noise float64) bool {
	const reach = shadowSide / 2
	w := frame.W
	v := p.view.Pix
	// One ratio for the square, by least squares through the origin.
	var xx, xy float64
	for dy := -reach; dy <= reach; dy++ {
		for dx := -reach; dx <= reach; dx++ {
			k := (i + dy*w + dx) * channels
			x, y := gain*float64(v[k])+bias, float64(frame.Pix[k])
			xx, xy = xx+x*x, xy+x*y
		}
	}
	if xx == 0 {
		return false
	}
	ratio := xy / xx
	if ratio < shadowDark || ratio > shadowPale {
		return false
	}
	c := i * channels
	hue := shadowHue + shadowNoise*noise
	for _, ch := range [2]int{channelCb, channelCr} {
		want := 128 + ratio*(float64(v[c+ch])-128)
		if math.Abs(float64(frame.Pix[c+ch])-want) > hue {
			return false
		}
	}
	sum := 0.0
	for dy := -reach; dy <= reach; dy++ {
		for dx := -reach; dx <= reach; dx++ {
			k := (i + dy*w + dx) * channels
			d := float64(frame.Pix[k]) - ratio*(gain*float64(v[k])+bias)
			sum += d * d
		}
	}
	off := math.Sqrt(sum / (shadowSide * shadowSide))
	return off <= shadowGrain*(gain*float64(v[c])+bias)+shadowNoise*noise
}
