package feet

import (
	"math"
	"sync"
)

// A least is the least cost over a grid of displacements, whole pixels.
type least struct {
	dx, dy     float64 // where, to a fraction of a pixel
	cost       float64
	l, r, u, d float64 // cost a pixel to the left, right, up and down of it
	ok         bool    // inside the grid, not on its rim
}

// search finds the displacement of least cost, at most rx and ry pixels from
// none. cost may return any value over limit as soon as it knows that its own is;
// it is infinite where there is nothing to compare. Several hands search at once,
// each in places of its own: cost must bear it, and the result does not depend on
// how many they are.
func search(rx, ry, hands int, cost func(dx, dy int, limit float64) float64) least {
	still := candidate{cost: cost(0, 0, math.Inf(1))} // most things stand still
	found := make([]candidate, hands)
	var group sync.WaitGroup
	for h := range hands {
		part := func() {
			best, k := still, 0
			outwards(rx, ry, func(dx, dy int) {
				if k++; k%hands != h {
					return
				}
				if c := (candidate{dx, dy, cost(dx, dy, best.cost)}); c.beats(best) {
					best = c
				}
			})
			found[h] = best
		}
		if h == hands-1 {
			part()
			break
		}
		group.Add(1)
		go func() {
			defer group.Done()
			part()
		}()
	}
	group.Wait()
	best := found[0]
	for _, c := range found {
		if c.beats(best) {
			best = c
		}
	}
	return best.least(rx, ry, cost)
}

// A candidate is a displacement with its cost.
type candidate struct {
	dx, dy int
	cost   float64
}

// beats reports whether a goes before b: the cheaper, of equals none at all, else
// the one up and left. The order of a search then does not show.
func (a candidate) beats(b candidate) bool {
	if a.cost != b.cost {
		return a.cost < b.cost
	}
	if b.dx == 0 && b.dy == 0 || a.dx == 0 && a.dy == 0 {
		return a.dx == 0 && a.dy == 0 && (b.dx != 0 || b.dy != 0)
	}
	return a.dy < b.dy || a.dy == b.dy && a.dx < b.dx
}

// least finds the fraction of a pixel beside the cheapest displacement.
func (a candidate) least(rx, ry int, cost func(dx, dy int, limit float64) float64) least {
	bx, by, best := a.dx, a.dy, a.cost
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
