package figure

// A Method says how a figure was told from its background.
type Method string

// The methods, best first.
const (
	ByPlate  Method = "plate"  // differs from the background plate
	ByMotion Method = "motion" // moves against the background; no plate could be made
)

// A Box is the smallest upright rectangle around a figure in one frame, in
// working pixels; X1 and Y1 lie outside. The zero Box says not seen.
type Box struct {
	X0, Y0, X1, Y1 int
}

// Empty reports whether nothing was seen.
func (b Box) Empty() bool { return b.X1 <= b.X0 || b.Y1 <= b.Y0 }
