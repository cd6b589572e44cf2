package draw

import (
	"image"
	"testing"

	"holdfast/sheet"
)

// A point that stands in the picture, under a camera that turns two pixels a frame to
// the right, goes right through the world. In the picture of a frame its arc reaches to
// the left for what has been and to the right for what comes, through the beat with the
// poses on either side.
func TestArcsLieInThePictureOfTheirFrame(t *testing.T) {
	s := marked()
	s.Notes, s.Flights, s.Contacts = nil, nil, nil
	size := image.Pt(640, 360)
	boxes := make([][4]float64, s.Clip.Frames)
	for i := range boxes {
		boxes[i] = [4]float64{310, 170, 20, 40}
	}
	o := NewOverlay(s, size, false).Tracing([]sheet.Point{sheet.FigurePoint(1, 101, boxes)})
	middle := image.Rect(0, 185, 640, 360) // below the number of the peak
	for _, c := range []struct{ frame, left, right int }{
		{101, 0, 26}, {113, 12, 14}, {126, 25, 1}, // the hold goes to 126, the pose after it comes on 127
		{127, 1, 33}, {160, 34, 0},
	} {
		f, bare := grey(size, 90), grey(size, 90)
		o.Mark(f, c.frame-101)
		r := changed(f, bare, middle)
		if left, right := 320-2*c.left, 320+2*c.right; r.Min.X > left || r.Min.X < left-6 || r.Max.X < right || r.Max.X > right+6 {
			t.Errorf("frame %d: the arc goes from %d to %d, want from %d to %d", c.frame, r.Min.X, r.Max.X, left, right)
		}
		if v := f.Y[f.YOffset(320, 190)]; v < 200 {
			t.Errorf("frame %d: no light dot where the point is, but %d", c.frame, v)
		}
	}
}

// A point that is not seen breaks its arc, and one of another shot has none.
func TestArcsOfWhatIsNotSeen(t *testing.T) {
	s := marked()
	s.Notes, s.Flights, s.Contacts = nil, nil, nil
	size := image.Pt(640, 360)
	unseen := sheet.Point{Start: 101, At: make([]*[2]float64, s.Clip.Frames)}
	later := sheet.FigurePoint(2, 150, [][4]float64{{300, 200, 20, 20}, {300, 200, 20, 20}})
	f, bare := grey(size, 90), grey(size, 90)
	NewOverlay(s, size, false).Tracing([]sheet.Point{unseen, later}).Mark(f, 20)
	if r := changed(f, bare, image.Rect(0, 60, 640, 360)); !r.Empty() {
		t.Errorf("something is drawn at %v", r)
	}
}
