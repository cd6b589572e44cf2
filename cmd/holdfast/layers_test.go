package main

import (
	"os/exec"
	"strings"
	"testing"
)

// mayImport says which rooms of the house each room may import, tests
// excepted. Data flows from extract through motion to sheet by way of assemble; only
// this command and the builders' tools see them all.
var mayImport = []struct{ room, allowed string }{
	{"holdfast/cmd/holdfast", "holdfast/cmd/holdfast holdfast/cmd/assemble holdfast/cmd/chart holdfast/cmd/draw holdfast/cmd/page holdfast/extract holdfast/motion holdfast/sheet"},
	{"holdfast/cmd/assemble", "holdfast/extract holdfast/motion holdfast/sheet"},
	{"holdfast/cmd/chart", "holdfast/cmd/chart holdfast/sheet"},
	{"holdfast/cmd/draw", "holdfast/motion/strip holdfast/sheet"},
	{"holdfast/cmd/page", "holdfast/sheet"},
	{"holdfast/extract", "holdfast/extract"},
	{"holdfast/motion", "holdfast/motion"},
	{"holdfast/sheet", "holdfast/sheet"},
	{"holdfast/scripts", "holdfast"},
}

// below reports whether a package is a room or inside it.
func below(pkg, room string) bool { return pkg == room || strings.HasPrefix(pkg, room+"/") }

func allowed(pkg, imported string) bool {
	for _, rule := range mayImport {
		if !below(pkg, rule.room) {
			continue
		}
		for _, room := range strings.Fields(rule.allowed) {
			if below(imported, room) {
				return true
			}
		}
		return false
	}
	return false
}

func TestLayers(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "holdfast/...").Output()
	if err != nil {
		t.Fatal("go list:", err)
	}
	packages, edges := 0, 0
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		names := strings.Fields(line)
		packages++
		for _, imported := range names[1:] {
			if !below(imported, "holdfast") {
				continue
			}
			edges++
			if !allowed(names[0], imported) {
				t.Errorf("%s may not import %s", names[0], imported)
			}
		}
	}
	if packages < 4 || edges < 3 {
		t.Errorf("only %d packages and %d imports seen", packages, edges)
	}
}

// motion knows nothing of files and processes.
func TestMotionTouchesNoFiles(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "holdfast/motion/...").Output()
	if err != nil {
		t.Fatal("go list:", err)
	}
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		names := strings.Fields(line)
		for _, imported := range names[1:] {
			if imported == "os" || below(imported, "os") || imported == "net" || below(imported, "net") {
				t.Errorf("%s imports %s", names[0], imported)
			}
		}
	}
}

func TestLayerRulesRefuse(t *testing.T) {
	for _, c := range []struct {
		pkg, imported string
		want          bool
	}{
		{"holdfast/motion/beats", "holdfast/sheet", false},
		{"holdfast/motion", "holdfast/extract", false},
		{"holdfast/extract", "holdfast/motion/scene", false},
		{"holdfast/sheet", "holdfast/motion", false},
		{"holdfast/sheet", "holdfast/cmd/holdfast", false},
		{"holdfast/sheetmetal", "holdfast/sheet", false},
		{"holdfast/motion", "holdfast/motion/beats", true},
		{"holdfast/cmd/holdfast", "holdfast/motion/scene", true},
	} {
		if got := allowed(c.pkg, c.imported); got != c.want {
			t.Errorf("%s importing %s: allowed is %v", c.pkg, c.imported, got)
		}
	}
}
