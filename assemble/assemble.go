// Package assemble makes a beat sheet of what was measured: working pixels
// become displayed ones, frames that count from 0 get the numbers that people
// use. Numbers come in, numbers go out.
package assemble

import (
	"maps"

	"holdfast/extract"
	"holdfast/motion"
	"holdfast/sheet"
)

// A Measured clip is everything a sheet is made of.
type Measured struct {
	Tool     sheet.Tool // what measured it
	Clip     extract.Clip
	Warnings []string // of the reader
	SHA256   string
	Result   *motion.Result
	First    int // number of the clip's first frame
	Skipped  int // frames of the clip before the first one measured
}

// Sheet turns what was measured into a beat sheet: working pixels become
// displayed ones, frames that count from 0 get their numbers.
func (m *Measured) Sheet() *sheet.Sheet {
	s := &sheet.Sheet{
		Tool:     m.Tool,
		Clip:     m.head(),
		Settings: m.settings(),
		Shots:    make([]sheet.Shot, 0, len(m.Result.Shots)),
	}
	sx, sy := m.scale()
	for _, shot := range m.Result.Shots {
		c := shot.Camera
		s.Shots = append(s.Shots, sheet.Shot{
			Start: m.number(shot.Start), End: m.number(shot.End),
			Camera: sheet.Camera{Kind: c.Kind, TravelX: c.TravelX * sx, TravelY: c.TravelY * sy, Zoom: c.Zoom},
		})
	}
	for _, f := range m.Result.Figures {
		s.Figures = append(s.Figures, sheet.Figure{
			Shot: f.Shot + 1, Start: m.number(f.Start), End: m.number(f.End),
			Height: f.HeightPx * sy, Method: string(f.Method),
		})
	}
	for _, b := range m.Result.Beats {
		s.Beats = append(s.Beats, m.beat(b))
	}
	for _, e := range m.Result.Exposure {
		s.Exposure = append(s.Exposure, sheet.Exposure{
			Shot: e.Shot + 1, Figure: e.Figure, Start: m.number(e.Start), End: m.number(e.End),
			Pattern: e.Pattern, FramesPerDrawing: e.FramesPerDrawing,
		})
	}
	if r := m.Result.Repeats; r != nil {
		s.Repeats = &sheet.Repeats{Every: r.Every, First: m.number(r.First)}
	}
	s.Curve = m.curve(sx, sy)
	s.Complete()
	return s
}

// number returns what a reviewer calls the frame with an index from 0.
func (m *Measured) number(index int) int { return m.First + m.Skipped + index }

// scale returns displayed pixels for each working pixel, across and down.
func (m *Measured) scale() (x, y float64) {
	return float64(m.Clip.Width) / float64(m.Clip.Work.X), float64(m.Clip.Height) / float64(m.Clip.Work.Y)
}

func (m *Measured) head() sheet.Clip {
	c := sheet.Clip{
		Name: m.Clip.Name, Width: m.Clip.Width, Height: m.Clip.Height, FPS: sheet.Rate(m.Clip.Rate),
		Frames: m.Result.Frames, FirstFrame: m.number(0), Skipped: m.Skipped, SHA256: m.SHA256,
		VariableRate: m.Clip.Variable,
		Warnings:     append(append([]string{}, m.Warnings...), m.Result.Warnings...),
	}
	if source := sheet.Rate(m.Clip.SourceRate); m.Clip.Conformed && source != c.FPS && source.Valid() {
		c.SourceFPS = &source
	}
	return c
}

// settings are motion's thresholds and what the command line and the reader
// decided.
func (m *Measured) settings() map[string]any {
	s := maps.Clone(m.Result.Settings)
	if s == nil {
		s = map[string]any{}
	}
	s["work_width_px"] = m.Clip.Work.X
	s["work_height_px"] = m.Clip.Work.Y
	return s
}

func (m *Measured) beat(b motion.Beat) sheet.Beat {
	start, end := m.number(b.Start), m.number(b.End)
	if b.Kind == sheet.KindHold {
		return sheet.NewHold(b.Shot+1, b.Figure, start, end, b.Hold)
	}
	return sheet.NewMove(b.Shot+1, b.Figure, start, end, m.number(b.Peak), b.Size)
}

func (m *Measured) curve(sx, sy float64) sheet.Curve {
	c := sheet.Curve{Motion: append([]float64{}, m.Result.Curve.Motion...)}
	for _, step := range m.Result.Curve.Camera {
		c.Camera = append(c.Camera, [4]float64{step.DX * sx, step.DY * sy, step.Roll, step.Zoom})
	}
	return c
}
