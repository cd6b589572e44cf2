package scene

import (
	"errors"
	"fmt"
)

// A Rate is an exact number of frames a second.
type Rate struct{ Num, Den int64 }

// Float returns frames a second.
func (r Rate) Float() float64 { return float64(r.Num) / float64(r.Den) }

func (r Rate) String() string { return fmt.Sprintf("%d/%d", r.Num, r.Den) }

// FPS is a whole number of frames a second.
func FPS(n int64) Rate { return Rate{n, 1} }

// A Spec says what a clip shows. Times in shots, cameras and figures are frames
// drawn, before Conform repeats any.
type Spec struct {
	Name          string
	Width, Height int  // pixels, even
	Rate          Rate // of the clip as shown; zero means 24
	Shots         []Shot
	Conform       Conform
	Condition     Condition
	Seed          uint64 // of grain and flicker
}

// A Shot is one stretch of the clip with one camera and one background.
type Shot struct {
	Frames   int
	Camera   Camera
	Backdrop Backdrop
	Figures  []Figure // from back to front
	Balls    []Ball   // in front of the figures
	Join     Join     // how the shot before gives way to this one
	FadeIn   int      // frames over which it comes up from black
	FadeOut  int      // frames over which it goes down to black
	Flashes  []Flash
	Passes   []Pass
}

// A JoinKind is a way from one shot to the next.
type JoinKind int

// The joins. Only HardCut is a cut.
const (
	HardCut      JoinKind = iota
	Dissolve              // the two shots overlap for Frames frames
	ThroughBlack          // fades of Frames frames down and up again
)

// A Join is how one shot gives way to the next.
type Join struct {
	Kind   JoinKind
	Frames int
}

// A Flash turns the picture towards white for a few frames, most on the first.
type Flash struct{ At, Frames int }

// A Pass is something large and dark that crosses close before the lens.
type Pass struct {
	From, To int
	Left     bool // from right to left
}

// CheckFormat reports why clips of a size in pixels and a rate cannot be drawn.
func CheckFormat(width, height int, rate Rate) error {
	switch {
	case width < 2 || height < 2 || width%2 != 0 || height%2 != 0:
		return fmt.Errorf("size %dx%d: both sides must be even and at least 2", width, height)
	case rate.Num <= 0 || rate.Den <= 0:
		return fmt.Errorf("rate %v is not above zero", rate)
	}
	return nil
}

// check reports the first thing in s that cannot be drawn.
func (s *Spec) check() error {
	if err := CheckFormat(s.Width, s.Height, s.Rate); err != nil {
		return err
	}
	switch {
	case len(s.Shots) == 0:
		return errors.New("there are no shots")
	case s.Conform.Of != 0 && (s.Conform.New < 1 || s.Conform.Of < s.Conform.New):
		return fmt.Errorf("conform shows %d new frames of %d", s.Conform.New, s.Conform.Of)
	}
	for i, sh := range s.Shots {
		if err := sh.check(i); err != nil {
			return fmt.Errorf("shot %d: %w", i, err)
		}
	}
	return nil
}

func (sh *Shot) check(i int) error {
	if sh.Frames < 1 {
		return fmt.Errorf("%d frames", sh.Frames)
	}
	for _, m := range sh.Camera.Moves {
		if m.To <= m.From || m.Zoom < 0 {
			return fmt.Errorf("camera move from frame %g to %g, zoom %g", m.From, m.To, m.Zoom)
		}
	}
	if j := sh.Join; j.Kind != HardCut && (i == 0 || j.Frames < 1 || j.Frames >= sh.Frames) {
		return fmt.Errorf("a join of %d frames into a shot of %d", j.Frames, sh.Frames)
	}
	for _, b := range sh.Balls {
		if b.Restitution < 0 || b.Restitution >= 1 || b.Drop < 0 {
			return fmt.Errorf("ball with restitution %g, drop %g", b.Restitution, b.Drop)
		}
	}
	return nil
}
