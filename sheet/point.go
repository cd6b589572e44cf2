package sheet

import "fmt"

// A Point is one that is followed through the frames of a shot: the middle of a figure
// or of a part. The way that it takes is its arc.
type Point struct {
	Name   string
	Figure int           // its id, of the middle of one; 0 of a part
	Start  int           // frame of At[0]
	At     []*[2]float64 // pixels of the clip; nil where it was not seen
}

// FigurePoint is the middle of a figure, of boxes a frame from start on: left, top, width
// and height, no width where it was not seen.
func FigurePoint(figure, start int, boxes [][4]float64) Point {
	p := Point{Name: fmt.Sprintf("figure %d", figure), Figure: figure, Start: start}
	for _, b := range boxes {
		if b[2] > 0 {
			p.add(&b)
		} else {
			p.add(nil)
		}
	}
	return p
}

// PartPoints are the middles of the parts that were shown by hand, shot by shot.
func (s *Sheet) PartPoints() (list []Point) {
	for _, part := range s.Parts {
		p := Point{Name: part.Name, Start: part.Start}
		for _, b := range part.Boxes {
			p.add(b)
		}
		list = append(list, p)
	}
	return list
}

func (p *Point) add(box *[4]float64) {
	if box == nil {
		p.At = append(p.At, nil)
		return
	}
	p.At = append(p.At, &[2]float64{box[0] + box[2]/2, box[1] + box[3]/2})
}

// End is the last frame of a point.
func (p Point) End() int { return p.Start + len(p.At) - 1 }

// Arc is where a point was on the frames from one to another, carried with the camera
// into the picture of a third: as it would have been drawn on glass that goes along with
// the world. nil stands for frames on which it was not seen; the frames are cut to those
// of the point, of which the third must be one.
func (s *Sheet) Arc(p Point, from, to, frame int) (start int, at []*[2]float64) {
	from, to = max(from, p.Start), min(to, p.End())
	for f := from; f <= to; f++ {
		spot := p.At[f-p.Start]
		if spot != nil {
			x, y := spot[0], spot[1]
			for k := f + 1; k <= frame; k++ {
				x, y = s.Carry(x, y, k)
			}
			for k := f; k > frame; k-- {
				x, y = s.CarryBack(x, y, k)
			}
			spot = &[2]float64{x, y}
		}
		at = append(at, spot)
	}
	return from, at
}
