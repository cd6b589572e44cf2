package sheet

// Weights of a note.
const (
	WeightLook = "look" // worth a look
	WeightFix  = "fix"  // wants a change
)

// A Note is one finding with its frames, worded as a reviewer would say it.
type Note struct {
	ID       int            `json:"id"`   // from 1
	Kind     string         `json:"kind"` // lower-case words joined by hyphens
	Start    int            `json:"start"`
	End      int            `json:"end"`
	Weight   string         `json:"weight"`
	Text     string         `json:"text"`
	Measured map[string]any `json:"measured"` // the numbers it rests on, with the threshold they crossed
}
