package main

import (
	"bytes"
	"image"
	"os"
	"slices"
	"testing"

	"holdfast/motion/scene"
)

// Without recordings the drawn scenes are left, and a line says so; solid ones
// cannot be asked for.
func TestChooseSetsWithoutRecordings(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, c := range []struct {
		word  string
		want  []string
		lines int
	}{
		{"", []string{setDrawn}, 1}, {setAll, []string{setDrawn}, 1}, {setDrawn, []string{setDrawn}, 0}, {setSolid, nil, 0}, {"flat", nil, 0},
	} {
		var said bytes.Buffer
		got, err := chooseSets(c.word, &said)
		if !slices.Equal(got, c.want) || (err == nil) != (c.want != nil) || bytes.Count(said.Bytes(), []byte("\n")) != c.lines {
			t.Errorf("%q: %v, %v, said %q", c.word, got, err, said.String())
		}
	}
}

// Every solid scene runs clean at the usual size, and under about one further
// condition; filters leave all pairs of what they let through.
func TestPlanOfSolidScenes(t *testing.T) {
	t.Chdir("../..")
	if _, err := os.Stat(recordings); err != nil {
		t.Skip("no recordings beside the repository")
	}
	var said bytes.Buffer
	sets, err := chooseSets("", &said)
	if err != nil || !slices.Equal(sets, []string{setDrawn, setSolid}) || said.Len() > 0 {
		t.Fatalf("%v, %v, said %q", sets, err, said.String())
	}
	scenes, err := originals(setSolid, smallSize)
	if err != nil {
		t.Fatal(err)
	}
	jobs, err := (&plan{}).jobs([]string{setSolid})
	if err != nil {
		t.Fatal(err)
	}
	clean, met := 0, map[string]int{}
	for _, j := range jobs {
		if j.size != mainSize || j.set != setSolid {
			t.Errorf("%s, %s at %v", j.set, j.name, j.size)
		}
		if j.variant.Name == "clean" {
			clean++
		} else {
			met[j.variant.Name]++
		}
	}
	if clean != len(scenes) || len(met) != len(scene.Variants())-1 {
		t.Errorf("%d clean of %d scenes, further conditions %v", clean, len(scenes), met)
	}
	for v, n := range met {
		if n < len(scenes)/thinningSolid {
			t.Errorf("%s: %d scenes", v, n)
		}
	}
	one := plan{scenes: []string{"solid-run"}, sizes: []image.Point{smallSize}}
	if jobs, err = one.jobs(sets); err != nil || len(jobs) != len(scene.Variants()) {
		t.Errorf("one scene at one size: %d trials, %v", len(jobs), err)
	}
}
