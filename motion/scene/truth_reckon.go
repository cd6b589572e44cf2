package scene

import "math"

// reckon gathers the whole truth of the clip.
func (sc *Scene) reckon() Truth {
	t := Truth{Frames: sc.Frames, Camera: sc.cameraSteps()}
	sc.reckonShots(&t)
	sc.reckonEvents(&t)
	t.Repeats = sc.spec.Conform.repeats()
	for _, sh := range sc.shots {
		sc.reckonCast(&t, sh)
	}
	sizeMoves(t.Figures)
	return t
}

// shownRange returns the frames that show drawn frames from to to.
func (sc *Scene) shownRange(from, to int) (int, int) {
	first, last := -1, -1
	for f := range sc.Frames {
		if n := sc.spec.Conform.source(f); n >= from && n <= to {
			if first < 0 {
				first = f
			}
			last = f
		}
	}
	return first, last
}

// shownInstant is the frame, as shown and with its fraction, at t frames of a
// shot. Repeated pictures stretch time evenly.
func (sc *Scene) shownInstant(sh *shot, t float64) float64 {
	t += float64(sh.start)
	if c := sc.spec.Conform; c.Of != 0 {
		t *= float64(c.Of) / float64(c.New)
	}
	return t
}

func (c Conform) repeats() *Repeats {
	if c.Of == 0 || c.Of == c.New {
		return nil
	}
	r := &Repeats{New: c.New, Of: c.Of}
	a, b := c.New, c.Of
	for b != 0 {
		a, b = b, a%b
	}
	if c.Of/a-c.New/a == 1 {
		r.Every = c.Of / a
	}
	for r.First = 1; c.source(r.First) != c.source(r.First-1); r.First++ {
	}
	return r
}

// reckonShots lists the shots, each with the frames that show more of it than of
// another.
func (sc *Scene) reckonShots(t *Truth) {
	for i, sh := range sc.shots {
		start, end := sc.shownRange(sh.from, sh.to)
		if i > 0 && sh.Join.Kind == HardCut {
			t.Cuts = append(t.Cuts, start)
		} else if i > 0 {
			t.Joins = append(t.Joins, start)
		}
		t.Shots = append(t.Shots, ShotTruth{Start: start, End: end, Kind: sh.Camera.kind()})
	}
	for i := range t.Shots {
		s := &t.Shots[i]
		s.Zoom = 1
		for f := s.Start + 1; f <= s.End; f++ {
			s.TravelX += t.Camera[f].DX
			s.TravelY += t.Camera[f].DY
			s.Zoom *= t.Camera[f].Zoom
		}
	}
}

func (sc *Scene) reckonEvents(t *Truth) {
	for _, sh := range sc.shots {
		add := func(kind string, from, frames int) {
			if frames > 0 {
				a, b := sc.shownRange(sh.start+from, sh.start+from+frames-1)
				t.Events = append(t.Events, Event{kind, a, b})
			}
		}
		in, out := sc.fadeFrames(sh)
		add(EventFade, 0, in)
		add(EventFade, sh.Frames-out, out)
		if sh.Join.Kind == Dissolve {
			add(EventDissolve, 0, sh.Join.Frames)
		}
		for _, f := range sh.Flashes {
			add(EventFlash, f.At, f.Frames)
		}
		for _, p := range sh.Passes {
			add(EventPass, p.From, p.To-p.From+1)
		}
	}
}

// cameraSteps compares the views of successive frames.
func (sc *Scene) cameraSteps() []CameraStep {
	steps := make([]CameraStep, sc.Frames)
	var before view
	var beforeShot *shot
	for f := range steps {
		n := sc.spec.Conform.source(f)
		sh, other, _ := sc.shotsAt(n)
		v := sc.viewOf(sh, float64(n-sh.start))
		if other != nil {
			sh = nil // two worlds at once
		}
		steps[f] = CameraStep{Zoom: 1}
		if sh != nil && sh == beforeShot {
			steps[f] = v.from(before)
		}
		before, beforeShot = v, sh
	}
	return steps
}

// from is the step that leads from view b to view v. With w the world's point,
// p-c = b.scale*R(b.roll)*(w-b.o), and the same for v, so
//
//	p'-c = (v.scale/b.scale)*R(v.roll-b.roll)*(p-c) - v.scale*R(v.roll)*(v.o-b.o).
func (v view) from(b view) CameraStep {
	d := scale(v.scale, v.scale).mul(rotate(v.roll)).at(v.o.sub(b.o))
	return CameraStep{DX: d.X, DY: d.Y, Roll: (v.roll - b.roll) * 180 / math.Pi, Zoom: v.scale / b.scale, Known: true}
}
