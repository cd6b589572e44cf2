// Package strip gathers the ground strip of a shot: a thin band of the picture
// at ground level, laid into the camera's fixed frame of reference, one row a
// frame. Stacked over time, what stands on the ground makes an upright bar, what
// slides a leaning one, and what flies none. Frames come in with what was found
// to stand in them; rows of plain colours come out, and nothing is drawn here.
package strip

import "holdfast/motion/camera"

// A Strip is the ground strip of one shot. Frames count from the clip's first;
// columns are working pixels of the shot's first frame, and go on to either side
// of it where the camera turns or travels.
type Strip struct {
	Shot   int                 // index of the shot
	W, H   int                 // of the working picture
	Start  int                 // the shot's first frame
	Every  int                 // only frames that are multiples of it have rows; 1 for all
	Rows   []Row               // in order of their frames; none where nothing stands for a second before and after
	Path   []camera.Similarity // from the picture of each frame of the shot to the first's
	Height float64             // of the tallest figure, columns
	shift  float64             // what steady has taken out so far, columns
}

// A Row is the band of one frame.
type Row struct {
	Frame int
	X0    int // column of Cells[0]
	Cells []Cell
}

// A Cell is one column of a band.
type Cell struct {
	Y, Cb, Cr uint8 // mean of the figure where there is any, else of the bare ground
	Cover     uint8 // how much of the foot's thickness is figure: 0 bare ground, 255 all
}

// Column is where a place in the picture of a frame lies on the strip: working
// pixels. The frame must be one that the strip's way reaches.
func (s *Strip) Column(frame int, x, y float64) float64 {
	u, _ := s.place(frame, x, y)
	return u
}

// Reaches reports whether the strip knows where a frame lies.
func (s *Strip) Reaches(frame int) bool { return frame >= s.Start && frame-s.Start < len(s.Path) }

// Scale is the factor from working pixels of a frame to columns.
func (s *Strip) Scale(frame int) float64 { return s.Path[frame-s.Start].Scale() }

// place is where a place in the picture of a frame lies in the shot's first.
func (s *Strip) place(frame int, x, y float64) (float64, float64) {
	mx, my := float64(s.W-1)/2, float64(s.H-1)/2
	u, v := s.Path[frame-s.Start].Apply(x-mx, y-my)
	return u + mx, v + my
}

// cells is how many cells the strip holds.
func (s *Strip) cells() int {
	n := 0
	for i := range s.Rows {
		n += len(s.Rows[i].Cells)
	}
	return n
}

// thin drops every second row.
func (s *Strip) thin() {
	s.Every *= 2
	var kept []Row
	for _, r := range s.Rows {
		if r.Frame%s.Every == 0 {
			kept = append(kept, r)
		}
	}
	s.Rows = kept
}

// Budget is the most cells, of four bytes, that the strips of a clip hold
// together, 24 MB: over six minutes at 24 frames a second. The strip of a clip
// that is longer shows every second frame, or every fourth, and so on.
const Budget = 6 << 20

// Fit thins the strips of a clip, the fullest first, until they hold no more
// than a number of cells together.
func Fit(list []*Strip, budget int) {
	for {
		sum, most, fullest := 0, 0, -1
		for i, s := range list {
			n := s.cells()
			if sum += n; n > most && len(s.Rows) > 1 {
				most, fullest = n, i
			}
		}
		if sum <= budget || fullest < 0 {
			return
		}
		list[fullest].thin()
	}
}
