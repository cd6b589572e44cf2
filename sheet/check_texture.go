package sheet

// checkTexture wants hitches inside their move and pops inside their shot.
func (s *Sheet) checkTexture() error {
	for i, b := range s.Beats {
		if b.Texture == nil {
			continue
		}
		if b.Kind != KindMove {
			return bad(at("beats", i, "texture"), "is of a %s", b.Kind)
		}
		if n := b.Texture.Settle; n < 0 || n > b.Frames {
			return bad(at("beats", i, "texture.settle_frames"), "is %d", n)
		}
		if err := b.Texture.Spacing.check(i, b); err != nil {
			return err
		}
		for k, h := range b.Texture.Hitches {
			if err := within(at("beats", i, "texture.hitches"), k, h.Start, h.End, b.Start, b.End); err != nil {
				return err
			}
		}
	}
	for i, p := range s.Pops {
		shot, err := s.shotOf("pops", i, p.Shot)
		if err != nil {
			return err
		}
		if err := within("pops", i, p.Start, p.End, shot.Start, shot.End); err != nil {
			return err
		}
	}
	return nil
}
