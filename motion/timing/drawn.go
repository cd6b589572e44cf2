package timing

// A Way is how the drawings of a stretch are shown.
type Way struct {
	Rate float64 // frames a second
	Up   int     // frames that each drawing stays up; 0 means one
	// Repeats reports whether a frame repeats the one before, as a conform from
	// another rate has it; nil says none does.
	Repeats func(frame int) bool
}

func (w Way) up() int { return max(1, w.Up) }

// A Profile is the speed of a stretch drawing by drawing.
type Profile struct {
	Speed  []float64 // travel a frame, in the unit it came in
	Frames []int     // the first frame of each drawing
	Rate   float64   // drawings a second
}

// Drawn is the profile of the frames from start to end: on twos the travel of
// two frames is one drawing's, and frames that repeat the one before are left
// out. travel holds what each frame travels from the one before.
func Drawn(travel []float64, start, end int, w Way) Profile {
	var p Profile
	frames, kept := 0, 0 // of the drawing so far; of all
	for i := max(0, start); i <= min(end, len(travel)-1); i++ {
		if w.Repeats != nil && w.Repeats(i) {
			continue
		}
		if frames == 0 {
			p.Speed, p.Frames = append(p.Speed, 0), append(p.Frames, i)
		}
		p.Speed[len(p.Speed)-1] += travel[i] / float64(w.up())
		frames, kept = (frames+1)%w.up(), kept+1
	}
	if all := min(end, len(travel)-1) - max(0, start) + 1; all > 0 {
		p.Rate = w.Rate / float64(w.up()) * float64(kept) / float64(all)
	}
	return p
}

// most is the fastest drawing of a profile.
func (p Profile) most() float64 {
	most := 0.0
	for _, v := range p.Speed {
		most = max(most, v)
	}
	return most
}
