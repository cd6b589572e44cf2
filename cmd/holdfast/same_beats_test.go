package main

import (
	"github.com/rogpeppe/go-internal/testscript"
)

// samebeats SHEET SHEET: both have the same beats, each start and end within
// a frame.
func samebeats(ts *testscript.TestScript, neg bool, args []string) {
	a, err := readSheet(ts.MkAbs(args[0]))
	ts.Check(err)
	b, err := readSheet(ts.MkAbs(args[1]))
	ts.Check(err)
	if len(a.Beats) < 4 || len(a.Beats) != len(b.Beats) {
		ts.Fatalf("%d and %d beats", len(a.Beats), len(b.Beats))
	}
	for i, x := range a.Beats {
		y := b.Beats[i]
		if x.Kind != y.Kind || max(x.Start-y.Start, y.Start-x.Start) > 1 || max(x.End-y.End, y.End-x.End) > 1 {
			ts.Fatalf("beat %d: %s %d–%d and %s %d–%d", i+1, x.Kind, x.Start, x.End, y.Kind, y.Start, y.End)
		}
	}
}
