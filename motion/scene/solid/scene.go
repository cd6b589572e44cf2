package solid

import (
	"fmt"
	"image"
	"sync"

	"holdfast/motion/scene"
	"holdfast/motion/scene/capture"
)

// A Scene is a clip that can be drawn frame by frame, in any order.
type Scene struct {
	Name          string
	Width, Height int
	Rate          scene.Rate
	Frames        int

	spec  Spec
	lib   Library
	cast  []*mover
	way   [2]Vec // where the first figure's pelvis is in the beginning and in the end
	mu    sync.Mutex
	paint painter
	truth func() Truth
}

// A Library finds recordings by name.
type Library func(name string) (*capture.Recording, error)

// New makes the scene that s describes of the library's recordings.
func New(s Spec, lib Library) (*Scene, error) {
	if s.Rate == (scene.Rate{}) {
		s.Rate = scene.FPS(24)
	}
	if err := s.check(); err != nil {
		return nil, fmt.Errorf("scene %q: %w", s.Name, err)
	}
	sc := &Scene{Name: s.Name, Width: s.Width, Height: s.Height, Rate: s.Rate, spec: s, lib: lib}
	seconds := s.Seconds
	if seconds == 0 {
		seconds = usualSeconds
	}
	recordings := make([]*capture.Recording, len(s.Figures))
	for i, f := range s.Figures {
		rec, err := lib(f.Recording)
		if err != nil {
			return nil, fmt.Errorf("scene %q: %w", s.Name, err)
		}
		recordings[i] = rec
		seconds = min(seconds, rec.Seconds()-f.Start)
	}
	for i, f := range s.Figures {
		m, err := newMover(f, recordings[i], &sc.spec.World, seconds)
		if err != nil {
			return nil, fmt.Errorf("scene %q: figure %q: %w", s.Name, f.Name, err)
		}
		sc.cast = append(sc.cast, m)
	}
	sc.Frames = 1 + int(seconds*s.Rate.Float())
	for i, f := range []int{0, sc.Frames - 1} {
		p := sc.cast[0].pose(sc.cast[0].Start + sc.second(float64(f)))
		sc.way[i] = p[capture.Pelvis]
	}
	sc.truth = sync.OnceValue(sc.reckon)
	return sc, nil
}

// second is the instant of a frame.
func (sc *Scene) second(frame float64) float64 { return frame / sc.Rate.Float() }

// viewOf is the camera at an instant in frames.
func (sc *Scene) viewOf(frame float64) view {
	var off Vec
	if sc.spec.Camera.Follow {
		off = sc.way[0].Toward(sc.way[1], frame/float64(max(1, sc.Frames-1))).Sub(sc.spec.Camera.Aim)
		off.Y = 0
	}
	return sc.spec.Camera.viewAt(sc.second(frame), off, sc.Width, sc.Height)
}

// NewFrame returns an empty picture that Draw accepts.
func (sc *Scene) NewFrame() *image.YCbCr {
	return image.NewYCbCr(image.Rect(0, 0, sc.Width, sc.Height), image.YCbCrSubsampleRatio420)
}

// With returns the scene under a variant, named "scene/variant".
func (sc *Scene) With(v scene.Variant) (*Scene, error) {
	s := sc.spec
	s.Condition, s.Seed = v.Condition, v.Seed
	if v.Name != "" {
		s.Name = fmt.Sprintf("%s/%s", sc.Name, v.Name)
	}
	if v.Shake != (scene.Shake{}) {
		s.Camera.Shake = v.Shake
	}
	s.Figures = append([]Figure(nil), sc.spec.Figures...)
	for i := range s.Figures {
		if f := &s.Figures[i]; f.On == 0 {
			f.On = v.On
		}
	}
	return New(s, sc.lib)
}
