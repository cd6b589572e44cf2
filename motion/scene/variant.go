package scene

import "fmt"

// A Variant is one way to make a scene harder to measure. The zero Variant
// leaves it as it is.
type Variant struct {
	Name      string
	Condition Condition
	Shake     Shake  // on top of every shot's camera
	On        int    // puts every figure without stretches of its own on twos, threes, ...; 0 leaves it
	CRF       int    // for the caller: encode with this constant rate factor; 0 means without loss
	Seed      uint64 // of grain and flicker
}

// Variants are the conditions under which every scene of the catalogue should
// be measured alike.
func Variants() []Variant {
	shake := Shake{Reach: 5, Roll: 0.35, Seed: 11}
	return []Variant{
		{Name: "clean"},
		{Name: "noise", Condition: Condition{Noise: 5}, Seed: 1},
		{Name: "flicker", Condition: Condition{Flicker: 0.02, Noise: 1}, Seed: 2},
		{Name: "low-contrast", Condition: Condition{Contrast: 0.4, Noise: 1}, Seed: 3},
		{Name: "motion-blur", Condition: Condition{Shutter: 0.5}, Seed: 4},
		{Name: "handheld", Shake: shake, Seed: 5},
		{Name: "handheld-noise", Shake: shake, Condition: Condition{Noise: 4}, Seed: 6},
		{Name: "twos", On: 2, Seed: 7},
		{Name: "crf30", Condition: Condition{Noise: 1}, CRF: 30, Seed: 8},
	}
}

// With returns the scene under variant v, named "scene/variant".
func (sc *Scene) With(v Variant) (*Scene, error) {
	s := sc.spec
	s.Condition, s.Seed = v.Condition.over(s.Condition), v.Seed
	if v.Name != "" {
		s.Name = fmt.Sprintf("%s/%s", sc.Name, v.Name)
	}
	s.Shots = nil
	for _, sh := range sc.spec.Shots {
		if v.Shake != (Shake{}) {
			sh.Camera.Shake = v.Shake
		}
		if v.On > 1 {
			sh = sh.on(v.On)
		}
		s.Shots = append(s.Shots, sh)
	}
	return New(s)
}

// on returns the shot with every figure that had no stretches on the pattern.
func (sh Shot) on(n int) Shot {
	all := []Stretch{{From: 0, To: sh.Frames - 1, On: n}}
	figures := sh.Figures
	sh.Figures = nil
	for _, f := range figures {
		if f.Exposure == nil {
			f.Exposure = all
		}
		sh.Figures = append(sh.Figures, f)
	}
	return sh
}
