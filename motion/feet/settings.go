package feet

// Settings are the thresholds that decide what a contact, a flight or an impact is.
func Settings() map[string]any {
	return map[string]any{
		"feet_low_share":          lowShare,
		"feet_slow_across":        slowAcross,
		"feet_slow_down":          slowDown,
		"feet_steady_way":         steadyWay,
		"feet_hidden_seconds":     hiddenSeconds,
		"feet_hidden_share":       hiddenShare,
		"feet_alike_share":        alikeShare,
		"feet_usual_sole":         usualSole,
		"feet_shortest_seconds":   shortestContact,
		"feet_brief_seconds":      briefContact,
		"feet_slide_seconds":      slideLeast,
		"feet_slide_speed":        slideSpeed,
		"feet_roll_seconds":       rollSeconds,
		"feet_rim_share":          rimShare,
		"feet_cut_off_share":      cutOffShare,
		"feet_rim_reach":          rimReach,
		"feet_outside_seconds":    outsideSeconds,
		"feet_aloft_share":        aloftShare,
		"feet_aloft_brief_share":  aloftBrief,
		"feet_longest_exposure":   longestExposure,
		"flight_shortest_seconds": shortestFlight,
		"flight_longest_seconds":  longestFlight,
		"flight_lowest_share":     lowestFlight,
		"flight_pull_least":       weakPull,
		"impact_fall_share":       fallLeast,
		"impact_arc_frames":       arcLeast,
		"impact_arc_misfit_share": arcMisfit,
		"impact_arc_noise_px":     arcNoise,
		"impact_pull_share":       onePull,
		"impact_rest_frames":      restLeast,
		"impact_object_share":     freeShare,
	}
}
