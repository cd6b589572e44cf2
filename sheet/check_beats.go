package sheet

func (s *Sheet) checkBeats() error {
	for i, b := range s.Beats {
		if err := numbered("beats", i, b.ID); err != nil {
			return err
		}
		if err := s.inShot("beats", i, b.Shot, b.Figure, b.Start, b.End); err != nil {
			return err
		}
		if b.Frames != b.End-b.Start+1 {
			return bad(at("beats", i, "frames"), "is %d for %d to %d", b.Frames, b.Start, b.End)
		}
		if err := checkKind(i, b); err != nil {
			return err
		}
	}
	return nil
}

// checkKind wants a hold or a move, and what it says of itself in range.
func checkKind(i int, b Beat) error {
	switch b.Kind {
	case KindHold:
		if b.Hold != "" && b.Hold != HoldFrozen && b.Hold != HoldMoving {
			return bad(at("beats", i, "hold"), "is %q", Visible(b.Hold))
		}
		return nil
	case KindMove:
	default:
		return bad(at("beats", i, "kind"), "is %q", Visible(b.Kind))
	}
	if b.Peak != nil && (*b.Peak < b.Start || *b.Peak > b.End) {
		return bad(at("beats", i, "peak"), "is %d, outside %d to %d", *b.Peak, b.Start, b.End)
	}
	if b.Size != nil && !(*b.Size >= 0 && *b.Size <= 1) {
		return bad(at("beats", i, "size"), "is %g", *b.Size)
	}
	for _, ease := range []struct {
		name  string
		value *int
	}{{"ease_in", b.EaseIn}, {"ease_out", b.EaseOut}} {
		if ease.value != nil && (*ease.value < 0 || *ease.value >= b.Frames) {
			return bad(at("beats", i, ease.name), "is %d", *ease.value)
		}
	}
	return nil
}

// checkTiling wants the beats of each figure in each shot in order, without
// overlap, and without gap but where a figure says that nothing is known of it.
func (s *Sheet) checkTiling() error {
	type track struct{ shot, figure int }
	next := map[track]int{}
	for i, b := range s.Beats {
		t := track{b.Shot, b.Figure}
		if want, begun := next[t]; begun && b.Start != want && (b.Start < want || !s.unknown(b.Figure, want, b.Start-1)) {
			return bad(at("beats", i, "start"), "is %d, not %d: the beats of a figure leave no gap and do not overlap", b.Start, want)
		}
		next[t] = b.End + 1
	}
	return nil
}

func (s *Sheet) checkGround() error {
	for i, c := range s.Contacts {
		if err := numbered("contacts", i, c.ID); err != nil {
			return err
		}
		if err := s.inShot("contacts", i, c.Shot, c.Figure, c.Start, c.End); err != nil {
			return err
		}
		if c.State != StatePlant && c.State != StateSlide {
			return bad(at("contacts", i, "state"), "is %q", Visible(c.State))
		}
		if start, end := c.Slide(); start < c.Start || end > c.End || start > end {
			return bad(at("contacts", i, "slide_start"), "slides from %d to %d while it stands from %d to %d", start, end, c.Start, c.End)
		}
	}
	for i, t := range s.Steps {
		if err := s.inShot("steps", i, t.Shot, t.Figure, t.Start, t.End); err != nil {
			return err
		}
		if t.From < 1 || t.From > len(s.Contacts) || t.To < 1 || t.To > len(s.Contacts) {
			return bad(at("steps", i, "to"), "leads from contact %d to %d; there are %d", t.From, t.To, len(s.Contacts))
		}
	}
	for i, f := range s.Flights {
		if err := numbered("flights", i, f.ID); err != nil {
			return err
		}
		if err := s.inShot("flights", i, f.Shot, f.Figure, f.Start, f.End); err != nil {
			return err
		}
		if f.Frames != f.End-f.Start+1 {
			return bad(at("flights", i, "frames"), "is %d for %d to %d", f.Frames, f.Start, f.End)
		}
	}
	for i, o := range s.FeetOut {
		if err := s.inShot("feet_out_of_frame", i, o.Shot, o.Figure, o.Start, o.End); err != nil {
			return err
		}
	}
	for i, p := range s.Impacts {
		if _, err := s.shotOf("impacts", i, p.Shot); err != nil {
			return err
		}
	}
	return nil
}
