package sheet

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

var slideRule = &Rule{
	Kind:     "slide",
	Measures: "how far a foot that stands travels along the ground, the camera taken out; once where both feet slide together, and once for a figure that glides because its stride is wrong for its speed",
	Weights:  []string{WeightLook, WeightFix},
	Thresholds: []*Threshold{
		slideShare, plainSlide, sureSlide, glideContacts, glideShare, glideLike, bothFrames, bothLike,
	},
	Gauge: Gauge{Names: []string{"slip_share", "mean_slip_share"}},
	find:  (*review).slideNotes,
}

var (
	slideShare = &Threshold{
		Name: "slide_share", Unit: inHeights, Default: SlideShare, Min: SlideShare, Max: 1,
		Reason: "from this slip on a contact is called a slide: under 2 % no eye sees one, over 4 % every eye does",
		Source: practice,
	}
	plainSlide = &Threshold{
		Name: "fix_share", Unit: inHeights, Default: 0.04, Min: SlideShare, Max: 1,
		Reason: "from this slip on it is a fix: every eye sees it", Source: practice,
	}
	sureSlide = &Threshold{
		Name: "fix_frames", Unit: inFrames, Default: 6, Min: 1, Max: 1000, Whole: true,
		Reason: "a slide must last as long to be a fix: one over fewer rests on a few small moves, and may be a foot still swinging",
		Source: accuracy,
	}
	glideContacts = &Threshold{
		Name: "glide_contacts_least", Unit: inCount, Default: 3, Min: 2, Max: 1000, Whole: true,
		Reason: "so many contacts must slip alike before the whole figure glides: two may do so by chance", Source: practice,
	}
	glideShare = &Threshold{
		Name: "glide_share_of_contacts", Unit: inShare, Default: 0.66, Min: 0.5, Max: 1,
		Reason: "and so many of all its contacts: about two thirds", Source: practice,
	}
	glideLike = &Threshold{
		Name: "glide_like_share", Unit: inShare, Default: 0.5, Min: 0.05, Max: 1,
		Reason: "how far a slip's speed may be from the median and still be alike: what glides does so at one speed, which is measured to about a half in a short contact",
		Source: accuracy,
	}
	bothFrames = &Threshold{
		Name: "both_frames_most", Unit: inFrames, Default: 1, Min: 0, Max: 100, Whole: true,
		Reason: "how far apart two feet that slide together start and end: either end may be one off", Source: accuracy,
	}
	bothLike = &Threshold{
		Name: "both_like_share", Unit: inShare, Default: 0.2, Min: 0, Max: 1,
		Reason: "how far apart their slips are, as a share of the larger", Source: accuracy,
	}
)

// slideNotes says which contacts slide, once for a figure that glides.
func (r *review) slideNotes() []Note {
	var notes []Note
	for _, stands := range r.standsByFigure() {
		glide := r.glide(stands)
		if glide != nil {
			notes = append(notes, r.glideNote(stands, glide))
		}
		var bad []Contact
		for _, c := range stands {
			if r.slides(c) && !slices.Contains(glide, c) {
				bad = append(bad, c)
			}
		}
		for len(bad) > 0 {
			n := len(r.together(bad))
			notes = append(notes, r.slideNote(bad[:n]))
			bad = bad[n:]
		}
	}
	return notes
}

// slides reports whether a contact slides far enough to be told of.
func (r *review) slides(c Contact) bool {
	return c.State == StateSlide && math.Abs(c.SlipShare) >= r.at(slideShare)
}

// slipSpeed is the speed of a slip, figure heights a second, positive to the
// right.
func (s *Sheet) slipSpeed(c Contact) float64 {
	start, end := c.Slide()
	return c.SlipShare / s.Clip.length(max(1, end-start))
}

// glide returns the contacts that slip along with the whole figure, nil where
// it does not glide.
func (r *review) glide(stands []Contact) []Contact {
	var speeds []float64
	for _, c := range stands {
		speeds = append(speeds, r.slipSpeed(c))
	}
	usual := median(speeds)
	var like []Contact
	slides := 0
	for i, c := range stands {
		if usual != 0 && math.Abs(speeds[i]-usual) <= r.at(glideLike)*math.Abs(usual) {
			like = append(like, c)
			if r.slides(c) {
				slides++
			}
		}
	}
	least := max(r.whole(glideContacts), int(math.Ceil(r.at(glideShare)*float64(len(stands)))))
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

// together are the first of some slides of one figure, and the next where both feet
// slide as one.
func (r *review) together(list []Contact) []Contact {
	if len(list) < 2 {
		return list[:1]
	}
	a, b := list[0], list[1]
	as, ae := a.Slide()
	bs, be := b.Slide()
	most := r.whole(bothFrames)
	near := max(as-bs, bs-as) <= most && max(ae-be, be-ae) <= most
	if near && math.Abs(a.SlipShare-b.SlipShare) <= r.at(bothLike)*max(math.Abs(a.SlipShare), math.Abs(b.SlipShare)) {
		return list[:2]
	}
	return list[:1]
}

// slideNote says how a foot slides, or both together.
func (r *review) slideNote(list []Contact) Note {
	c := list[0]
	start, end := c.Slide()
	who := fmt.Sprintf("foot down at %d slides", c.Start)
	if len(list) > 1 {
		who = fmt.Sprintf("feet down at %d slide together", c.Start)
	}
	camera, _ := r.cameraTravel(start, end)
	note := Note{
		Start: start, End: end, Weight: r.slideWeight(c.SlipShare, end-start+1),
		Text: fmt.Sprintf("%s%s %.1f %% of the figure's height to the %s (%.0f px) over %s, %.2f heights a second; %s",
			r.whose(c.Figure), who, 100*math.Abs(c.SlipShare), side(c.SlipShare, "right", "left"), math.Abs(c.SlipPx),
			count(end-start+1, "frame"), math.Abs(r.slipSpeed(c)), r.cameraWords(c.Shot, camera)),
		Measured: map[string]any{
			"contact": c.ID, "slip_px": c.SlipPx, "slip_share": c.SlipShare,
			"speed_heights_per_second": round(r.slipSpeed(c), shareDigits), "camera_travel_x_px": round(camera, pixelDigits),
		},
	}
	if len(list) > 1 {
		note.Measured["other_contact"] = list[1].ID
	}
	return note
}

func (r *review) slideWeight(share float64, frames int) string {
	if math.Abs(share) >= r.at(plainSlide) && frames >= r.whole(sureSlide) {
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

func (r *review) glideNote(stands, glide []Contact) Note {
	var slips, speeds []float64
	var ids []int
	end := 0
	for _, c := range glide {
		slips, speeds = append(slips, c.SlipShare), append(speeds, r.slipSpeed(c))
		ids, end = append(ids, c.ID), max(end, c.End)
	}
	c, slip, speed := glide[0], stat.Mean(slips, nil), median(speeds)
	camera, _ := r.cameraTravel(c.Start, end)
	return Note{
		Start: c.Start, End: end, Weight: r.slideWeight(slip, end-c.Start+1),
		Text: fmt.Sprintf("the whole figure glides: %d of %s slip to the %s, about %.1f %% of the figure's height each (%.2f heights a second), so the stride is wrong for the speed; %s",
			len(glide), count(len(stands), "contact"), side(slip, "right", "left"), 100*math.Abs(slip), math.Abs(speed),
			r.cameraWords(c.Shot, camera)),
		Measured: map[string]any{
			"contacts": ids, "of_contacts": len(stands), "mean_slip_share": round(slip, shareDigits),
			"speed_heights_per_second": round(speed, shareDigits), "camera_travel_x_px": round(camera, pixelDigits),
		},
	}
}
