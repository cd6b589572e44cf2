package figure

import (
	"image"
	"image/color"
	"math"

	"gocv.io/x/gocv"

	"holdfast/motion/rank"
)

const (
	// figureNoise is how many times the noise a pixel must differ from the
	// plate to be figure: under one pixel in a thousand of normal noise does.
	figureNoise = 5.0
	// leastFigure is the smallest difference that is figure, in levels: about
	// the coding noise of a strongly compressed clip around moving contours.
	leastFigure = 9.0
	// chromaWeight sets a level of chroma against one of luma; chroma spans
	// about half the range in ordinary pictures (memory).
	chromaWeight = 1.6
	// slackPixels is how far, in layer pixels, a moving camera's frame may lie
	// beside the plate: a tenth for the fit, the rest for blur and parallax.
	slackPixels = 0.35
	// slackStill is the same for a camera that does not move.
	slackStill = 0.1
	// noiseStride is the distance in pixels between those that noise is read
	// from; odd, so that no row or column of a pattern is favoured.
	noiseStride = 7
	// speckSide and gapSide are the widest specks that go and gaps that close,
	// in layer pixels: less than a finger, and the width of an outline.
	speckSide, gapSide = 2, 5
)

// A Mask marks the pixels of a layer that are figure, 255 against 0.
type Mask struct {
	W, H int
	Pix  []uint8
	mat  gocv.Mat
}

func newMask(w, h int) (*Mask, error) {
	m := &Mask{W: w, H: h, mat: gocv.NewMatWithSize(h, w, gocv.MatTypeCV8U)}
	pix, err := m.mat.DataPtrUint8()
	if err != nil {
		m.mat.Close()
		return nil, err
	}
	m.Pix = pix
	return m, nil
}

func (m *Mask) close() { m.mat.Close() }

// differ fills diff with the difference of each pixel of a frame from the
// plate's view in the frame's light (see light), levels, less the slack its slope
// allows; 0 where the plate is unknown.
func (p *Plate) differ(diff []float32, frame *Layer, gain, bias float64) {
	slack := slackStill
	if !p.world.still {
		slack = slackPixels
	}
	w := frame.W
	row := w * channels
	for y := range frame.H {
		for x := range w {
			i := (y*w + x) * channels
			if p.view.Pix[i+channelSeen] != 255 {
				diff[y*w+x] = 0
				continue
			}
			v := p.view.Pix
			d := math.Abs(float64(frame.Pix[i]) - gain*float64(v[i]) - bias)
			cb := chromaWeight * math.Abs(float64(frame.Pix[i+channelCb])-float64(v[i+channelCb]))
			cr := chromaWeight * math.Abs(float64(frame.Pix[i+channelCr])-float64(v[i+channelCr]))
			d = max(d, cb, cr)
			if x > 0 && y > 0 && x < w-1 && y < frame.H-1 {
				gx := math.Abs(float64(v[i+channels]) - float64(v[i-channels]))
				gy := math.Abs(float64(v[i+row]) - float64(v[i-row]))
				d -= slack * max(gx, gy)
			}
			diff[y*w+x] = float32(max(d, 0))
		}
	}
}

// level returns the difference from which a pixel is figure, by the noise of
// the frame it is in: the median over all pixels is mostly background.
func level(diff []float32, scratch []float32) float32 {
	scratch = scratch[:0]
	for i := 0; i < len(diff); i += noiseStride {
		scratch = append(scratch, diff[i])
	}
	return max(leastFigure, figureNoise*1.4826*rank.Median(scratch))
}

// threshold marks in m what is at or over limit, and mends it: specks go, and
// gaps as wide as an outline close.
func (m *Mask) threshold(diff []float32, limit float32) {
	for i, d := range diff {
		if d >= limit {
			m.Pix[i] = 255
		} else {
			m.Pix[i] = 0
		}
	}
	m.despeckle()
	m.fill()
}

// despeckle takes away what is narrower than speckSide.
func (m *Mask) despeckle() { m.open(speckSide) }

// open takes away what is narrower than side. An even square has no middle:
// dilating from the corner opposite to the one that erosion starts from leaves
// things in their place, which OpenCV's own opening does not.
func (m *Mask) open(side int) {
	e := gocv.GetStructuringElement(gocv.MorphRect, image.Pt(side, side))
	defer e.Close()
	gocv.ErodeWithParams(m.mat, &m.mat, e, image.Pt(side/2, side/2), 1, int(gocv.BorderReplicate))
	gocv.DilateWithParams(m.mat, &m.mat, e, image.Pt((side-1)/2, (side-1)/2), 1, gocv.BorderReplicate, color.RGBA{})
}

// shrink takes n pixels off the rim of what is marked, grow adds them.
func (m *Mask) shrink(n int) {
	e := gocv.GetStructuringElement(gocv.MorphEllipse, image.Pt(2*n+1, 2*n+1))
	defer e.Close()
	gocv.Erode(m.mat, &m.mat, e)
}

func (m *Mask) grow(n int) {
	e := gocv.GetStructuringElement(gocv.MorphEllipse, image.Pt(2*n+1, 2*n+1))
	defer e.Close()
	gocv.Dilate(m.mat, &m.mat, e)
}

// fill closes gaps as wide as an outline.
func (m *Mask) fill() {
	e := gocv.GetStructuringElement(gocv.MorphEllipse, image.Pt(gapSide, gapSide))
	defer e.Close()
	gocv.MorphologyEx(m.mat, &m.mat, gocv.MorphClose, e)
}
