package feet

import "math"

// A least is the least cost over a grid of displacements, whole pixels.
type least struct {
	dx, dy     float64 // where, to a fraction of a pixel
	cost       float64
	l, r, u, d float64 // cost a pixel to the left, right, up and down of it
	ok         bool    // inside the grid, not on its rim
}

// search finds the displacement of least cost, at most rx and ry pixels from
// none. cost may return any value over limit as soon as it knows that its own is;
// it is infinite where there is nothing to compare.
func search(rx, ry int, cost func(dx, dy int, limit float64) float64) least {
	bx, by, best := 0, 0, cost(0, 0, math.Inf(1)) // most things stand still
	for dy := -ry; dy <= ry; dy++ {
		for dx := -rx; dx <= rx; dx++ {
			if c := cost(dx, dy, best); c < best {
				bx, by, best = dx, dy, c
			}
		}
	}
	m := least{dx: float64(bx), dy: float64(by), cost: best}
	m.ok = !math.IsInf(best, 1) && bx > -rx && by > -ry && bx < rx && by < ry
	if m.ok {
		at := func(dx, dy int) float64 { return cost(bx+dx, by+dy, math.Inf(1)) }
		m.l, m.r, m.u, m.d = at(-1, 0), at(1, 0), at(0, -1), at(0, 1)
		m.dx += vertex(m.l, best, m.r)
		m.dy += vertex(m.u, best, m.d)
	}
	return m
}

// vertex is where the parabola through three values at -1, 0 and 1 is least.
func vertex(a, b, c float64) float64 {
	d := a - 2*b + c
	if d <= 0 || math.IsInf(d, 0) {
		return 0
	}
	return (a - c) / (2 * d)
}
