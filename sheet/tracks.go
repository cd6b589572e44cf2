package sheet

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
