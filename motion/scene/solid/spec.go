// Package solid draws solid figures in perspective that move as recorded
// people do, before a camera that moves as cameras do. What is true of a clip
// comes from the recordings and the camera's geometry, never from pixels: when
// feet stand and slide, when nothing stands, where soles are in the picture.
package solid

import (
	"errors"
	"fmt"

	"holdfast/motion/scene"
)

// A Spec says what a clip of one shot shows.
type Spec struct {
	Name          string
	Width, Height int        // pixels, even
	Rate          scene.Rate // zero means 24
	Seconds       float64    // 0 means 5; no longer than the shortest recording has
	Camera        Camera
	World         World
	Figures       []Figure
	Condition     scene.Condition
	Seed          uint64 // of grain and flicker
}

// usualSeconds is how long a clip is at most unless it says so.
const usualSeconds = 5

func (s *Spec) check() error {
	if err := scene.CheckFormat(s.Width, s.Height, s.Rate); err != nil {
		return err
	}
	if len(s.Figures) == 0 {
		return errors.New("there are no figures")
	}
	for _, m := range s.Camera.Moves {
		if m.To <= m.From || m.Zoom < 0 {
			return fmt.Errorf("camera move from second %g to %g, zoom %g", m.From, m.To, m.Zoom)
		}
	}
	return nil
}
