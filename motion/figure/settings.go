package figure

// Settings returns the thresholds in force, for the sheet.
func Settings() map[string]any {
	return map[string]any{
		"plate_samples":           plateSamples,
		"figure_noise_factor":     figureNoise,
		"figure_least_levels":     leastFigure,
		"figure_chroma_weight":    chromaWeight,
		"figure_slack_moving_px":  slackPixels,
		"figure_slack_still_px":   slackStill,
		"figure_least_area_share": leastArea,
		"figure_join_share":       joinShare,
		"figure_rooted_gap_share": rootedGap,
		"figure_rooted_widths":    rootedWidths,
		"figure_rooted_heights":   rootedHeights,
		"figure_reach_down":       reachDown,
		"figure_reach_up":         reachUp,
		"figure_reach_side_share": reachSide,
		"figure_usual_ground":     usualGround,
		"figure_strange_levels":   leastStrange,
		"figure_whole_share":      wholeShare,
		"figure_stands_share":     standsShare,
		"figure_crowded_share":    crowded,
		"figure_lively_share":     livelyShare,
		"figure_ghost_ratio":      ghostRatio,
		"figure_astray_share":     astray,
		"figure_follow_most_px":   followMost,
		"figure_fit_reach_px":     fitReach,
		"figure_fit_alike_levels": fitAlike,
		"figure_lost_fit":         lostFit,
		"figure_crowd_most":       crowdMost,
		"figure_stir_least_px":    stirLeast,
		"figure_patience_frames":  patience,
	}
}
