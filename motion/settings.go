package motion

import (
	"maps"

	"holdfast/motion/beats"
	"holdfast/motion/camera"
	"holdfast/motion/changes"
	"holdfast/motion/feet"
	"holdfast/motion/figure"
	"holdfast/motion/picture"
	"holdfast/motion/poses"
	"holdfast/motion/staging"
	"holdfast/motion/strip"
	"holdfast/motion/timing"
	"holdfast/motion/travel"
	"holdfast/motion/twins"
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
		"half_middle_share":   middleShare,
		"half_middle_most":    middleMost,
		"bare_height_share":   bareShare,
		"bar_black_levels":    picture.BlackLevel,
		"bar_most_share":      barMost,
		"bar_alike_share":     barAlike,
		"bar_edge_share":      barEdge,
	}
	for _, s := range []map[string]any{
		beats.Options{Rate: o.Rate}.Settings(), camera.Settings(), figure.Settings(), travel.Settings(), feet.Settings(), strip.Settings(), timing.Settings(), poses.Settings(), changes.Settings(), staging.Settings(),
		twins.Settings(), r.partSettings(),
	} {
		maps.Copy(r.Settings, s)
	}
}
