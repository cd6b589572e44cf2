package solid

import (
	"math"

	"holdfast/motion/scene"
	"holdfast/motion/scene/capture"
)

// Points of a cone's surface whose travel is looked at: around and along.
const (
	pointsAround = 6
	pointsAlong  = 3
)

// A point is a spot of the surface of a body, with the way it faces and the
// share of the picture that it stands for.
type point struct {
	at, normal Vec
	weight     float64
}

// surface lists points of a body, in the same order for every pose.
func surface(p *capture.Pose) (list []point) {
	parts := body(nil, p, costume{})
	for i := range parts {
		c := &parts[i]
		for k := range pointsAlong {
			for r := range pointsAround {
				at, normal := c.spot(float64(k)/(pointsAlong-1), 2*math.Pi*float64(r)/pointsAround)
				list = append(list, point{at, normal, c.area()})
			}
		}
	}
	return list
}

// truth fills what a figure's truth has for each frame, cut to the frames on
// which any of it is in the picture.
func (a *acting) truth() (ft scene.FigureTruth, ok bool) {
	first, last := -1, -1
	var before []point
	for f := range a.poses {
		now := surface(&a.poses[f])
		box := a.box(f)
		if box != (scene.Box{}) {
			if first < 0 {
				first = f
			}
			last = f
		}
		most, mean := a.travel(f, before, now)
		ft.Box, ft.Height = append(ft.Box, box), append(ft.Height, a.height(f))
		ft.Max, ft.Mean = append(ft.Max, most), append(ft.Mean, mean)
		before = now
	}
	if first < 0 {
		return ft, false
	}
	ft.Name, ft.Start, ft.End = a.Name, first, last
	ft.Box, ft.Height = ft.Box[first:last+1], ft.Height[first:last+1]
	ft.Max, ft.Mean = ft.Max[first:last+1], ft.Mean[first:last+1]
	ft.Max[0], ft.Mean[0] = 0, 0
	ft.Exposure = []scene.Exposure{{Start: first, End: last, Pattern: pattern(a.On), FramesPerDrawing: float64(max(1, a.On))}}
	return ft, true
}

func pattern(on int) string {
	switch names := []string{"ones", "ones", "twos", "threes", "fours"}; {
	case on < len(names):
		return names[on]
	}
	return "stepped"
}

// travel compares a figure's surface on a frame with the frame before, both
// seen by the later one's camera.
func (a *acting) travel(frame int, before, now []point) (most, mean float64) {
	v := &a.views[frame]
	sum := 0.0
	for i := range before {
		p, ahead := v.project(now[i].at)
		if ahead < nearest || p.X < 0 || p.Y < 0 || p.X > 2*v.cx || p.Y > 2*v.cy || now[i].normal.Dot(v.at.Sub(now[i].at)) < 0 {
			continue
		}
		q, _ := v.project(before[i].at)
		d := math.Hypot(p.X-q.X, p.Y-q.Y)
		w := now[i].weight / (ahead * ahead)
		most, mean, sum = math.Max(most, d), mean+w*d, sum+w
	}
	if sum > 0 {
		mean /= sum
	}
	return most, mean
}

// box is the part of the picture that the figure covers on a frame.
func (a *acting) box(frame int) scene.Box {
	v := &a.views[frame]
	l := layer{w: a.sc.Width, h: a.sc.Height}
	b := rect{l.w, l.h, 0, 0}
	parts := body(nil, &a.poses[frame], costume{})
	for i := range parts {
		if r, ok := l.around(v, &parts[i]); ok {
			b = b.with(r)
		}
	}
	if b.x0 >= b.x1 || b.y0 >= b.y1 {
		return scene.Box{}
	}
	return scene.Box{X0: float64(b.x0), Y0: float64(b.y0), X1: float64(b.x1), Y1: float64(b.y1)}
}
