package sheet

import (
	"cmp"
	"math"
	"slices"
)

// Complete fills in what follows from the rest: format and version, numbering,
// lengths, timecodes. Numbers are rounded to the decimals a measurement can
// carry, and empty lists become [] rather than null. It may be called again
// after a change.
func (s *Sheet) Complete() {
	s.Format, s.Version = Format, Version
	s.Clip.Seconds = round(s.Clip.length(s.Clip.Frames), secondDigits)
	fill(&s.Clip.Warnings)
	if s.Settings == nil {
		s.Settings = map[string]any{}
	}
	s.completeShots()
	s.completeBeats()
	s.completeGround()
	s.completeFraming()
	s.completePoses()
	s.completeParts()
	s.completeTwins()
	s.completeSound()
	fill(&s.Notes)
	for i := range s.Notes {
		s.Notes[i].ID = i + 1
		if s.Notes[i].Measured == nil {
			s.Notes[i].Measured = map[string]any{}
		}
	}
	fill(&s.Remarks)
	slices.SortStableFunc(s.Remarks, func(a, b Remark) int { return cmp.Or(a.Start-b.Start, a.End-b.End) })
	s.completeCurve()
}

// Decimals kept. Pixels are measured to about a tenth, so two decimals lose
// nothing; a step's travel keeps one more because it is added up over a shot.
// Shares of a height of some hundred pixels carry four. A zoom of 1e-6 moves
// the edge of a 4K picture by less than a hundredth of a pixel.
const (
	secondDigits = 6
	pixelDigits  = 2
	stepDigits   = 3
	shareDigits  = 4
	rollDigits   = 4
	zoomDigits   = 6
	motionDigits = 6
	frameDigits  = 3
)

// round keeps the given number of decimals; NaN and infinities stay what they
// are, and minus zero becomes zero.
func round(x float64, digits int) float64 {
	p := math.Pow(10, float64(digits))
	if r := math.Round(x*p) / p; r != 0 {
		return r
	}
	return 0
}

// rounded keeps the given number of decimals of a value that may be missing.
func rounded(v *float64, digits int) *float64 {
	if v == nil {
		return nil
	}
	r := round(*v, digits)
	return &r
}

// fill turns a nil list into an empty one.
func fill[T any](list *[]T) {
	if *list == nil {
		*list = []T{}
	}
}

// length returns how long frames last, 0 when the clip has no rate.
func (c Clip) length(frames int) float64 {
	if !c.FPS.Valid() {
		return 0
	}
	return c.FPS.Seconds(frames)
}

func (s *Sheet) completeShots() {
	fill(&s.Shots)
	for i := range s.Shots {
		shot := &s.Shots[i]
		shot.ID = i + 1
		shot.Camera.TravelX = round(shot.Camera.TravelX, pixelDigits)
		shot.Camera.TravelY = round(shot.Camera.TravelY, pixelDigits)
		shot.Camera.Zoom = round(shot.Camera.Zoom, zoomDigits)
	}
	fill(&s.Figures)
	for i := range s.Figures {
		s.Figures[i].ID = i + 1
		s.Figures[i].Height = round(s.Figures[i].Height, pixelDigits)
	}
	fill(&s.Exposure)
	for i := range s.Exposure {
		s.Exposure[i].FramesPerDrawing = round(s.Exposure[i].FramesPerDrawing, frameDigits)
	}
}

func (s *Sheet) completeBeats() {
	fill(&s.Beats)
	for i := range s.Beats {
		b := &s.Beats[i]
		b.ID = i + 1
		b.Frames = b.End - b.Start + 1
		b.Seconds = round(s.Clip.length(b.Frames), secondDigits)
		if s.Clip.FPS.Valid() {
			b.Timecode = s.Clip.Timecode(b.Start)
		}
		b.Size = rounded(b.Size, shareDigits)
		if b.Texture != nil {
			texture := b.Texture.rounded()
			b.Texture = &texture
		}
	}
	fill(&s.Timing)
	fill(&s.Pops)
	for i := range s.Pops {
		p := &s.Pops[i]
		p.Jump, p.Around, p.Left = round(p.Jump, motionDigits), round(p.Around, motionDigits), round(p.Left, shareDigits)
	}
}

func (s *Sheet) completeGround() {
	fill(&s.Contacts)
	for i := range s.Contacts {
		c := &s.Contacts[i]
		c.ID = i + 1
		c.X, c.Y = round(c.X, pixelDigits), round(c.Y, pixelDigits)
		c.SlipPx, c.SlipShare = round(c.SlipPx, pixelDigits), round(c.SlipShare, shareDigits)
	}
	fill(&s.Steps)
	for i := range s.Steps {
		t := &s.Steps[i]
		t.Seconds, t.Length = round(t.Seconds, secondDigits), round(t.Length, shareDigits)
	}
	fill(&s.Flights)
	for i := range s.Flights {
		f := &s.Flights[i]
		f.ID = i + 1
		f.Frames = f.End - f.Start + 1
		f.RisePx, f.TravelPx = round(f.RisePx, pixelDigits), round(f.TravelPx, pixelDigits)
		f.RiseShare = round(f.RiseShare, shareDigits)
		if f.Gravity != nil {
			g := f.Gravity.rounded()
			f.Gravity = &g
		}
	}
	for i := range s.Lively {
		s.Lively[i].Pace = round(s.Lively[i].Pace, shareDigits)
	}
	for i := range s.Approaches {
		s.Approaches[i].Change = round(s.Approaches[i].Change, shareDigits)
	}
	fill(&s.FeetOut)
	fill(&s.Impacts)
	for i := range s.Impacts {
		p := &s.Impacts[i]
		p.Frame = round(p.Frame, frameDigits)
		p.Restitution = rounded(p.Restitution, shareDigits)
	}
}

func (s *Sheet) completeCurve() {
	s.Curve.Bands.complete()
	fill(&s.Curve.Motion)
	for i, v := range s.Curve.Motion {
		s.Curve.Motion[i] = round(v, motionDigits)
	}
	fill(&s.Curve.Camera)
	for i, v := range s.Curve.Camera {
		s.Curve.Camera[i] = [4]float64{
			round(v[0], stepDigits), round(v[1], stepDigits),
			round(v[2], rollDigits), round(v[3], zoomDigits),
		}
	}
}
