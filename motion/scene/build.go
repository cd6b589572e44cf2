package scene

// A Build is the size and the proportions of a figure; lengths but Height are
// shares of it. Head, Trunk and Leg add up to 1 in the builds given here.
type Build struct {
	Height float64 // stage units from sole to crown; 0 means 200
	Head   float64 // chin to crown; 0 means 0.19
	Trunk  float64 // hip to chin; 0 means 0.34
	Leg    float64 // sole to hip; 0 means 0.47
	Arm    float64 // shoulder to wrist; 0 means 0.30
	Foot   float64 // heel to toe; 0 means 0.15
	Hand   float64 // length of the hand; 0 means 0.075
	Girth  float64 // thickness of trunk and limbs against the customary; 0 means 1
}

// Cartoon is a build with a big head, big hands and big feet.
func Cartoon(height float64) Build {
	return Build{Height: height, Head: 0.36, Trunk: 0.30, Leg: 0.34, Arm: 0.25, Foot: 0.24, Hand: 0.10, Girth: 1.15}
}

// SmallFeet is a build with feet hardly wider than the leg.
func SmallFeet(height float64) Build {
	return Build{Height: height, Head: 0.26, Trunk: 0.34, Leg: 0.40, Arm: 0.27, Foot: 0.075, Hand: 0.06, Girth: 0.9}
}

func (b Build) withDefaults() Build {
	set := func(v *float64, d float64) {
		if *v == 0 {
			*v = d
		}
	}
	set(&b.Height, 200)
	set(&b.Head, 0.19)
	set(&b.Trunk, 0.34)
	set(&b.Leg, 0.47)
	set(&b.Arm, 0.30)
	set(&b.Foot, 0.15)
	set(&b.Hand, 0.075)
	set(&b.Girth, 1)
	return b
}

const (
	ankleShare = 0.045 // height of the ankle over the sole
	standing   = 0.993 // stretch of a standing leg: knees are never locked
	reach      = 0.997 // the most a leg stretches
	heelShare  = 0.30  // part of the foot behind the ankle
)

// bone returns the length of thigh and of shin, in shares of the height.
func (b Build) bone() float64 { return (b.Leg - ankleShare) / standing / 2 }
