// Package scene draws small clips whose truth is known to the sub-pixel: a
// legged figure that acts, walks and hops, a ball that bounces, under cameras
// and conditions of all kinds. What is drawn and what is true both come from
// the same poses; the truth is reckoned from their geometry alone, never from
// pixels, so no detector can lend it its own mistakes.
package scene

import (
	"fmt"
	"sync"
)

// A Scene is a clip that can be drawn frame by frame, in any order.
type Scene struct {
	Name          string
	Width, Height int  // pixels
	Rate          Rate // frames a second
	Frames        int

	spec   Spec
	unit   float64 // pixels a stage unit at zoom 1
	rate   float64 // drawn frames a second, before the conform
	shots  []*shot
	render renderer // what drawing keeps from frame to frame
	mu     sync.Mutex
	truth  func() Truth
}

// A performer is anything that moves in the world, made of rigid pieces.
type performer interface {
	pieces() []shape
	height() float64 // stage units, standing
	place(t float64, stepped bool, dst []affine)
}

// A shot is a Shot made ready.
type shot struct {
	Shot
	start, end int // drawn frames of the whole clip, both included
	from, to   int // those of them that show more of it than of another shot
	cast       []actor
}

// An actor is a performer with its exposure and its looks.
type actor struct {
	performer
	name     string
	exposure []Stretch
	look     Look
	build    Build
	shadow   float64
	dress    costume
	inner    [][]Point // outlines moved in by the width of the ink
}

// placeAt sets dst to where the pieces are in the drawing that is up at t.
func (a *actor) placeAt(t float64, dst []affine) {
	shown, _, stepped := drawingAt(a.exposure, t)
	a.place(shown, stepped, dst)
}

// New makes the scene that s describes.
func New(s Spec) (*Scene, error) {
	if s.Rate == (Rate{}) {
		s.Rate = FPS(24)
	}
	if err := s.check(); err != nil {
		return nil, fmt.Errorf("scene %q: %w", s.Name, err)
	}
	sc := &Scene{Name: s.Name, Width: s.Width, Height: s.Height, Rate: s.Rate, spec: s}
	sc.unit = float64(s.Height) / StageHeight
	sc.rate = s.Rate.Float()
	if s.Conform.Of != 0 {
		sc.rate *= float64(s.Conform.New) / float64(s.Conform.Of)
	}
	at := 0
	for i := range s.Shots {
		if s.Shots[i].Join.Kind == Dissolve {
			at -= s.Shots[i].Join.Frames
		}
		sh, err := sc.newShot(s.Shots[i], at)
		if err != nil {
			return nil, fmt.Errorf("scene %q: shot %d: %w", s.Name, i, err)
		}
		if i > 0 {
			sc.shots[i-1].to = sh.from - 1
		}
		sc.shots = append(sc.shots, sh)
		at += sh.Frames
	}
	sc.Frames = s.Conform.shown(at)
	sc.truth = sync.OnceValue(sc.reckon)
	return sc, nil
}

func (sc *Scene) newShot(s Shot, at int) (*shot, error) {
	sh := &shot{Shot: s, start: at, end: at + s.Frames - 1}
	sh.from, sh.to = sh.start, sh.end
	if s.Join.Kind == Dissolve {
		sh.from += s.Join.Frames / 2
	}
	style := s.Backdrop.Style
	add := func(p performer, name string, exposure []Stretch, look Look, b Build, shadow float64) {
		a := actor{performer: p, name: name, exposure: exposure, look: look, build: b, shadow: shadow}
		a.dress = dress(p.pieces(), b, look, style)
		for _, piece := range p.pieces() {
			a.inner = append(a.inner, inset(piece.outline, a.dress.ink))
		}
		sh.cast = append(sh.cast, a)
	}
	for _, f := range s.Figures {
		b, err := newBody(f, sc.rate)
		if err != nil {
			return nil, fmt.Errorf("figure %q: %w", f.Name, err)
		}
		add(b, f.Name, f.Exposure, f.Look, b.Build, f.Shadow)
	}
	for _, f := range s.Balls {
		b := newBouncer(f, sc.rate)
		add(b, f.Name, f.Exposure, f.Look, Build{Height: 2 * b.Radius}.withDefaults(), f.Shadow)
	}
	return sh, nil
}

// Truth returns what is true of the clip. It is reckoned on the first call.
func (sc *Scene) Truth() Truth { return sc.truth() }

// viewOf is the camera of shot sh at t frames of that shot.
func (sc *Scene) viewOf(sh *shot, t float64) view { return sh.Camera.viewAt(t, sc.unit, sc.rate) }
