package sheet

// A House is what a studio has rules at: thresholds of its own, and rules it
// does not want. nil is the house of all defaults.
type House struct {
	values map[*Threshold]float64
	off    map[*Rule]bool
}

// Value is what a threshold is in this house.
func (h *House) Value(t *Threshold) float64 {
	if h != nil {
		if v, ok := h.values[t]; ok {
			return v
		}
	}
	return t.Default
}

// On reports whether this house wants a rule.
func (h *House) On(r *Rule) bool { return h == nil || !h.off[r] }

// settings are all thresholds in force, a table for each rule, as house files
// have them.
func (h *House) settings() map[string]any {
	all := map[string]any{}
	for _, rule := range rules {
		table := map[string]any{switchKey: h.On(rule)}
		for _, t := range rule.Thresholds {
			table[t.Name] = h.Value(t)
		}
		all[rule.Kind] = table
	}
	return all
}

// switchKey is the key that has a rule on or off in settings and house files.
const switchKey = "on"
