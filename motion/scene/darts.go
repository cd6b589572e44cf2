package scene

import (
	"fmt"
	"image"
	"math"
)

// A Dart is a look of a drawn head or of its eyes that goes one way: frames from the
// first on which it has changed to the first on which it rests.
type Dart struct {
	Start, End int
	Way        string  // left, right, up or down, as the screen has it
	Size       float64 // against the others of its clip
	Big        bool    // of the whole head, far
}

// A Darting is a clip of a figure whose looks are known.
type Darting struct {
	*Scene
	Figure, Part string // whose looks they are
	Darts        []Dart
}

// A glance is a change of where a head or its eyes point: frames it takes, frames it
// then rests, and by how much.
type glance struct {
	move, rest      int
	turn, nod, gaze float64
}

// glances of the clips: to and fro ever less, one frame after the other; big turns
// with small darts between them; up and down; and the eyes alone.
var glances = []struct {
	name, part string
	build      float64 // stage units
	list       []glance
	condition  Condition
}{
	{"darts-settling", "head", 420, settling(1, 6), Condition{}},
	{"darts-two-frames", "head", 420, settling(2, 5), Condition{Noise: 3}},
	{"darts-three-frames", "head", 300, settling(3, 7), Condition{}},
	{"darts-between-turns", "head", 420, []glance{
		{8, 10, -1.6, 0, 0}, {1, 5, 0.35, 0, 0}, {1, 7, -0.3, 0, 0}, {9, 14, 1.7, 0, 0}, {2, 6, -0.3, 0, 0}, {2, 8, 0.35, 0, 0},
	}, Condition{}},
	{"darts-up-and-down", "head", 420, []glance{
		{2, 8, 0, -0.5, 0}, {1, 6, 0, 0.4, 0}, {2, 9, 0, 0.5, 0}, {1, 5, -0.4, 0, 0}, {2, 12, 0, -0.4, 0},
	}, Condition{Noise: 2}},
	{"darts-of-eyes", "eyes", 800, []glance{
		{1, 6, 0, 0, 0.9}, {1, 4, 0, 0, -1.6}, {2, 9, 0, 0, 1.5}, {1, 5, 0, 0, -0.9}, {1, 12, 0, 0, 0.8},
	}, Condition{}},
	{"darts-small", "head", 210, settling(2, 8), Condition{}},
}

// bigTurn is the change of Pose.Turn that is one of the whole head: 56 degrees. Nothing
// is drawn between 32 and that.
const bigTurn = 1.6

// settling are darts to and fro that get smaller.
func settling(move, rest int) []glance {
	var list []glance
	for i, size := range []float64{0.9, 0.75, 0.62, 0.5, 0.4, 0.32} {
		if i%2 == 0 {
			size = -size
		}
		list = append(list, glance{move, rest + i%2, size, 0, 0})
	}
	return list
}

// Darts returns clips of looks at the given size, which must be even.
func Darts(size image.Point) ([]Darting, error) {
	var all []Darting
	for i, g := range glances {
		f := Figure{Name: "watcher", Build: Build{Height: g.build}, Ground: max(ground, g.build-140), Look: Look{Palette: i % 3}, Left: i%2 == 1}
		p := poseEasy
		p.Turn = 0.5
		at := 11
		f.Keys = []Key{{From: 0, To: float64(at), Pose: p}}
		var darts []Dart
		for _, l := range g.list {
			p.Turn, p.Nod, p.Gaze = p.Turn+l.turn, p.Nod+l.nod, p.Gaze+l.gaze
			from := at + l.move
			darts = append(darts, Dart{at + 1, from, wayOf(l, f.Left), math.Abs(l.turn) + math.Abs(l.nod) + math.Abs(l.gaze), math.Abs(l.turn) >= bigTurn})
			at = from + l.rest
			f.Keys = append(f.Keys, Key{From: float64(from), To: float64(at), Pose: p, Ease: Linear})
		}
		spec := one(g.name, Shot{Frames: at + 10, Backdrop: Backdrop{Seed: uint64(i)}, Figures: []Figure{f}})
		spec.Width, spec.Height, spec.Condition, spec.Seed = size.X, size.Y, g.condition, uint64(i)
		sc, err := New(spec)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", g.name, err)
		}
		all = append(all, Darting{sc, f.Name, g.part, darts})
	}
	return all, nil
}

// wayOf is the way a glance goes on the screen.
func wayOf(l glance, left bool) string {
	across := l.turn + l.gaze
	switch {
	case l.nod < 0:
		return "up"
	case l.nod > 0:
		return "down"
	case across > 0 != left:
		return "right"
	}
	return "left"
}
