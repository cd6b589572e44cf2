package assemble

import (
	"math"

	"holdfast/sheet"
)

// ground adds what stood, flew and bounced.
func (m *Measured) ground(s *sheet.Sheet) {
	sx, sy := m.scale()
	for _, c := range m.result.Contacts {
		k := sheet.Contact{
			Shot: c.Shot + 1, Figure: c.Figure, Start: m.number(c.Start), End: m.number(c.End),
			State: state(c.Share), X: c.X * sx, Y: c.Y * sy, SlipPx: c.Slip * sx, SlipShare: c.Share, Turns: c.Turns,
		}
		if k.State == sheet.StateSlide {
			k.SlidesFrom(m.number(c.SlideStart), m.number(c.SlideEnd))
		}
		s.Contacts = append(s.Contacts, k)
	}
	for _, f := range m.result.Flights {
		s.Flights = append(s.Flights, sheet.Flight{
			Shot: f.Shot + 1, Figure: f.Figure, Start: m.number(f.Start), End: m.number(f.End),
			RisePx: f.Rise * sy, RiseShare: f.Share, TravelPx: f.Travel * sx, OffParabola: f.OffParabola,
		})
	}
	for _, o := range m.result.Outside {
		s.FeetOut = append(s.FeetOut, sheet.FeetOut{Shot: o.Shot + 1, Figure: o.Figure, Start: m.number(o.Start), End: m.number(o.End)})
	}
	for _, i := range m.result.Impacts {
		im := sheet.Impact{Shot: i.Shot + 1, Figure: i.Figure, Frame: float64(m.number(0)) + i.Frame}
		if r := i.Restitution; r > 0 {
			im.Restitution = &r
		}
		s.Impacts = append(s.Impacts, im)
	}
}

func state(share float64) string {
	if math.Abs(share) >= sheet.SlideShare {
		return sheet.StateSlide
	}
	return sheet.StatePlant
}
