package main

// judgeCuts compares the frames on which shots start, which must be exact.
func judgeCuts(t *trial) {
	truth, found := t.truth.Cuts, []int(nil)
	for i, s := range t.result.Shots {
		if i > 0 {
			found = append(found, s.Start)
		}
	}
	partner := match(len(truth), len(found), func(i, j int) bool { return truth[i] == found[j] })
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
