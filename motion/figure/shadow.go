package figure

import "math"

// A cast shadow darkens the ground by one ratio in all colours, which changes
// slowly from place to place, and leaves the ground's texture. What differs from
// the plate like that is no figure: R. Cucchiara, C. Grana, M. Piccardi, A. Prati,
// "Detecting Moving Objects, Ghosts, and Shadows in Video Streams", 2003, for the
// ratio. That it changes slowly, and fades into bare ground, is our own addition,
// for clothes that are a darker shade of the ground's colour.

const (
	// shadowDark and shadowPale are the least and the largest ratio of a
	// shadow's luma to the bare ground's.
	shadowDark, shadowPale = 0.4, 0.985
	// shadowHue is how far, in levels, the chroma of a shadow may lie from the
	// ground's chroma times the ratio.
	shadowHue = 4.0
	// shadowGrain is how far the ratio may vary over three by three pixels from
	// one that changes evenly ...
	shadowGrain = 0.04
	// shadowSlope is how much it may change from pixel to pixel: contours are
	// steeper.
	shadowSlope = 0.1
	// shadowNoise is what noise adds to these, in standard deviations.
	shadowNoise = 2.0
	// shadowFades is the least share of a shadow's rim that lies against bare
	// ground: the rim of a shoe is a contour.
	shadowFades = 0.15
)

// dropShadow clears in f.mask, the silhouette of a frame, what is shadow of the
// plate's view of it.
func (f *finder) dropShadow(p *Plate, frame *Layer) error {
	s := shade{frame: frame, view: p.view.Pix, gain: f.gain, bias: f.bias, noise: f.noise}
	m, marks := f.mask, f.marks
	clear(marks.Pix)
	for y := 1; y < m.H-1; y++ {
		for x := 1; x < m.W-1; x++ {
			if i := y*m.W + x; m.Pix[i] != 0 && s.shaded(i) {
				marks.Pix[i] = 255
			}
		}
	}
	if err := f.keepFading(); err != nil {
		return err
	}
	for i, v := range marks.Pix {
		if v != 0 {
			m.Pix[i] = 0
		}
	}
	m.despeckle()
	return nil
}

// keepFading leaves in f.marks only pieces that go over into bare ground.
func (f *finder) keepFading() error {
	m, marks := f.mask, f.marks
	for _, c := range f.shades.pieces(nil, marks, 1) {
		rim, bare := 0, 0
		err := f.shades.each(c, m.W, func(i int) {
			for _, k := range [4]int{i - 1, i + 1, i - m.W, i + m.W} {
				if marks.Pix[k] == 0 {
					rim++
					if m.Pix[k] == 0 {
						bare++
					}
				}
			}
		})
		if err != nil {
			return err
		}
		if float64(bare) < shadowFades*float64(rim) {
			if err := f.shades.clear(marks, c); err != nil {
				return err
			}
		}
	}
	return nil
}

// shade compares one frame with the plate's view of it.
type shade struct {
	frame      *Layer
	view       []uint8
	gain, bias float64 // of the frame's light against the plate's
	noise      float64 // standard deviation of a pixel, levels
}

// shaded reports whether pixel i, which must not lie on the rim of the picture,
// looks like the bare ground in shadow.
func (s *shade) shaded(i int) bool {
	w := s.frame.W
	var r [9]float64
	mean := 0.0
	for k := range r {
		c := (i + (k/3-1)*w + k%3 - 1) * channels
		bare := s.gain*float64(s.view[c]) + s.bias
		if bare < 1 {
			return false
		}
		r[k] = float64(s.frame.Pix[c]) / bare
		mean += r[k] / 9
	}
	if mean < shadowDark || mean > shadowPale || !s.sameHue(i*channels, mean) {
		return false
	}
	gx := (r[2] + r[5] + r[8] - r[0] - r[3] - r[6]) / 6
	gy := (r[6] + r[7] + r[8] - r[0] - r[1] - r[2]) / 6
	noise := shadowNoise * s.noise / max(1, s.gain*float64(s.view[i*channels])+s.bias)
	if math.Hypot(gx, gy) > shadowSlope+noise {
		return false
	}
	sum := 0.0
	for k := range r {
		d := r[k] - mean - gx*float64(k%3-1) - gy*float64(k/3-1)
		sum += d * d
	}
	return math.Sqrt(sum/9) <= shadowGrain+noise
}

// sameHue reports whether the pixel at c has the ground's colour at the ratio.
func (s *shade) sameHue(c int, ratio float64) bool {
	for _, ch := range [2]int{channelCb, channelCr} {
		want := 128 + ratio*(float64(s.view[c+ch])-128)
		if math.Abs(float64(s.frame.Pix[c+ch])-want) > shadowHue+shadowNoise*s.noise {
			return false
		}
	}
	return true
}
