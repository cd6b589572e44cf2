package travel

// Settings returns the thresholds in force, for the sheet.
func Settings() map[string]any {
	return map[string]any{
		"travel_changed_noise_factor": changedNoise,
		"travel_least_change_levels":  leastChange,
		"travel_slow_px":              slowPixels,
		"travel_explained_share":      explainedShare,
		"travel_fast_share":           fastShare,
		"travel_support_share":        supportShare,
		"travel_doubts":               doubts,
	}
}
