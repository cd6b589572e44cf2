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
	outwards(rx, ry, func(dx, dy int) {
		c := cost(dx, dy, best)
		// Of equals, none goes first, then the one up and left: the order of the
		// search must not show.
		if c < best || c == best && (bx != 0 || by != 0) && (dy < by || dy == by && dx < bx) {
			bx, by, best = dx, dy, c
		}
	})
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

// outwards goes through a grid ring by ring from its middle, which is left out:
// most things go little, and a low cost found early spares the others.
func outwards(rx, ry int, visit func(dx, dy int)) {
	for k := 1; k <= max(rx, ry); k++ {
		for dy := -min(k, ry); dy <= min(k, ry); dy++ {
			if dy == -k || dy == k {
				for dx := -min(k, rx); dx <= min(k, rx); dx++ {
					visit(dx, dy)
				}
			} else if k <= rx {
				visit(-k, dy)
				visit(k, dy)
			}
		}
	}
}

// vertex is where the parabola through three values at -1, 0 and 1 is least.
func vertex(a, b, c float64) float64 {
	d := a - 2*b + c
	if d <= 0 || math.IsInf(d, 0) {
		return 0
	}
	return (a - c) / (2 * d)
}
