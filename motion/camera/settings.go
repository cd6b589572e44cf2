package camera

// Settings returns the thresholds in force, for the sheet.
func Settings() map[string]any {
	return map[string]any{
		"camera_min_gradient_levels": minGradient,
		"camera_noise_gradient":      noiseGradient,
		"camera_consensus_px":        consensusPixels,
		"camera_consensus_lead":      consensusLead,
		"camera_lead_alike":          leadAlike,
		"camera_lead_doubt":          leadDoubt,
		"camera_least_coverage":      leastCoverage,
		"camera_least_spread":        leastSpread,
		"camera_least_across":        leastAcross,
		"camera_stand_steps":         standSteps,
		"camera_rest_steps":          restSteps,
		"camera_rest_most":           restMost,
		"camera_stand_gain":          standGain,
		"camera_still_reach_share":   stillReach,
		"camera_move_share":          moveShare,
		"camera_zoom_share":          zoomShare,
		"camera_lead_share":          leadShare,
		"camera_shake_seconds":       shakeSeconds,
		"camera_shake_floor":         shakeFloor,
		"camera_shake_speed":         shakeSpeed,
		"camera_shake_zoom":          shakeZoom,
		"camera_sway_factor":         swayFactor,
		"cut_hard_levels":            hardChange,
		"cut_hard_share":             cutHard,
		"cut_seen_share":             cutSeen,
		"cut_spread_share":           cutSpread,
		"cut_alone_factor":           cutAlone,
		"cut_return_share":           cutReturn,
		"flash_seconds":              flashSeconds,
	}
}
