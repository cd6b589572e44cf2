package strip

import (
	"math"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/figure"
)

func filled(start, rows, cells int) *Strip {
	s := New(64, 36, start)
	for i := range rows {
		s.Rows = append(s.Rows, Row{Frame: start + i, Cells: make([]Cell, cells)})
	}
	return s
}

func TestFitThinsTheFullest(t *testing.T) {
	long, short := filled(100, 80, 10), filled(0, 20, 10)
	Fit([]*Strip{short, long}, 450)
	if len(short.Rows) != 20 || short.Every != 1 {
		t.Errorf("the short one has %d rows, every %d", len(short.Rows), short.Every)
	}
	// 100 to 179: those that are multiples of 4.
	if len(long.Rows) != 20 || long.Every != 4 || long.Rows[0].Frame != 100 || long.Rows[19].Frame != 176 {
		t.Errorf("the long one has %d rows, every %d, from %d", len(long.Rows), long.Every, long.Rows[0].Frame)
	}
}

func TestFitEnds(t *testing.T) {
	list := []*Strip{filled(1, 1, 10), filled(2, 1, 10), New(4, 4, 0)}
	Fit(list, 5)
	if len(list[0].Rows) != 1 || len(list[1].Rows) != 1 {
		t.Error("a single row cannot be thinned")
	}
}

func TestColumnTakesTheCameraOut(t *testing.T) {
	s := New(64, 36, 10)
	pan := camera.Similarity{A: 1, TX: -5} // the picture moved left by 5
	s.Add(&Frames{First: 10, Rate: 24, Path: []camera.Similarity{camera.Identity, pan, pan.Then(pan)}}, nil)
	for i, x := range []float64{40, 35, 30} {
		if got := s.Column(10+i, x, 20); math.Abs(got-40) > 1e-9 {
			t.Errorf("frame %d: column %g", 10+i, got)
		}
	}
	if !s.Reaches(12) || s.Reaches(13) || s.Reaches(9) {
		t.Error("reaches the wrong frames")
	}
}

// footFrames are frames of 64 by 36 in which a foot 8 wide and 4 high stands on
// row 20 (as its lowest) at the given columns.
func footFrames(t *testing.T, path []camera.Similarity, columns []int) *Frames {
	t.Helper()
	f := &Frames{First: 0, Rate: 24, Path: path}
	for _, x := range columns {
		l, err := figure.NewLayer(32, 18)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(l.Close)
		l.Luma = make([]uint8, 64*36)
		body := figure.Silhouette{W: 32, H: 18, Words: make([]uint64, (32*18+63)/64)}
		for y := 17; y <= 20; y++ {
			for i := x - 4; i < x+4; i++ {
				l.Luma[y*64+i] = 200
				k := y/2*32 + i/2
				body.Words[k/64] |= 1 << (k % 64)
			}
		}
		f.Layers, f.Bodies = append(f.Layers, l), append(f.Bodies, body)
	}
	return f
}

// A camera on rails: the set behind goes 2 pixels left a frame, the ground at
// the feet 4. The foot stands, and its bar must be upright.
func TestGroundBesideThePathIsTakenOut(t *testing.T) {
	var path []camera.Similarity
	var columns []int
	for i := range 8 {
		path = append(path, camera.Similarity{A: 1, TX: -2 * float64(i)})
		columns = append(columns, 50-4*i)
	}
	s := New(64, 36, 0)
	s.Add(footFrames(t, path, columns), []Spot{{Start: 0, End: 7, X: 50, Y: 20, LastX: 22, LastY: 20, Height: 100}})
	if len(s.Rows) != 8 {
		t.Fatalf("%d rows", len(s.Rows))
	}
	for _, r := range s.Rows {
		left, right := covered(r)
		if left != 46 || right != 53 {
			t.Errorf("frame %d: foot on columns %d to %d", r.Frame, left, right)
		}
	}
}

// The same picture, but the contact is known to slip by what it goes: the ground
// keeps still and the bar leans.
func TestSlipIsNotTakenOut(t *testing.T) {
	path := make([]camera.Similarity, 8)
	var columns []int
	for i := range path {
		path[i] = camera.Identity
		columns = append(columns, 50-4*i)
	}
	s := New(64, 36, 0)
	s.Add(footFrames(t, path, columns), []Spot{{Start: 0, End: 7, X: 50, Y: 20, LastX: 22, LastY: 20, Slip: -28, Height: 100}})
	for i, r := range s.Rows {
		if left, _ := covered(r); left != 46-4*i {
			t.Errorf("frame %d: foot from column %d", i, left)
		}
	}
}

func covered(r Row) (left, right int) {
	left, right = -1, -1
	for i, c := range r.Cells {
		if c.Cover < 128 {
			continue
		}
		if left < 0 {
			left = r.X0 + i
		}
		right = r.X0 + i
	}
	return left, right
}
