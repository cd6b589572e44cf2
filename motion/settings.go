package motion

import "holdfast/motion/beats"

// settings notes every threshold that was in force.
func (r *Result) settings(o Options) {
	b := beats.Options{Rate: o.Rate}
	r.Settings = map[string]any{
		"still_share":     beats.StillShare,
		"min_hold_frames": b.MinHold(),
	}
}
