package motion

import (
	"maps"

	"holdfast/motion/beats"
	"holdfast/motion/camera"
	"holdfast/motion/changes"
	"holdfast/motion/feet"
	"holdfast/motion/figure"
	"holdfast/motion/poses"
	"holdfast/motion/staging"
	"holdfast/motion/strip"
	"holdfast/motion/timing"
	"holdfast/motion/travel"
)

// settings notes every threshold that was in force.
func (r *Result) settings(o Options) {
	median, most := r.floors()
	r.Settings = map[string]any{
		"stretch_frames":      stretchFrames,
		"noise_floor_median":  median,
		"noise_floor_most":    most,
		"grain_levels_median": r.grain(),
		"noise_least_bands":   leastBands,
		"passing_seconds":     passingSeconds,
		"pose_body_share":     bodyShare,
	}
	for _, s := range []map[string]any{
		beats.Options{Rate: o.Rate}.Settings(), camera.Settings(), figure.Settings(), travel.Settings(), feet.Settings(), strip.Settings(), timing.Settings(), poses.Settings(), changes.Settings(), staging.Settings(),
		r.partSettings(),
	} {
		maps.Copy(r.Settings, s)
	}
}
