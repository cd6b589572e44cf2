// Package assemble makes a beat sheet of what was measured: working pixels
// become displayed ones, frames that count from 0 get the numbers that people
// use. Numbers come in, numbers go out.
package assemble

import (
	"maps"
	"math"
	"slices"

	"holdfast/extract"
	"holdfast/motion"
	"holdfast/motion/camera"
	"holdfast/motion/feet"
	"holdfast/motion/strip"
	"holdfast/sheet"
)

// A Measured clip is everything a sheet is made of.
type Measured struct {
	clip     extract.Clip
	result   *motion.Result
	Tool     sheet.Tool // what measured it
	Warnings []string   // of the reader
	SHA256   string
	First    int // number of the clip's first frame
	Skipped  int // frames of the clip before the first one measured

	Sound *Heard // what is heard; nil: nothing

	Marks []string    // what was shown by hand, as it was given
	Feet  []feet.Mark // the feet among them

	House *sheet.House // thresholds of the notes; nil: the defaults

	FigureHeight float64 // metres that figures are said to be tall; 0: sheet.DefaultFigureHeight
}

// New returns a clip with what was measured in it, its frames numbered from 0.
func New(clip extract.Clip, result *motion.Result) *Measured {
	return &Measured{clip: clip, result: result}
}

// Sheet turns what was measured into a beat sheet: working pixels become
// displayed ones, frames that count from 0 get their numbers.
func (m *Measured) Sheet() *sheet.Sheet {
	s := &sheet.Sheet{
		Tool:     m.Tool,
		Clip:     m.head(),
		Settings: m.settings(),
		Shots:    make([]sheet.Shot, 0, len(m.result.Shots)),
	}
	sx, sy := m.scale()
	for _, shot := range m.result.Shots {
		c := shot.Camera
		s.Shots = append(s.Shots, sheet.Shot{
			Start: m.number(shot.Start), End: m.number(shot.End), Join: m.join(shot.Join),
			Camera: sheet.Camera{Kind: c.Kind, TravelX: c.TravelX * sx, TravelY: c.TravelY * sy, Zoom: c.Zoom},
		})
	}
	for _, f := range m.result.Figures {
		s.Figures = append(s.Figures, sheet.Figure{
			Shot: f.Shot + 1, Start: m.number(f.Start), End: m.number(f.End),
			Height: f.HeightPx * sy, Method: string(f.Method),
		})
	}
	for _, b := range m.result.Beats {
		s.Beats = append(s.Beats, m.beat(b))
	}
	for _, e := range m.result.Exposure {
		s.Exposure = append(s.Exposure, sheet.Exposure{
			Shot: e.Shot + 1, Figure: e.Figure, Start: m.number(e.Start), End: m.number(e.End),
			Pattern: e.Pattern, FramesPerDrawing: e.FramesPerDrawing,
		})
	}
	m.own(s)
	m.pops(s)
	if r := m.result.Repeats; r != nil {
		s.Repeats = &sheet.Repeats{Every: r.Every, First: m.number(r.First)}
	}
	m.ground(s)
	m.framing(s)
	m.poses(s)
	m.parts(s)
	m.twins(s)
	m.lively(s)
	m.staging(s)
	m.sound(s)
	s.Curve = m.curve(sx, sy)
	s.Complete()
	s.Review(m.metres(), m.House)
	return s
}

// Strips returns the ground strips, in working pixels and with frames from 0 as
// measured.
func (m *Measured) Strips() []*strip.Strip { return m.result.Strips }

// number returns what a reviewer calls the frame with an index from 0.
func (m *Measured) number(index int) int { return m.First + m.Skipped + index }

// scale returns displayed pixels for each working pixel, across and down.
func (m *Measured) scale() (x, y float64) {
	return float64(m.clip.Width) / float64(m.clip.Work.X), float64(m.clip.Height) / float64(m.clip.Work.Y)
}

func (m *Measured) metres() float64 {
	if m.FigureHeight == 0 {
		return sheet.DefaultFigureHeight
	}
	return m.FigureHeight
}

func (m *Measured) head() sheet.Clip {
	c := sheet.Clip{
		Name: m.clip.Name, Width: m.clip.Width, Height: m.clip.Height, FPS: sheet.Rate(m.clip.Rate),
		Frames: m.result.Frames, FirstFrame: m.number(0), Skipped: m.Skipped, SHA256: m.SHA256,
		VariableRate: m.clip.Variable,
		Warnings:     slices.Concat(m.Warnings, m.result.Warnings, m.stillness(), m.trails()),
	}
	if b := m.result.Bars; b != (motion.Bars{}) {
		_, sy := m.scale()
		c.Bars = &sheet.Bars{Above: int(math.Round(sy * float64(b.Top))), Below: int(math.Round(sy * float64(b.Bottom)))}
	}
	if source := sheet.Rate(m.clip.SourceRate); m.clip.Conformed && source != c.FPS && source.Valid() {
		c.SourceFPS = &source
	}
	return c
}

// settings are motion's thresholds and what the command line and the reader
// decided.
func (m *Measured) settings() map[string]any {
	s := maps.Clone(m.result.Settings)
	if s == nil {
		s = map[string]any{}
	}
	s["work_width_px"] = m.clip.Work.X
	s["work_height_px"] = m.clip.Work.Y
	if len(m.Marks) > 0 {
		s["marks"] = m.Marks
	}
	return s
}

func (m *Measured) beat(b motion.Beat) sheet.Beat {
	start, end := m.number(b.Start), m.number(b.End)
	if b.Kind == sheet.KindHold {
		return sheet.NewHold(b.Shot+1, b.Figure, start, end, b.Hold)
	}
	move := sheet.NewMove(b.Shot+1, b.Figure, start, end, m.number(b.Peak), b.Size)
	move.Texture = m.texture(b.Texture)
	return move
}

func (m *Measured) curve(sx, sy float64) sheet.Curve {
	c := sheet.Curve{Motion: append([]float64{}, m.result.Curve.Motion...)}
	for _, b := range m.result.Curve.Bands {
		c.Bands.Add(b.Upper, b.Middle, b.Lower, b.Left, b.Right)
	}
	for _, step := range m.result.Curve.Camera {
		c.Camera = append(c.Camera, [4]float64{step.DX * sx, step.DY * sy, step.Roll, step.Zoom})
	}
	return c
}

// join carries over how a shot follows the one before; nil for a cut.
func (m *Measured) join(j camera.Join) *sheet.Join {
	if j.Kind == "" {
		return nil
	}
	return &sheet.Join{Kind: j.Kind, Start: m.number(j.Start), End: m.number(j.End)}
}
