package main

import (
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// wellKnown are the licences that a dependency may have.
var wellKnown = []string{"MIT", "BSD-2-Clause", "BSD-3-Clause", "Apache-2.0", "ISC", "CC-BY-4.0", "FTL"}

func TestLicencesAreThoseOfGoMod(t *testing.T) {
	text, err := os.ReadFile("../../go.mod")
	if err != nil {
		t.Fatal(err)
	}
	var want, got []string
	for _, m := range regexp.MustCompile(`(?m)^(?:require )?\t?(\S+\.\S+/\S+) (v\S+)`).FindAllStringSubmatch(string(text), -1) {
		want = append(want, m[1]+" "+m[2])
	}
	for _, l := range licences() {
		got = append(got, l.module+" "+l.version)
		if !slices.Contains(wellKnown, l.name) {
			t.Errorf("%s: licence %q", l.module, l.name)
		}
	}
	slices.Sort(want)
	if len(want) < 10 || !slices.Equal(want, got) {
		t.Errorf("licences.txt has\n%s\ngo.mod has\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// licenceMarks are phrases that only one family of licences has.
var licenceMarks = map[string]string{
	"MIT": "Permission is hereby granted, free of charge", "Apache-2.0": "Apache License",
	"BSD-2-Clause": "Redistributions in binary form", "BSD-3-Clause": "Neither the name of",
	"CC-BY-4.0": "Creative Commons Attribution 4.0 International Public License", "FTL": "The FreeType License",
}

// Each licence is held to the text that the module itself carries.
func TestLicencesAreThoseOfTheModules(t *testing.T) {
	for _, l := range licences() {
		out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", l.module).Output()
		dir := strings.TrimSpace(string(out))
		if err != nil || dir == "" {
			continue // not in the module cache: nothing that is built needs it
		}
		entries, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			if !strings.HasPrefix(strings.ToUpper(e.Name()), "LICEN") {
				continue
			}
			text, err := os.ReadFile(dir + "/" + e.Name())
			if err != nil {
				t.Fatal(err)
			}
			if words := strings.Join(strings.Fields(string(text)), " "); !strings.Contains(words, licenceMarks[l.name]) {
				t.Errorf("%s: %s does not read as %s", l.module, e.Name(), l.name)
			}
			break
		}
	}
}

// What is listed as built in is what the linker takes.
func TestBuiltInModulesAreListed(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{.Path}}{{end}}", ".").Output()
	if err != nil {
		t.Fatal(err)
	}
	linked := strings.Fields(string(out))
	for _, l := range licences() {
		if (l.part == "built in") != slices.Contains(linked, l.module) {
			t.Errorf("%s is listed as %q", l.module, l.part)
		}
	}
}
