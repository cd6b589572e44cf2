package solid

import (
	"holdfast/motion/scene"
	"holdfast/motion/scene/capture"
)

// A Rest is one time of a knee, a hand or an elbow on the ground. When just it
// comes down depends on how soft the part is, which no recording says.
type Rest struct {
	Figure     int // index into Figures
	Joint      capture.Joint
	Start, End int           // frames
	Path       []scene.Point // where it touches, in the picture of each frame from Start to End
}

// resters are the parts other than feet that people rest on.
var resters = []struct {
	joint capture.Joint
	girth float64 // metres
}{{capture.Knee, kneeGirth}, {capture.Hand, handGirth}, {capture.Elbow, elbowGirth}}

// restLevel is how far over the ground a part may be and still touch it: about
// what clothing and skin give way.
const restLevel = 0.02 // metres

// rests adds the runs of frames on which a part of the figure touches the ground.
func (a *acting) rests(t *Truth, index int) {
	for _, part := range resters {
		for side := range 2 {
			joint := part.joint.On(side)
			for f := 0; f < len(a.at); f++ {
				r := Rest{Figure: index, Joint: joint, Start: f}
				for ; f < len(a.at) && a.over(joint, f) <= part.girth+restLevel; f++ {
					r.End = f
					r.Path = append(r.Path, a.below(joint, f))
				}
				if r.Path != nil {
					t.Rests = append(t.Rests, r)
				}
			}
		}
	}
}

// over is the height of a joint over the ground.
func (a *acting) over(j capture.Joint, frame int) float64 {
	p := a.poses[frame][j]
	return p.Y - a.world.level(p.X)
}

// below is where the ground under a joint is seen.
func (a *acting) below(j capture.Joint, frame int) scene.Point {
	p := a.poses[frame][j]
	p.Y = a.world.level(p.X)
	at, _ := a.views[frame].project(p)
	return at
}
