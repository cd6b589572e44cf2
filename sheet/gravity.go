package sheet

// standardGravity is the free fall of things on earth, m/s² (3rd CGPM, 1901).
const standardGravity = 9.80665

// Words for a flight against gravity.
const (
	Floats    = "floats"         // in the air too long for its height
	FallsFast = "falls too fast" // back on the ground too soon for its height
	InKeeping = "in keeping"
)

// Gravity says how high a flight would have gone under gravity, if its figure
// were of the height stated. Rises are in figure heights.
type Gravity struct {
	AirSeconds float64 `json:"air_seconds"`
	RiseLow    float64 `json:"rise_low_share"`  // with one frame less in the air
	RiseHigh   float64 `json:"rise_high_share"` // with one frame more
	Ratio      float64 `json:"ratio"`           // measured rise over that of the air time
	Word       string  `json:"word"`            // Floats, FallsFast or InKeeping
}

// freeRise is how high, in metres, something goes that is back after so many
// seconds: g T² / 8.
func freeRise(seconds float64) float64 { return standardGravity * seconds * seconds / 8 }

// weighedFrames is the shortest flight that is held against gravity, frames: in a
// shorter one gravity gives over twice as much for one frame more than for one
// frame less, so that one frame decides it.
const weighedFrames = 6

// weigh holds against gravity every flight that lasts long enough and in which the
// body rises and falls freely.
func (r *review) weigh(metres float64) {
	for i := range r.Flights {
		f := &r.Flights[i]
		f.Gravity = nil
		if f.Frames >= weighedFrames && !f.OffParabola {
			f.Gravity = r.gravity(f.Frames, f.RiseShare, metres)
		}
	}
}

func (r *review) gravity(frames int, rise, metres float64) *Gravity {
	share := func(n int) float64 { return freeRise(r.Clip.length(n)) / metres }
	g := &Gravity{
		AirSeconds: r.Clip.length(frames), RiseLow: share(frames - 1), RiseHigh: share(frames + 1),
		Ratio: rise / share(frames), Word: InKeeping,
	}
	switch {
	case rise < g.RiseLow*(1-r.at(floatTolerance)):
		g.Word = Floats
	case rise > g.RiseHigh*(1+r.at(dropTolerance)):
		g.Word = FallsFast
	}
	return g
}

// widest is the range of rises for a flight of so many frames that may be one frame
// off at either end: they go by the square of the time.
func (g Gravity) widest(frames int) (low, high float64) {
	n := float64(frames)
	square := func(v float64) float64 { return v * v }
	return g.RiseLow * square((n-2)/(n-1)), g.RiseHigh * square((n+2)/(n+1))
}

// rounded returns the same with the decimals that are kept.
func (g Gravity) rounded() Gravity {
	return Gravity{
		AirSeconds: round(g.AirSeconds, secondDigits), RiseLow: round(g.RiseLow, shareDigits),
		RiseHigh: round(g.RiseHigh, shareDigits), Ratio: round(g.Ratio, shareDigits), Word: g.Word,
	}
}
