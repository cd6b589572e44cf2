package capture

// A Joint is a point of the body that a Pose places.
type Joint int

// The points of a body. Of a pair the left one comes first, the right one is
// its Right. Heel, Ball and Toe lie on the sole: under the heel, under the ball
// of the foot and under the tip of the toes.
const (
	Pelvis Joint = iota
	Chest
	Neck
	Crown
	Hip
	_
	Knee
	_
	Ankle
	_
	Heel
	_
	Ball
	_
	Toe
	_
	Shoulder
	_
	Elbow
	_
	Hand
	_
	Joints int = iota
)

// Sides of the body.
const (
	Left  = 0
	Right = 1
)

// On returns the joint of a pair on the given side.
func (j Joint) On(side int) Joint { return j + Joint(side) }

// A Pose is where the points of a body are, in metres.
type Pose [Joints]Vec

// soles are the points that can stand on the ground.
var soles = [...]Joint{Heel, Ball, Toe}

// Facing returns the level unit vector to which the pelvis faces.
func (p *Pose) Facing() Vec {
	toRight := p[Hip.On(Right)].Sub(p[Hip.On(Left)])
	return Vec{Y: 1}.Cross(toRight).Flat().Unit()
}

// Lowest returns the height of the lowest point of the soles.
func (p *Pose) Lowest() float64 { return min(p.soleLevel(Left), p.soleLevel(Right)) }

// soleLevel returns the height of the lowest point of one sole.
func (p *Pose) soleLevel(side int) float64 {
	low := p[Heel.On(side)].Y
	for _, j := range soles {
		low = min(low, p[j.On(side)].Y)
	}
	return low
}

// lowerFoot returns the side whose foot is lower.
func (p *Pose) lowerFoot() int {
	if min(p[Heel].Y, p[Ball].Y) <= min(p[Heel.On(Right)].Y, p[Ball.On(Right)].Y) {
		return Left
	}
	return Right
}

// masses are the shares of the body's mass that segments have, and where along
// the way between two joints their middle lies: D. A. Winter, Biomechanics and
// Motor Control of Human Movement, after Dempster (from memory).
var masses = []struct {
	from, to     Joint
	middle, mass float64
	pair         bool
}{
	{Pelvis, Neck, 0.56, 0.497, false},
	{Neck, Crown, 0.5, 0.081, false},
	{Hip, Knee, 0.433, 0.100, true},
	{Knee, Ankle, 0.433, 0.0465, true},
	{Heel, Toe, 0.5, 0.0145, true},
	{Shoulder, Elbow, 0.436, 0.028, true},
	{Elbow, Hand, 0.5, 0.022, true},
}

// Centre returns the body's centre of mass.
func (p *Pose) Centre() Vec {
	var sum Vec
	for _, m := range masses {
		for side := range 2 {
			if side == Right && !m.pair {
				break
			}
			from, to := p[m.from], p[m.to]
			if m.pair {
				from, to = p[m.from.On(side)], p[m.to.On(side)]
			}
			sum = sum.Add(from.Toward(to, m.middle).Times(m.mass))
		}
	}
	return sum
}

// legShare is what thigh and shank make of a standing body's height: 0.245 and
// 0.246, Drillis & Contini 1966.
const legShare = 0.245 + 0.246

// height is the standing height that the bones of the legs speak for.
func (p *Pose) height() float64 {
	sum := 0.0
	for side := range 2 {
		knee := p[Knee.On(side)]
		sum += knee.Sub(p[Hip.On(side)]).Norm() + knee.Sub(p[Ankle.On(side)]).Norm()
	}
	return sum / 2 / legShare
}
