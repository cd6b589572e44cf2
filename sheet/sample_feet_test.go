package sheet

// feetSample is a clip with everything a sheet says of feet: one figure walks
// with a bad plant and hops, another's ball bounces. It pops once, and hitches.
func feetSample() *Sheet {
	s := ground(film, 240).walk(5, 0, 12, 12, 12, 12).stand(53, 72, 420, -0.082).sliding(58, 66).stand(75, 90, 420, 0)
	for i := range 3 {
		s.fly(91+24*i, 12, 0.09).stand(103+24*i, 114+24*i, 430, 0)
	}
	s.Figures = append(s.Figures, Figure{Shot: 1, Start: 1, End: 240, Height: 30})
	half := 0.75
	s.Impacts = []Impact{{Shot: 1, Figure: 2, Frame: 20.25}, {Shot: 1, Figure: 2, Frame: 44.5, Restitution: &half}}
	s.FeetOut = []FeetOut{{Shot: 1, Figure: 1, Start: 200, End: 240}}
	s.Contacts[1].Turns = true
	smooth := -1.62345
	s.Beats[2].Texture = &Texture{Settle: 3, Smoothness: &smooth, Hitches: []Hitch{{120, 121, 0.71239}}}
	s.Pops = []Pop{{Shot: 1, Start: 85, End: 85, Jump: 0.0431, Around: 0.0021, Left: 0.125}}
	lean, contrast := -4.26, 0.51239
	for i, b := range s.Beats {
		if b.Kind == KindHold {
			p := Pose{Beat: i + 1, Shot: b.Shot, Figure: 1, Start: b.Start, End: b.End, Width: 0.3123456, Height: 1}
			if n := len(s.Poses); n > 0 {
				p.Lean, p.Contrast, p.Back = &lean, &contrast, s.Poses[0].Beat
			}
			s.Poses = append(s.Poses, p)
		}
	}
	s.Complete()
	s.Review(DefaultFigureHeight, nil)
	return s
}
