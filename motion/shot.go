package motion

import (
	"math"

	"holdfast/motion/beats"
	"holdfast/motion/camera"
	"holdfast/motion/figure"
	"holdfast/motion/picture"
	"holdfast/motion/poses"
	"holdfast/motion/strip"
	"holdfast/motion/travel"
)

// stretchFrames is the most frames kept at a time: twelve seconds at 24 a
// second, long enough for a figure to leave its place, in about 90 MB.
const stretchFrames = 288

// passingSeconds is how long a change may last that leaves no trace: a blink
// takes 0.1 to 0.4 seconds (A. Bentivoglio et al., "Analysis of Blink Rate
// Patterns in Normal Subjects", 1997).
const passingSeconds = 0.4

// passingFrames is the same in frames, from the last one before the change to
// the first one after.
func (o Options) passingFrames() int { return int(math.Round(passingSeconds*o.Rate)) + 1 }

// A step is what led from the frame before to this one.
type step struct {
	fit    camera.Fit
	travel *travel.Map // nil for the first frame of a clip
	change camera.Change
}

// A shot gathers frames and measures them in stretches.
type shot struct {
	o     Options
	look  int         // after how many frames a cut or join is told at the latest
	start int         // the shot's first frame
	first int         // the first frame kept
	join  camera.Join // what led to it; zero for a cut

	layers []*figure.Layer // the frames kept
	steps  []step          // and what led to them
	free   []*figure.Layer // for use again

	camera  []camera.Similarity // all steps of the shot so far, but for the kept
	series  rawSeries           // likewise
	figures []Figure

	contacts []Contact
	flights  []Flight
	impacts  []Impact
	outside  []Outside
	trails   []Trail
	shapes   []poses.Shape // the figure's silhouette on each frame of the shot so far
	halves   halves        // likewise, of its halves
	bands    []Bands       // travel of the bands on each frame of the shot so far, pixels
	pops     []figure.Pop  // frames of the clip, pixels
	unseen   bool          // a figure was shown and none is there
	handed   []figure.Mark // where shown figures were last, for the next stretch
	parts    []*partTrack
	strip    *strip.Strip
	bars     *barKeeper // of the whole clip
}

// rawSeries is the travel of a shot's figures in pixels, with the height they
// are measured by.
type rawSeries struct {
	max, mean []float64 // pixels
	pace      []float64 // pixels: of what moves, the faster the heavier
	wide      []float64 // pixels: of what goes farthest over an area
	noise     []float64 // pixels: what the still world shows
	wideNoise []float64 // pixels: what it shows over an area
	broad     []float64 // pixels: what it shows over an area of any figure
	unlike    []float64 // levels: how much the still world differs
	passing   []bool    // what travelled was a spot that soon looks as before
	heights   []float64 // pixels, one a stretch
	weights   []float64 // frames of the stretch
}

func newShot(o Options, look, start int, bars *barKeeper) *shot {
	return &shot{o: o, look: look, start: start, first: start, strip: strip.New(o.Size.X, o.Size.Y, start), bars: bars}
}

func (s *shot) close() {
	for _, l := range append(s.layers, s.free...) {
		l.Close()
	}
	s.layers, s.free = nil, nil
}

// add takes the next frame, measuring the stretch so far where it is full.
func (s *shot) add(p *picture.Picture, st step) error {
	if len(s.layers) >= stretchFrames {
		// A cut may yet turn out to lie among the last of them.
		if err := s.flush(s.look); err != nil {
			return err
		}
	}
	l, err := s.layer(p)
	if err != nil {
		return err
	}
	if err := l.Set(p); err != nil {
		l.Close()
		return err
	}
	s.layers, s.steps = append(s.layers, l), append(s.steps, st)
	return nil
}

func (s *shot) layer(p *picture.Picture) (*figure.Layer, error) {
	if n := len(s.free); n > 0 {
		l := s.free[n-1]
		s.free = s.free[:n-1]
		return l, nil
	}
	return figure.NewLayer(p.CW(), p.CH())
}

// split takes the frames from the given one on out of s into a shot of their
// own.
func (s *shot) split(frame int) (*shot, error) {
	k := frame - s.first
	rest := newShot(s.o, s.look, frame, s.bars)
	rest.layers = append(rest.layers, s.layers[k:]...)
	rest.steps = append(rest.steps, s.steps[k:]...)
	rest.free, s.free = s.free, nil
	// What led to the first frame is the cut and no step.
	rest.steps[0] = step{fit: camera.Fit{Motion: camera.Identity, Gain: 1}, change: rest.steps[0].change}
	s.layers, s.steps = s.layers[:k:k], s.steps[:k:k]
	return rest, nil
}

// flush measures all but the last keep of the frames kept and lets them go, in
// as many pieces as the camera's way needs plates.
func (s *shot) flush(keep int) error {
	for len(s.layers) > keep {
		path := s.path()[:len(s.layers)-keep]
		if err := s.measureFirst(figure.Fits(s.o.Size.X, s.o.Size.Y, path), path); err != nil {
			return err
		}
	}
	return nil
}

// measureFirst measures the first n of the frames kept and lets them go.
func (s *shot) measureFirst(n int, path []camera.Similarity) error {
	maps := make([]*travel.Map, n)
	for i := range maps {
		maps[i] = s.steps[i].travel
	}
	found, err := s.find(path[:n], maps)
	if err != nil {
		return err
	}
	who := s.known(found)
	if err := s.stand(found, who, path[:n], maps); err != nil {
		return err
	}
	s.take(found, who, maps)
	s.pose(found)
	s.band(found, maps)
	s.halve(found, maps)
	if err := s.follow(found, path[:n]); err != nil {
		return err
	}
	limit := beats.StillShare * found.Height()
	s.series.passing = append(s.series.passing,
		figure.Passing(s.layers[:n], path[:n], maps, found.Regions, limit, s.o.passingFrames())...)
	s.pop(found, path[:n], maps, limit)
	for i := range n {
		s.camera = append(s.camera, s.steps[i].fit.Motion)
	}
	s.first += n
	s.free = append(s.free, s.layers[:n]...)
	s.layers, s.steps = s.layers[n:], s.steps[n:]
	return nil
}

// path is the camera's way from the first kept frame to each.
func (s *shot) path() []camera.Similarity {
	path := []camera.Similarity{camera.Identity}
	for i := 1; i < len(s.steps); i++ {
		path = append(path, path[i-1].Then(s.steps[i].fit.Motion))
	}
	return path
}

// take adds what was found in a stretch to the shot, whose figures who says.
func (s *shot) take(found *figure.Found, who []int, maps []*travel.Map) {
	tallest := found.Height()
	area := areaNeighbours(tallest)
	for t, m := range maps {
		top, wide := farthestOf(found, maps, t), found.Top[t]
		var noise, wideNoise, broad, unlike float64
		if m != nil {
			region := found.Regions[max(0, t-1)]
			wide = max(wide, farthest(m, region, area))
			noise, wideNoise = worldNoise(m, region, 1), worldNoise(m, region, area)
			broad, unlike = worldNoise(m, region, areaMost), m.Noise
		}
		s.series.max, s.series.wide = append(s.series.max, top), append(s.series.wide, wide)
		// No mean lies over the most: where a light changes, or the figure all but
		// goes out of sight, the work of carrying it says nothing of its travel.
		s.series.mean = append(s.series.mean, min(top, found.Mean[t]))
		s.series.pace = append(s.series.pace, min(top, found.Pace[t]))
		s.series.noise = append(s.series.noise, noise)
		s.series.wideNoise, s.series.broad = append(s.series.wideNoise, wideNoise), append(s.series.broad, broad)
		s.series.unlike = append(s.series.unlike, unlike)
	}
	s.series.bridge(found.Hidden)
	for k, f := range found.Figures {
		g := Figure{
			Start: s.first + f.Start, End: s.first + f.End(), HeightPx: f.HeightPx, Rooted: f.Rooted,
			Method: found.Method, Boxes: f.Boxes, Bare: bare(found, k), Own: s.own(found, k, maps),
		}
		if who[k] < len(s.figures) {
			s.figures[who[k]].goOn(g)
		} else {
			s.figures = append(s.figures, g)
		}
	}
	if tallest > 0 {
		s.series.heights = append(s.series.heights, tallest)
		s.series.weights = append(s.series.weights, float64(len(maps)))
	}
}

// farthestOf is how far the part of any figure that goes farthest goes on the way
// to frame t, pixels.
func farthestOf(found *figure.Found, maps []*travel.Map, t int) float64 {
	if maps[t] == nil {
		return found.Top[t]
	}
	// A step shows where things were as well as where they went.
	return max(found.Top[t], farthest(maps[t], found.Regions[max(0, t-1)], 1))
}

// bridge fills in the last steps of r where they are hidden: what goes on before
// and after goes on behind what passes, what rests on either side rests.
func (r *rawSeries) bridge(hidden []bool) {
	first := len(r.max) - len(hidden)
	for start := 0; start < len(hidden); {
		end := start
		for end < len(hidden) && hidden[end] {
			end++
		}
		if end > start && start > 0 && end < len(hidden) {
			for _, v := range [][]float64{r.max, r.mean, r.pace, r.wide} {
				v = v[first:]
				for i := start; i < end; i++ {
					v[i] = min(v[start-1], v[end])
				}
			}
		}
		start = end + 1
	}
}

// farthest is the largest travel inside a region that so many neighbours bear
// out, pixels.
func farthest(m *travel.Map, r figure.Region, neighbours int) float64 {
	top := 0.0
	for i, in := range r.Cells {
		if in {
			top = max(top, m.BorneOut(i, neighbours))
		}
	}
	return top
}

// measure ends the shot and adds it to the result.
func (s *shot) measure(r *Result) error {
	if err := s.flush(0); err != nil {
		return err
	}
	index := len(r.Shots)
	n := len(s.camera)
	r.Shots = append(r.Shots, Shot{Start: s.start, End: s.start + n - 1, Join: s.join,
		Camera: camera.Summarise(s.camera, s.o.Size.X, s.o.Size.Y, s.o.Rate)})
	for _, c := range s.camera {
		r.Curve.Camera = append(r.Curve.Camera, c.Step())
	}
	if s.unseen {
		r.Warnings = append(r.Warnings, nothingShown)
	}
	s.scaleOwn(s.o.Rate)
	for _, f := range s.figures {
		f.ID, f.Shot = len(r.Figures)+1, index
		r.Figures = append(r.Figures, f)
	}
	s.ground(r, index)
	height := s.series.height(s.o.Size.Y)
	series := s.series.scaled(height, s.o.Rate)
	r.pop(s.pops, index, height)
	s.addParts(r, index, height)
	r.Curve.Motion = append(r.Curve.Motion, series.Mean...)
	s.halves.over(height)
	r.halves = append(r.halves, s.halves)
	for _, b := range s.bands {
		r.Curve.Bands = append(r.Curve.Bands, b.over(height))
	}
	r.Curve.Farthest = append(r.Curve.Farthest, series.Max...)
	r.series, r.shapes = append(r.series, series), append(r.shapes, s.shapes)
	r.unlike = append(r.unlike, s.series.unlike...)
	return nil
}

// wholePicture is the height, as a share of the picture's, that stands in for
// a figure's where nothing moved in the whole shot.
const wholePicture = 0.5

// height is the mean height over the stretches of a shot, pixels.
func (r *rawSeries) height(picture int) float64 {
	sum, n := 0.0, 0.0
	for i, h := range r.heights {
		sum, n = sum+h*r.weights[i], n+r.weights[i]
	}
	if n == 0 {
		return wholePicture * float64(picture)
	}
	return sum / n
}

// scaled returns the series in figure heights.
func (r *rawSeries) scaled(height, rate float64) (s beats.Series) {
	s = r.floors(height, rate)
	s.Max, s.Wide = over(r.max, height), over(r.wide, height)
	s.Mean, s.Pace = over(r.mean, height), over(r.pace, height)
	return s
}

// floors are what the still world shows against figures of a height; they are the
// same for all curves of a shot.
func (r *rawSeries) floors(height, rate float64) beats.Series {
	noise, wide, broad := over(r.noise, height), over(r.wideNoise, height), over(r.broad, height)
	return beats.Series{
		Floor: beats.Floors(noise, broad, rate), WideFloor: beats.WideFloors(wide, broad, rate), Passing: r.passing,
	}
}

// over is a list with every value divided by a length.
func over(list []float64, length float64) []float64 {
	shares := make([]float64, len(list))
	for i, v := range list {
		shares[i] = v / length
	}
	return shares
}
