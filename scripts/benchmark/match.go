package main

// match pairs n true things with m found ones, each with at most one of the
// other kind, so that as many as can be are paired. fits says whether a pair
// may be. It returns the found one of each true one, -1 for none; equal input
// gives equal pairs.
//
// Maximum-cardinality matching in a bipartite graph by augmenting paths: H. W.
// Kuhn, "The Hungarian method for the assignment problem", 1955, as in
// mir_eval (Raffel et al., ISMIR 2014), whose rule of one-to-one matching this
// follows: taking the nearest first would leave things over that a better
// choice of partners pairs.
func match(n, m int, fits func(i, j int) bool) []int {
	a := &assignment{fits: fits, partner: filled(n, -1), owner: filled(m, -1), tried: make([]int, m)}
	for i := range n {
		a.round = i + 1
		a.place(i)
	}
	return a.partner
}

// An assignment is a matching being made.
type assignment struct {
	fits    func(i, j int) bool
	partner []int // of each true thing
	owner   []int // of each found thing
	tried   []int // the round in which a found thing was last looked at
	round   int
}

// place finds a partner for i, moving others to another one where that helps.
func (a *assignment) place(i int) bool {
	for j := range a.owner {
		if a.tried[j] == a.round || !a.fits(i, j) {
			continue
		}
		a.tried[j] = a.round
		if a.owner[j] < 0 || a.place(a.owner[j]) {
			a.owner[j], a.partner[i] = i, j
			return true
		}
	}
	return false
}

func filled(n, v int) []int {
	s := make([]int, n)
	for i := range s {
		s[i] = v
	}
	return s
}

// unmatched returns which of m found things have no partner.
func unmatched(partner []int, m int) []int {
	taken := make([]bool, m)
	for _, j := range partner {
		if j >= 0 {
			taken[j] = true
		}
	}
	var list []int
	for j, t := range taken {
		if !t {
			list = append(list, j)
		}
	}
	return list
}
