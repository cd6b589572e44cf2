package solid

import (
	"math"

	"holdfast/motion/scene"
	"holdfast/motion/scene/capture"
)

// A Truth is what is so in a clip. Figures have no beats: bodies that were
// recorded have none that geometry names. Max and Mean of a figure are over
// points of its surface that face the camera, hidden by other parts or not.
type Truth struct {
	scene.Truth
	Feet   []Foot  // two for each of Figures, left and right
	Stands []Stand // one for each of Contacts
	Airs   []Air   // one for each of Flights
	Rests  []Rest  // what else than feet is on the ground
	Steps  []Step
}

// A Foot is where one foot of a figure is, by frame of the figure.
type Foot struct {
	Figure    int           // index into Figures
	Side      int           // capture.Left or capture.Right
	Heel, Toe []scene.Point // of the sole, pixels
	Down      []bool        // it stands on the ground
}

// A Stand is what a contact does not say.
type Stand struct {
	Side        int     // capture.Left or capture.Right
	Slip        Vec     // over the ground from Start to End, metres
	SlipShare   float64 // its length in figure heights
	DX, DY      float64 // the same in the picture as the camera of frame Start sees it, pixels
	Whole       [2]bool // touching down and lifting off happen within clip and recording
	Uncertainty float64 // frames by which From and To may be off, by the rule that they come from
	Plate       bool    // they come from a force plate
}

// An Air is what a flight does not say.
type Air struct {
	LowestRise float64 // how far the lowest point of the soles rises over the ground, metres
	CentreRise float64 // how far the centre of mass rises from take-off to the top, metres
}

// A Step is a foot that comes down at another spot than the other foot's.
type Step struct {
	Figure, Side int
	Frame        int     // first on which it stands there
	Length       float64 // from the other foot's last spot, figure heights
}

// Truth returns what is true of the clip in the types of drawn scenes.
func (sc *Scene) Truth() scene.Truth { return sc.truth().Truth }

// Feet returns all that is true of the clip.
func (sc *Scene) Feet() Truth { return sc.truth() }

func (sc *Scene) reckon() Truth {
	t := Truth{Truth: scene.Truth{Frames: sc.Frames, Shots: []scene.ShotTruth{{End: sc.Frames - 1, Kind: sc.spec.Camera.kind(), Zoom: 1}}}}
	views := make([]view, sc.Frames)
	shot := &t.Shots[0]
	for f := range views {
		views[f] = sc.viewOf(float64(f))
		step := scene.CameraStep{Zoom: 1}
		if f > 0 {
			step = views[f].stepFrom(&views[f-1])
		}
		t.Camera = append(t.Camera, step)
		shot.TravelX, shot.TravelY, shot.Zoom = shot.TravelX+step.DX, shot.TravelY+step.DY, shot.Zoom*step.Zoom
	}
	for _, m := range sc.cast {
		sc.reckonFigure(&t, m, views)
	}
	return t
}

// An acting is one figure over the frames of a clip.
type acting struct {
	*mover
	sc    *Scene
	views []view
	at    []float64 // instant of the recording whose drawing is up
	poses []capture.Pose
}

func (sc *Scene) reckonFigure(t *Truth, m *mover, views []view) {
	a := &acting{mover: m, sc: sc, views: views}
	for f := range views {
		at := m.shownAt(sc.second(float64(f)), sc.Rate.Float())
		a.at, a.poses = append(a.at, at), append(a.poses, m.pose(at))
	}
	ft, ok := a.truth()
	if !ok {
		return
	}
	t.Figures = append(t.Figures, ft)
	index := len(t.Figures) - 1
	for side := range 2 {
		t.Feet = append(t.Feet, a.foot(index, side, ft.Start, ft.End))
	}
	first := len(t.Contacts)
	a.contacts(t, index)
	a.steps(t, index, first)
	a.flights(t, index)
	a.rests(t, index)
}

// foot projects one foot on frames from to to.
func (a *acting) foot(index, side, from, to int) Foot {
	f := Foot{Figure: index, Side: side}
	for i := from; i <= to; i++ {
		heel, _ := a.views[i].project(a.poses[i][capture.Heel.On(side)])
		toe, _ := a.views[i].project(a.poses[i][capture.Toe.On(side)])
		f.Heel, f.Toe = append(f.Heel, heel), append(f.Toe, toe)
		f.Down = append(f.Down, a.standing(side, i) >= 0)
	}
	return f
}

// standing returns the index of the recording's stand that the drawing up on a
// frame shows, or -1.
func (a *acting) standing(side, frame int) int {
	for k, s := range a.rec.Stands {
		if s.Side == side && s.From <= a.at[frame] && a.at[frame] <= s.To {
			return k
		}
	}
	return -1
}

// height is how tall the figure would be in the picture of a frame if it stood
// where its pelvis is, pixels.
func (a *acting) height(frame int) float64 {
	low := a.poses[frame][capture.Pelvis]
	low.Y = a.world.Slope*low.X + a.world.Stairs.ramp(low.X)
	foot, _ := a.views[frame].project(low)
	head, _ := a.views[frame].project(low.Add(Vec{Y: capture.Height}))
	return math.Hypot(head.X-foot.X, head.Y-foot.Y)
}
