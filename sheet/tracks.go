package sheet

// A track is the beats of one figure in one shot, in order.
type track struct {
	shot, figure int
	beats        []Beat
	first, last  int // frames of the shot
}

// tracks returns the beats that stand for the whole picture figure by figure and
// shot by shot, in the order they first come: what a figure does is in them too, and
// is told once.
func (s *Sheet) tracks() []track {
	var all []track
	place := map[[2]int]int{}
	for _, b := range s.Leading() {
		key := [2]int{b.Shot, b.Figure}
		k, ok := place[key]
		if !ok {
			k = len(all)
			place[key] = k
			shot := s.Shots[b.Shot-1]
			all = append(all, track{shot: b.Shot, figure: b.Figure, first: shot.Start, last: shot.End})
		}
		all[k].beats = append(all[k].beats, b)
	}
	return all
}

// whole reports whether both ends of a beat lie within its shot.
func (t track) whole(b Beat) bool { return b.Start > t.first && b.End < t.last }

// accents are the frames on which something new sets in: a move, or a pose that
// takes the place of another at once. The shot's first frame is none.
func (t track) accents() []int {
	var list []int
	for i, b := range t.beats {
		if b.Start > t.first && (b.Kind == KindMove || i > 0 && t.beats[i-1].Kind == KindHold) {
			list = append(list, b.Start)
		}
	}
	return list
}

// intervals are the frames from accent to accent.
func (t track) intervals() []float64 {
	var list []float64
	accents := t.accents()
	for i := 1; i < len(accents); i++ {
		list = append(list, float64(accents[i]-accents[i-1]))
	}
	return list
}

// lengths are those of the whole beats.
func (t track) lengths() []float64 {
	var list []float64
	for _, b := range t.beats {
		if t.whole(b) {
			list = append(list, float64(b.Frames))
		}
	}
	return list
}

// moves are the whole ones that have a size.
func (t track) moves() []Beat {
	var list []Beat
	for _, b := range t.beats {
		if b.Kind == KindMove && b.Size != nil && t.whole(b) {
			list = append(list, b)
		}
	}
	return list
}

func (t track) sizes() []float64 {
	var list []float64
	for _, b := range t.moves() {
		list = append(list, *b.Size)
	}
	return list
}

// movingRuns are the stretches of moves that no hold parts.
func (t track) movingRuns() []Stretch {
	var list []Stretch
	held := true
	for _, b := range t.beats {
		switch {
		case b.Kind == KindHold:
		case held:
			list = append(list, Stretch{b.Start, b.End, b.Frames})
		default:
			run := &list[len(list)-1]
			run.End, run.Frames = b.End, b.End-run.Start+1
		}
		held = b.Kind == KindHold
	}
	return list
}

// of names a figure at the head of a note where its shot has several.
func (r *review) of(figure int) string {
	if who := r.who(figure); who != "the figure" {
		return who + ": "
	}
	return ""
}

// goes is how many steps and flights the figure of a track makes between two
// frames.
func (r *review) goes(t track, start, end int) int {
	n := 0
	for _, s := range r.Steps {
		if s.Shot == t.shot && t.has(s.Figure) && s.End >= start && s.End <= end {
			n++
		}
	}
	for _, f := range r.Flights {
		if f.Shot == t.shot && t.has(f.Figure) && f.Start <= end && f.End >= start {
			n++
		}
	}
	return n
}

// bounces reports whether what a track shows is a free object: it has no poses.
func (r *review) bounces(t track) bool {
	for _, i := range r.Impacts {
		if i.Shot == t.shot && t.has(i.Figure) {
			return true
		}
	}
	return false
}

// has reports whether a track is, or holds, that of a figure.
func (t track) has(figure int) bool { return t.figure == 0 || t.figure == figure }

// acts reports whether a figure of a track that could hold a pose is told from
// its background: what is known by its motion alone may be water, or a crowd.
func (r *review) acts(t track) bool {
	if r.bounces(t) {
		return false
	}
	for _, f := range r.Figures {
		if f.Shot == t.shot && t.has(f.ID) && f.Method != ByMotion {
			return true
		}
	}
	return false
}
