package main

import (
	"image"
	"testing"

	"holdfast/motion/scene"
)

// Every condition and every scene has its place in the short plan, and filters
// leave all pairs of what they let through.
func TestPlan(t *testing.T) {
	scenes, err := scene.Catalogue(smallSize)
	if err != nil {
		t.Fatal(err)
	}
	n, v := len(scenes), len(scene.Variants())
	tests := []struct {
		name string
		plan plan
		want func(jobs int) bool
	}{
		{"short", plan{}, func(k int) bool { return k >= 2*n+(v-1)*(n/thinning) && k <= 2*n+(v-1)*(n/thinning+1) }},
		{"full", plan{full: true}, func(k int) bool { return k == 2*n*v+len(largeSizes)*n }},
		{"one scene", plan{scenes: []string{"walk"}}, func(k int) bool { return k == 2*v }},
		{"one variant", plan{variants: []string{"noise"}}, func(k int) bool { return k == 2*n }},
		{"one size", plan{sizes: []image.Point{{X: 64, Y: 36}}}, func(k int) bool { return k == n*v }},
		{"one trial", plan{scenes: []string{"hops"}, variants: []string{"twos"}, sizes: []image.Point{mainSize}}, func(k int) bool { return k == 1 }},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			jobs, err := c.plan.jobs([]string{setDrawn})
			if err != nil {
				t.Fatal(err)
			}
			if !c.want(len(jobs)) {
				t.Errorf("%d trials of %d scenes and %d variants", len(jobs), n, v)
			}
			met := map[string]bool{}
			for _, j := range jobs {
				met[j.scene] = true
			}
			if len(c.plan.scenes) == 0 && len(met) != n {
				t.Errorf("%d of %d scenes", len(met), n)
			}
		})
	}
	if _, err := (&plan{scenes: []string{"nobody"}}).jobs([]string{setDrawn}); err == nil {
		t.Error("a scene that is not there was found")
	}
}

func TestParseSizes(t *testing.T) {
	got, err := parseSizes("640x360,320x180")
	if err != nil || len(got) != 2 || got[0] != mainSize || got[1] != smallSize {
		t.Errorf("got %v, %v", got, err)
	}
	for _, bad := range []string{"640", "640x", "x360", "640x360p", "640X360", "0640x360", ","} {
		if got, err := parseSizes(bad); err == nil {
			t.Errorf("%q is taken for %v", bad, got)
		}
	}
}
