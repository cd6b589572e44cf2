package solid

import "holdfast/motion/scene/capture"

// Radii of the body's parts in metres, for a body of capture.Height. Common
// practice, no source.
const (
	hipGirth, shoulderGirth = 0.105, 0.075
	waistGirth, neckGirth   = 0.125, 0.055
	headGirth               = 0.1
	thighGirth, kneeGirth   = 0.085, 0.058
	calfGirth, ankleGirth   = 0.056, 0.042
	heelGirth, ballGirth    = 0.038, 0.036
	toeGirth                = 0.024
	upperArmGirth           = 0.047
	elbowGirth, wristGirth  = 0.04, 0.03
	handGirth, handLength   = 0.04, 0.07
)

// body appends the parts of a body in a pose, dressed in c.
func body(dst []cone, p *capture.Pose, c costume) []cone {
	ahead := p.Facing()
	right := p[capture.Hip.On(capture.Right)].Sub(p[capture.Hip]).Unit()
	neck, crown := p[capture.Neck], p[capture.Crown]
	up := crown.Sub(neck).Unit()
	dst = append(dst,
		cone{p[capture.Pelvis], neck, waistGirth, neckGirth, ahead, c.coat},
		cone{p[capture.Hip], p[capture.Hip.On(capture.Right)], hipGirth, hipGirth, ahead, c.legs},
		cone{p[capture.Shoulder], p[capture.Shoulder.On(capture.Right)], shoulderGirth, shoulderGirth, ahead, c.coat},
		cone{neck, crown.Sub(up.Times(headGirth)), neckGirth, neckGirth, ahead, c.skin},
		cone{crown.Sub(up.Times(1.35 * headGirth)), crown.Sub(up.Times(headGirth)), 0.92 * headGirth, headGirth, ahead, c.hair})
	for side := range 2 {
		dst = append(dst, cone{p[capture.Hip.On(side)], p[capture.Shoulder.On(side)], hipGirth, shoulderGirth, ahead, c.coat})
		dst = leg(dst, p, side, right, c)
		dst = arm(dst, p, side, ahead.Add(right), c)
	}
	return dst
}

// leg appends thigh, shank and a foot of four parts. The axes of the foot lie
// over its sole by their radius.
func leg(dst []cone, p *capture.Pose, side int, right Vec, c costume) []cone {
	on := func(j capture.Joint) Vec { return p[j.On(side)] }
	knee, ankle := on(capture.Knee), on(capture.Ankle)
	ahead := on(capture.Ball).Sub(on(capture.Heel)).Unit()
	up := ankle.Sub(on(capture.Heel)).Across(ahead).Unit()
	heel := on(capture.Heel).Add(up.Times(heelGirth)).Add(ahead.Times(heelGirth / 2))
	ball := on(capture.Ball).Add(up.Times(ballGirth))
	toe := on(capture.Toe).Add(up.Times(toeGirth))
	return append(dst,
		cone{on(capture.Hip), knee, thighGirth, kneeGirth, right, c.legs},
		cone{knee, ankle, calfGirth, ankleGirth, right, c.legs},
		cone{heel, ball, heelGirth, ballGirth, right, c.shoes},
		cone{ball, toe, ballGirth, toeGirth, right, c.shoes},
		cone{ankle, heel, ankleGirth, heelGirth, right, c.shoes},
		cone{ankle, ball, ankleGirth, ballGirth, right, c.shoes})
}

func arm(dst []cone, p *capture.Pose, side int, ref Vec, c costume) []cone {
	shoulder, elbow, hand := p[capture.Shoulder.On(side)], p[capture.Elbow.On(side)], p[capture.Hand.On(side)]
	along := hand.Sub(elbow).Unit()
	return append(dst,
		cone{shoulder, elbow, upperArmGirth, elbowGirth, ref, c.coat},
		cone{elbow, hand, elbowGirth, wristGirth, ref, c.coat},
		cone{hand, hand.Add(along.Times(handLength)), handGirth, 0.8 * handGirth, ref, c.skin})
}
