package batch

import (
	"os"
	"path/filepath"
	"testing"
)

// gatherable is the folder of a batch whose two shares are done, with the plan that
// they have in common.
func gatherable(t *testing.T) (folder string, plan *Plan) {
	t.Helper()
	folder = t.TempDir()
	plan = NewPlan("test", []Clip{{Path: "a.mp4", Name: "a"}, {Path: "b.mp4", Name: "b"}, {Path: "c.mp4", Name: "c", Same: "a"}}, nil, nil)
	for i := 1; i <= 2; i++ {
		s := Share{i, 2}
		at := s.folder(folder)
		for _, c := range s.of(plan.work()) {
			if err := os.MkdirAll(filepath.Join(at, c.Name), 0o777); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(at, c.Name, c.Name+RecordSuffix), []byte(plan.Stamp+"\n"), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		if err := plan.write(at); err != nil {
			t.Fatal(err)
		}
	}
	return folder, plan
}

// Stopped at any of its steps, gathering goes on when it is called again.
func TestGatherStopped(t *testing.T) {
	for name, stop := range map[string]func(folder string) error{
		"before it began": func(string) error { return nil },
		"with one moved": func(folder string) error {
			return move{filepath.Join(folder, shareFolder, "1-of-2", "a"), filepath.Join(folder, "a")}.do()
		},
		"while it cleared up": func(folder string) error {
			for i, name := range []string{"a", "b"} {
				if err := (move{filepath.Join(Share{i + 1, 2}.folder(folder), name), filepath.Join(folder, name)}).do(); err != nil {
					return err
				}
			}
			plan, err := readPlan(Share{1, 2}.folder(folder))
			if err != nil {
				return err
			}
			if err := plan.write(folder); err != nil {
				return err
			}
			aside := filepath.Join(folder, gatheredFolder)
			if err := os.Rename(filepath.Join(folder, shareFolder), aside); err != nil {
				return err
			}
			return os.RemoveAll(filepath.Join(aside, "1-of-2"))
		},
	} {
		folder, want := gatherable(t)
		if err := stop(folder); err != nil {
			t.Fatal(err)
		}
		plan, err := Gather(t.Context(), folder)
		if err != nil {
			t.Errorf("stopped %s: %v", name, err)
			continue
		}
		if !plan.equal(want) {
			t.Errorf("stopped %s: the plan is another", name)
		}
		entries, err := os.ReadDir(folder)
		if err != nil {
			t.Fatal(err)
		}
		var there []string
		for _, e := range entries {
			there = append(there, e.Name())
		}
		if len(there) != 3 || there[0] != "a" || there[1] != "b" || there[2] != planFile {
			t.Errorf("stopped %s: %v is there", name, there)
		}
	}
}
