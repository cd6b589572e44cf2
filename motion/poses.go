package motion

import (
	"math"
	"slices"

	"holdfast/motion/beats"
	"holdfast/motion/figure"
	"holdfast/motion/poses"
)

// A Pose is what the figure of a shot holds in one hold of the whole picture.
type Pose struct {
	Beat, Figure int // index into Result.Beats; ID
	poses.Pose
	Contrast float64 // how unlike the pose before in its shot it is, 0 to 1; NaN for the first
	Way      float64 // the most by which the silhouette differs from that pose on the way from it; NaN where nothing lies between
	Back     int     // index into Result.Beats of the earlier hold that it comes back to; -1 for none
}

// pose keeps the silhouette of the figure on each frame of a stretch. Only where a
// shot has one figure, all of whose outline is known, is its silhouette its pose.
func (s *shot) pose(found *figure.Found) {
	whole := len(found.Figures) == 1 && len(found.Bodies) > 0 &&
		(found.Method == figure.ByHand || !found.Figures[0].Rooted)
	height := 0
	if whole {
		height = boxHeight(found.Figures[0].Boxes)
	}
	for t := range found.Regions {
		var shape poses.Shape
		if height > 0 {
			shape = silhouette(found, t, height)
		}
		if n := len(s.shapes); n > 0 {
			shape = shape.Like(s.shapes[n-1])
		}
		s.shapes = append(s.shapes, shape)
	}
}

// boxHeight is the median height of boxes, pixels; 0 for none.
func boxHeight(boxes []figure.Box) int {
	var heights []int
	for _, b := range boxes {
		if !b.Empty() {
			heights = append(heights, b.H())
		}
	}
	if len(heights) == 0 {
		return 0
	}
	slices.Sort(heights)
	return heights[len(heights)/2]
}

// bodyShare is how much of the height of a figure's box its silhouette must take up:
// legs of the colour of what is behind them are missing from it, though feet were
// found.
const bodyShare = 0.93

// silhouette is the shape of the only figure on frame t of a stretch, whose boxes are
// so many pixels high; none where a part of it is missing.
func silhouette(found *figure.Found, t, height int) poses.Shape {
	b := found.Figures[0].At(t)
	if b.Empty() {
		return poses.Shape{}
	}
	unit := float64(height) / figure.Shrink
	s := poses.Read(unit, func(put func(x, y int)) {
		for y := b.Y0 / figure.Shrink; y <= b.Y1/figure.Shrink; y++ {
			for x := b.X0 / figure.Shrink; x <= b.X1/figure.Shrink; x++ {
				if found.Bodies[t].At(x, y) {
					put(x, y)
				}
			}
		}
	})
	if s.Height*unit < bodyShare*float64(b.H())/figure.Shrink {
		return poses.Shape{}
	}
	return s
}

// tellPoses says what the holds of a shot hold, from its silhouettes frame by frame.
func (r *Result) tellPoses(index int, shapes []poses.Shape) {
	start, id := r.Shots[index].Start, r.figureIn(index)
	if id == 0 {
		return
	}
	var earlier []poses.Pose
	var holds []int
	for i, b := range r.Beats {
		if b.Shot != index || b.Figure != 0 || b.Kind != beats.Hold {
			continue
		}
		p, ok := poses.Of(shapes[b.Start-start : b.End+1-start])
		if !ok {
			continue
		}
		pose := Pose{Beat: i, Figure: id, Pose: p, Contrast: math.NaN(), Way: math.NaN(), Back: -1}
		if n := len(earlier); n > 0 {
			pose.Contrast = poses.Unlike(p, earlier[n-1])
			pose.Way = poses.Farthest(earlier[n-1], shapes[r.Beats[holds[n-1]].End+1-start:b.Start-start])
		}
		if k := p.Back(earlier); k >= 0 {
			pose.Back = holds[k]
		}
		r.Poses = append(r.Poses, pose)
		earlier, holds = append(earlier, p), append(holds, i)
	}
}

// figureIn is the ID of the first figure of a shot; 0 for none.
func (r *Result) figureIn(shot int) int {
	for _, f := range r.Figures {
		if f.Shot == shot {
			return f.ID
		}
	}
	return 0
}
