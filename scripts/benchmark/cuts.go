package main

// judgeCuts compares the frames on which shots start. After a cut they must be
// exact; after a dissolve or through black they may lie as far off as any edge.
func judgeCuts(t *trial) {
	truth := append(append([]int(nil), t.truth.Cuts...), t.truth.Joins...)
	var found []int
	for i, s := range t.result.Shots {
		if i > 0 {
			found = append(found, s.Start)
		}
	}
	partner := match(len(truth), len(found), func(i, j int) bool {
		if i < len(t.truth.Cuts) {
			return truth[i] == found[j]
		}
		return abs(truth[i]-found[j]) <= edgeWindow
	})
	t.score.Cuts = Counts{True: len(truth), Found: len(found)}
	for i, j := range partner {
		if j < 0 {
			t.fault("cut", count(truth[i]), "missed")
			continue
		}
		t.score.Cuts.Matched++
	}
	for _, j := range unmatched(partner, len(found)) {
		t.fault("cut", "none", count(found[j]))
	}
}
