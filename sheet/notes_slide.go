package sheet

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

const (
	// plainSlide is the slip, in figure heights, that every eye sees.
	plainSlide = 0.04
	// sureSlide is how many frames a contact must last before its slide is sure: a
	// slip over fewer rests on a few small moves, and may be a foot still swinging.
	sureSlide = 6
	// glideShare is the share of a figure's contacts that must slip alike before
	// the whole figure glides, and glideContacts how many at least.
	glideShare, glideContacts = 2.0 / 3, 3
	// glideLike is how far, as a share of the median, the speed of a slip may be
	// from it and still be alike. What glides does so at one speed; that of a short
	// contact is measured to about a half.
	glideLike = 0.5
)

// slideNotes says which contacts slide, once for a figure that glides.
func (s *Sheet) slideNotes() []Note {
	var notes []Note
	for _, stands := range s.standsByFigure() {
		glide := s.glide(stands)
		if glide != nil {
			notes = append(notes, s.glideNote(stands, glide))
		}
		var bad []Contact
		for _, c := range stands {
			if c.State == StateSlide && !slices.Contains(glide, c) {
				bad = append(bad, c)
			}
		}
		for len(bad) > 0 {
			n := len(together(bad))
			notes = append(notes, s.slideNote(bad[:n]))
			bad = bad[n:]
		}
	}
	return notes
}

// slipSpeed is the speed of a slip, figure heights a second, positive to the
// right.
func (s *Sheet) slipSpeed(c Contact) float64 {
	start, end := c.Slide()
	return c.SlipShare / s.Clip.length(max(1, end-start))
}

// glide returns the contacts that slip along with the whole figure, nil where
// it does not glide.
func (s *Sheet) glide(stands []Contact) []Contact {
	var speeds []float64
	for _, c := range stands {
		speeds = append(speeds, s.slipSpeed(c))
	}
	usual := median(speeds)
	var like []Contact
	slides := 0
	for i, c := range stands {
		if usual != 0 && math.Abs(speeds[i]-usual) <= glideLike*math.Abs(usual) {
			like = append(like, c)
			if c.State == StateSlide {
				slides++
			}
		}
	}
	least := max(glideContacts, int(math.Ceil(glideShare*float64(len(stands)))))
	if len(like) < least || 2*slides <= len(like) {
		return nil
	}
	return like
}

func median(v []float64) float64 {
	v = slices.Sorted(slices.Values(v))
	if n := len(v); n%2 == 0 {
		return (v[n/2-1] + v[n/2]) / 2
	}
	return v[len(v)/2]
}

// bothFrames is how many frames apart two feet that slide together may start and
// end, and bothLike how far apart their slips are, as a share of the larger.
const bothFrames, bothLike = 1, 0.2

// together are the first of some slides of one figure, and the next where both feet
// slide as one.
func together(list []Contact) []Contact {
	if len(list) < 2 {
		return list[:1]
	}
	a, b := list[0], list[1]
	as, ae := a.Slide()
	bs, be := b.Slide()
	near := max(as-bs, bs-as) <= bothFrames && max(ae-be, be-ae) <= bothFrames
	if near && math.Abs(a.SlipShare-b.SlipShare) <= bothLike*max(math.Abs(a.SlipShare), math.Abs(b.SlipShare)) {
		return list[:2]
	}
	return list[:1]
}

// slideNote says how a foot slides, or both together.
func (s *Sheet) slideNote(list []Contact) Note {
	c := list[0]
	start, end := c.Slide()
	who := fmt.Sprintf("foot down at %d slides", c.Start)
	if len(list) > 1 {
		who = fmt.Sprintf("feet down at %d slide together", c.Start)
	}
	camera, _ := s.cameraTravel(start, end)
	note := Note{
		Kind: "slide", Start: start, End: end, Weight: slideWeight(c.SlipShare, end-start+1),
		Text: fmt.Sprintf("%s%s %.1f %% of the figure's height to the %s (%.0f px) over %s, %.2f heights a second; %s",
			s.whose(c.Figure), who, 100*math.Abs(c.SlipShare), side(c.SlipShare, "right", "left"), math.Abs(c.SlipPx),
			count(end-start+1, "frame"), math.Abs(s.slipSpeed(c)), s.cameraWords(c.Shot, camera)),
		Measured: map[string]any{
			"contact": c.ID, "slip_px": c.SlipPx, "slip_share": c.SlipShare,
			"speed_heights_per_second": round(s.slipSpeed(c), shareDigits), "camera_travel_x_px": round(camera, pixelDigits),
			"slide_share": SlideShare, "fix_share": plainSlide, "fix_frames": sureSlide,
		},
	}
	if len(list) > 1 {
		note.Measured["other_contact"] = list[1].ID
	}
	return note
}

func slideWeight(share float64, frames int) string {
	if math.Abs(share) >= plainSlide && frames >= sureSlide {
		return WeightFix
	}
	return WeightLook
}

// cameraWords says what the camera did meanwhile.
func (s *Sheet) cameraWords(shot int, travel float64) string {
	kind := s.Shots[shot-1].Camera.Kind
	switch {
	case kind == "still":
		return "the camera is still"
	case kind == "unknown":
		return "what the camera does is not known"
	case math.Round(travel) == 0:
		return "the camera does not travel sideways meanwhile"
	}
	return fmt.Sprintf("the camera's own %.0f px to the %s are taken out", math.Abs(travel), side(travel, "right", "left"))
}

func (s *Sheet) glideNote(stands, glide []Contact) Note {
	var slips, speeds []float64
	var ids []int
	end := 0
	for _, c := range glide {
		slips, speeds = append(slips, c.SlipShare), append(speeds, s.slipSpeed(c))
		ids, end = append(ids, c.ID), max(end, c.End)
	}
	c, slip, speed := glide[0], stat.Mean(slips, nil), median(speeds)
	camera, _ := s.cameraTravel(c.Start, end)
	return Note{
		Kind: "slide", Start: c.Start, End: end, Weight: slideWeight(slip, end-c.Start+1),
		Text: fmt.Sprintf("the whole figure glides: %d of %s slip to the %s, about %.1f %% of the figure's height each (%.2f heights a second), so the stride is wrong for the speed; %s",
			len(glide), count(len(stands), "contact"), side(slip, "right", "left"), 100*math.Abs(slip), math.Abs(speed),
			s.cameraWords(c.Shot, camera)),
		Measured: map[string]any{
			"contacts": ids, "of_contacts": len(stands), "mean_slip_share": round(slip, shareDigits),
			"speed_heights_per_second": round(speed, shareDigits), "camera_travel_x_px": round(camera, pixelDigits),
			"slide_share": SlideShare, "fix_share": plainSlide,
			"glide_share_of_contacts": round(glideShare, shareDigits), "glide_like_share": glideLike,
		},
	}
}
