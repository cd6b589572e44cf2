package parts

import (
	"image"
	"math"

	"holdfast/motion/camera"
	"holdfast/motion/flow"
)

const (
	// likeSame is how like a part must be to one of its pictures for its place to be
	// set right by it, likeLost how unlike to all of them for it to be lost, and
	// likeFound how like for it to be found again after that.
	likeSame, likeLost, likeFound = 0.8, 0.45, 0.75
	// likeStep is how like a part must be to what it was on the frame before for a new
	// picture of it to be kept: what slides before it changes it by more.
	likeStep = 0.8
	// mostLooks is how many pictures of a part are kept, those shown by hand first.
	mostLooks = 8
	// nudge is how far, pixels, a picture of it may set its place right.
	nudge = 3
	// searchSides is how far around its last place, in sides of its box, a lost part is
	// looked for at once, and searchGrows by how much farther on each frame after.
	searchSides, searchGrows = 1.0, 0.25
	// fullLeast is the share of a box shown by hand that must be a figure's for the
	// figure to say where it can be, and fullKept how much of that must stay.
	fullLeast, fullKept = 0.2, 0.4
	// likeLeap is how like a part must be to what it was on the frame before to be
	// found there where its points lost it, and leapSides how far around, in sides of
	// its box, it is looked for: a hand goes by its own length between frames.
	likeLeap, leapSides = 0.6, 2.0
	// astrayShare is how far apart, in shares of the shorter side, two places of a part
	// are that contradict each other.
	astrayShare = 0.5
	// leastSide is the smallest side of a part, pixels: less has no picture of its own.
	leastSide = 4
)

// A Follower follows one part through the stretches of a shot.
type Follower struct {
	Name           string
	Gaze           Gaze
	last           *image.Gray // the frame before the next stretch
	box            Box         // where the part was seen last
	seen           bool        // and whether that was on the last frame
	gone           int         // frames since
	looks          []look
	full           float64 // share of the box that was a figure's where it was shown; 0: not known
	shareX, shareY float64 // sides of eyes in shares of what they are followed by
	vx, vy         float64 // its last way from frame to frame, pixels
}

// A look is a picture of the part as it was.
type look struct {
	*image.Gray
	box Box // on whole pixels
}

// NewFollower returns one that knows nothing yet.
func NewFollower(name string, gaze Gaze) *Follower { return &Follower{Name: name, Gaze: gaze} }

// Follow follows the part through the next stretch: on from where it was, and both
// ways from each of the marks, which are in order of their frames. still is the way
// of the still world from the last frame of the stretch before.
func (f *Follower) Follow(s *Stretch, marks []Mark, still camera.Similarity) ([]Step, error) {
	steps := make([]Step, len(s.Luma))
	for t := range steps {
		steps[t] = Unseen()
	}
	last, lastBox := f.last, f.inner(f.box)
	if !f.seen {
		lastBox = Box{}
	}
	next, half := marks, 0
	for t := range steps {
		if len(next) > 0 && next[0].Frame == t {
			b := f.outer(next[0].Box)
			next = next[1:]
			f.show(s.gray(t), b, s.on(t))
			steps[t].Box = b
			if err := f.enter(s, steps, t, still); err != nil {
				return nil, err
			}
			if err := f.back(s, steps, t, (half+t)/2); err != nil {
				return nil, err
			}
			half = t
			continue
		}
		if len(f.looks) == 0 {
			continue
		}
		if err := f.forth(s, steps, t, still); err != nil {
			return nil, err
		}
	}
	s.join(steps)
	for t := range steps {
		steps[t].Box = f.inner(steps[t].Box)
	}
	if err := f.gaze(s, steps, still, last, lastBox); err != nil {
		return nil, err
	}
	if n := len(s.Luma); n > 0 {
		f.last = flow.Crop(s.gray(n-1), image.Rect(0, 0, s.W, s.H))
	}
	return steps, nil
}

// join measures the steps on which what was followed forth meets what was followed
// back, by where the part is on both sides.
func (s *Stretch) join(steps []Step) {
	for t := 1; t < len(steps); t++ {
		a, b := steps[t-1].Box, steps[t].Box
		if a.Empty() || b.Empty() || !math.IsNaN(steps[t].Travel) {
			continue
		}
		if before := steps[t-1]; !math.IsNaN(before.Travel) {
			a = a.moved(before.DX, before.DY, 1)
		}
		if a.apart(b) > astrayShare*min(a.W, a.H) {
			continue
		}
		a = steps[t-1].Box
		m, n := a.middle(), b.middle()
		cx, cy := s.World(t-1, t, m.X, m.Y)
		steps[t].take(way{dx: n.X - m.X, dy: n.Y - m.Y, cx: cx, cy: cy, travel: math.Hypot(n.X-m.X-cx, n.Y-m.Y-cy)}, 1)
	}
}

// outer is the box by which a part is followed: eyes go their own way, so they are
// followed by the head around them.
func (f *Follower) outer(b Box) Box {
	if f.Gaze != EyesGaze {
		return b
	}
	d := around(b)
	f.shareX, f.shareY = b.W/(b.W+2*d), b.H/(b.H+2*d)
	return Box{b.X - d, b.Y - d, b.W + 2*d, b.H + 2*d}
}

// inner undoes outer.
func (f *Follower) inner(b Box) Box {
	if f.Gaze != EyesGaze || b.Empty() {
		return b
	}
	w, h := b.W*f.shareX, b.H*f.shareY
	m := b.middle()
	return Box{m.X - w/2, m.Y - h/2, w, h}
}

// gaze measures where the part looks on all steps over which it was seen. last and
// box are the frame before the stretch and where the part was on it.
func (f *Follower) gaze(s *Stretch, steps []Step, still camera.Similarity, last *image.Gray, box Box) error {
	if f.Gaze == NoGaze {
		return nil
	}
	for t := range steps {
		from := last
		if t > 0 {
			from, box = s.gray(t-1), steps[t-1].Box
		}
		st := &steps[t]
		if from == nil || box.Empty() || math.IsNaN(st.Travel) {
			continue
		}
		h := hop{from, s.gray(t), s.still(t-1, t, still), s.on(t - 1), s.on(t)}
		m, n := box.middle(), st.Box.middle()
		x, y, ok, err := f.Gaze.looks(h, box, flow.Point{X: n.X - m.X, Y: n.Y - m.Y})
		if err != nil {
			return err
		}
		if ok {
			st.LookX, st.LookY = x, y
		}
	}
	return nil
}

// show takes a part as it was shown by hand.
func (f *Follower) show(p *image.Gray, b Box, on func(x, y int) bool) {
	f.box, f.seen, f.gone = b, true, 0
	f.vx, f.vy = 0, 0
	if f.full = filled(b, on); on == nil || f.full < fullLeast {
		f.full = 0 // nothing stands out there
	}
	if l, ok := picture(p, b); ok {
		// It goes before those that were learned on the way.
		f.looks = append([]look{l}, f.looks...)
		f.looks = f.looks[:min(len(f.looks), mostLooks)]
	}
}

// enter measures the step to a frame on which the part was shown, where it was seen
// on the one before as well.
func (f *Follower) enter(s *Stretch, steps []Step, t int, still camera.Similarity) error {
	if t == 0 || !steps[t-1].Seen() {
		return nil
	}
	b := steps[t-1].Box
	h := hop{s.gray(t - 1), s.gray(t), s.still(t-1, t, still), s.on(t - 1), s.on(t)}
	w, ok, err := (&Follower{box: b}).byPoints(h, steps[t].Box)
	if err == nil && ok {
		steps[t].take(w, 1)
	}
	return err
}

// byPoints is the way by points that leads nearest to a box.
func (f *Follower) byPoints(h hop, to Box) (best way, ok bool, err error) {
	ways, err := walk(h, f.box, flow.Point{X: to.middle().X - f.box.middle().X, Y: to.middle().Y - f.box.middle().Y})
	for _, w := range ways {
		if !ok || f.box.moved(w.dx, w.dy, 1).apart(to) < f.box.moved(best.dx, best.dy, 1).apart(to) {
			best, ok = w, true
		}
	}
	return best, ok, err
}

// take notes how the part went; sign is -1 where it was followed backwards.
func (s *Step) take(w way, sign float64) {
	s.DX, s.DY, s.Travel = sign*(w.dx-w.cx), sign*(w.dy-w.cy), w.travel
}

// forth follows the part to frame t from the one before, or looks for it there.
func (f *Follower) forth(s *Stretch, steps []Step, t int, still camera.Similarity) error {
	from := f.last
	if t > 0 {
		from = s.gray(t - 1)
	}
	if f.seen && from != nil {
		b, w, ok, err := f.step(hop{from, s.gray(t), s.still(t-1, t, still), s.on(t - 1), s.on(t)})
		if err != nil {
			return err
		}
		if ok {
			f.box = b
			steps[t].Box = b
			steps[t].take(w, 1)
			return nil
		}
	}
	f.seen = false
	f.gone++
	b, ok, err := f.seek(s.gray(t), s.on(t))
	if ok {
		f.box, f.seen, f.gone = b, true, 0
		steps[t].Box = b
	}
	return err
}

// back follows the part backwards from frame t, where it was shown, over what was
// followed before down to frame half, and from there where it was not seen.
func (f *Follower) back(s *Stretch, steps []Step, t, half int) error {
	g := &Follower{Name: f.Name, box: f.box, seen: true, looks: append([]look(nil), f.looks...), full: f.full}
	astray := false // what was followed before is elsewhere
	for k := t - 1; k >= 0 && (k > half || !steps[k].Seen()); k-- {
		if g.seen {
			b, w, ok, err := g.step(hop{s.gray(k + 1), s.gray(k), s.still(k+1, k, camera.Identity), s.on(k + 1), s.on(k)})
			if err != nil {
				return err
			}
			if ok {
				astray = steps[k].Seen() && b.apart(steps[k].Box) > astrayShare*min(b.W, b.H)
				g.box = b
				steps[k].Box = b
				steps[k+1].take(w, -1)
				continue
			}
		}
		if steps[k].Seen() && !astray {
			break // what came from the other side is as good
		}
		if steps[k].Seen() {
			// Neither is to be trusted.
			at := steps[k+1].Box
			steps[k], steps[k+1] = Unseen(), Unseen()
			steps[k+1].Box = at
			continue
		}
		g.seen = false
		g.gone++
		b, ok, err := g.seek(s.gray(k), s.on(k))
		if err != nil {
			return err
		}
		if ok {
			g.box, g.seen, g.gone = b, true, 0
			steps[k].Box = b
		}
	}
	// What was learned on the way back is of use after as well.
	f.looks = g.looks
	return nil
}

// A hop is what a part is followed over: two pictures, the way of the still world
// between them, and what of each is a figure's.
type hop struct {
	from, to        *image.Gray
	still           camera.Similarity
	onFrom, onThere func(x, y int) bool
}

// step follows the part from one picture to the next and sets its place right. Of
// the ways that lead to where it can be, by its points or by its picture, it takes
// the one that leads to what is most like it.
func (f *Follower) step(h hop) (at Box, by way, ok bool, err error) {
	before, ok := picture(h.from, f.box)
	if !ok {
		return Box{}, way{}, false, nil
	}
	ways, err := f.ways(h, before)
	if err != nil {
		return Box{}, way{}, false, err
	}
	most := -1.0
	for _, w := range ways {
		b := f.box.moved(w.dx, w.dy, w.scale)
		if !f.fits(b, h.to, h.onThere) {
			continue
		}
		if _, like, err := before.near(h.to, b); err != nil {
			return Box{}, way{}, false, err
		} else if like > most {
			at, by, most = b, w, like
		}
	}
	if most < 0 {
		return Box{}, way{}, false, nil
	}
	if at, ok, err = f.right(h, most, at); err == nil && ok {
		f.vx, f.vy = by.dx, by.dy
	}
	return at, by, ok, err
}

// ways are the ways on which the part may have gone: by its points, looked for where
// they were and where it was going, and by its picture.
func (f *Follower) ways(h hop, before look) ([]way, error) {
	var list []way
	guesses := []flow.Point{{X: f.vx, Y: f.vy}}
	if math.Hypot(f.vx, f.vy) > stirs {
		guesses = append(guesses, flow.Point{})
	}
	for _, guess := range guesses {
		ways, err := walk(h, f.box, guess)
		if err != nil {
			return nil, err
		}
		list = append(list, ways...)
	}
	if len(list) > 0 {
		return list, nil
	}
	w, ok, err := f.byPicture(h, before)
	if ok {
		list = append(list, w)
	}
	return list, err
}

// byPicture is its way by what it looked like on the frame before, for steps too
// wide for points.
func (f *Follower) byPicture(h hop, before look) (way, bool, error) {
	m := f.box.middle()
	rx, ry := leapSides*f.box.W, leapSides*f.box.H
	x, y := before.box.X+f.vx, before.box.Y+f.vy
	b, like, err := before.within(h.to, before.box, image.Rect(int(x-rx), int(y-ry), int(x+rx)+1, int(y+ry)+1))
	if err != nil || like < likeLeap {
		return way{}, false, err
	}
	w := way{dx: b.X - before.box.X, dy: b.Y - before.box.Y, scale: 1}
	w.cx, w.cy = worldStep(h.still, m, h.from.Rect.Size())
	w.travel = math.Hypot(w.dx-w.cx, w.dy-w.cy)
	return w, true, nil
}

// right sets the part's place right by its pictures, the first that is like it, and
// keeps a new picture where none is. It is false where it is like none. alike is how like it is to what it was on the frame before.
func (f *Follower) right(h hop, alike float64, b Box) (Box, bool, error) {
	best := 0.0
	for _, l := range f.looks {
		right, like, err := l.near(h.to, b)
		if err != nil {
			return Box{}, false, err
		}
		best = max(best, like)
		if like >= likeSame {
			return right, true, nil
		}
	}
	if best < likeLost {
		return Box{}, false, nil
	}
	if alike >= likeStep && len(f.looks) < mostLooks {
		if l, ok := picture(h.to, b); ok {
			f.looks = append(f.looks, l)
		}
	}
	return b, true, nil
}

// fits reports whether a part can be there: its middle in the picture, on a figure if
// it was on one, its size within a factor of three of that it was shown at.
func (f *Follower) fits(b Box, p *image.Gray, on func(x, y int) bool) bool {
	if on != nil && f.full > 0 && filled(b, on) < fullKept*f.full {
		return false
	}
	m := b.middle()
	size := f.looks[0].box.W * f.looks[0].box.H
	return m.X >= 0 && m.Y >= 0 && m.X < float64(p.Rect.Dx()) && m.Y < float64(p.Rect.Dy()) &&
		b.W*b.H < 9*size && 9*b.W*b.H > size
}

// picture keeps what a picture shows in a box.
func picture(p *image.Gray, b Box) (look, bool) {
	r := b.pixels().Intersect(image.Rectangle{Max: p.Rect.Size()})
	if r.Dx() < leastSide || r.Dy() < leastSide {
		return look{}, false
	}
	return look{flow.Crop(p, r), Box{float64(r.Min.X), float64(r.Min.Y), float64(r.Dx()), float64(r.Dy())}}, true
}

// near looks for a look close to where the part should be, and returns the box it
// says, of the size of b.
func (l look) near(p *image.Gray, b Box) (Box, float64, error) {
	m := b.middle()
	x, y := int(math.Round(m.X-l.box.W/2)), int(math.Round(m.Y-l.box.H/2))
	return l.within(p, b, image.Rect(x-nudge, y-nudge, x+nudge+1, y+nudge+1))
}

func (l look) within(p *image.Gray, b Box, area image.Rectangle) (Box, float64, error) {
	at, like, err := flow.Seek(l.Gray, p, area)
	m := b.middle()
	return b.moved(at.X+l.box.W/2-m.X, at.Y+l.box.H/2-m.Y, 1), like, err
}

// seek looks for the lost part around where it was last.
func (f *Follower) seek(p *image.Gray, on func(x, y int) bool) (Box, bool, error) {
	reach := searchSides + searchGrows*float64(f.gone)
	m := f.box.middle()
	var best Box
	most := likeFound
	for _, l := range f.looks {
		rx, ry := reach*f.box.W, reach*f.box.H
		x, y := m.X-l.box.W/2, m.Y-l.box.H/2
		area := image.Rect(int(x-rx), int(y-ry), int(x+rx)+1, int(y+ry)+1)
		b, like, err := l.within(p, l.box, area)
		if err != nil {
			return Box{}, false, err
		}
		if like > most && f.fits(b, p, on) {
			best, most = b, like
		}
	}
	return best, !best.Empty(), nil
}

// still is the way of the still world from frame a to frame t; before is that from
// the stretch before.
func (s *Stretch) still(a, t int, before camera.Similarity) camera.Similarity {
	if a < 0 {
		return before
	}
	return s.Path[a].Inverse().Then(s.Path[t])
}

// on says of the pixels of frame t whether they are a figure's; nil where nothing is
// known.
func (s *Stretch) on(t int) func(x, y int) bool {
	if s.On == nil || t < 0 {
		return nil
	}
	return func(x, y int) bool { return s.On(t, x, y) }
}

// Settings are the thresholds that decide how a part is followed.
func Settings() map[string]any {
	return map[string]any{
		"part_points":       gridSide * gridSide,
		"part_missed_share": missedShare,
		"part_like_same":    likeSame,
		"part_like_lost":    likeLost,
		"part_like_found":   likeFound,
	}
}
