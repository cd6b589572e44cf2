package overview

import (
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// A telling is what the name of a clip tells.
type telling struct {
	shot      string
	name      string // of the shot, in lower case and without folders
	pass      int
	reference bool
	named     bool // the pattern holds
}

// read reads the names of all items. Where two of them tell of the same pass of the
// same shot, each folder has a shot of that name, as where a class does one exercise
// and each has a folder; a reference that is the only one of that name is all of
// theirs then.
func (p Pattern) read(items []Item) []telling {
	list := make([]telling, len(items))
	folders := make([]string, len(items))
	first := map[telling]int{}
	apart, references := map[string]bool{}, map[string]int{} // by the names of shots
	for i, item := range items {
		name := NameOf(filepath.ToSlash(item.Path))
		t := &list[i]
		t.shot, t.pass, t.reference, t.named = p.split(name)
		if !t.named {
			t.shot = item.Name
			continue
		}
		t.name, folders[i] = strings.ToLower(t.shot), p.folder(name)
		if t.reference {
			references[t.name]++
		}
		key := telling{name: t.name, pass: t.pass, reference: t.reference}
		if before, ok := first[key]; !ok {
			first[key] = i
		} else if folders[before] != folders[i] {
			apart[t.name] = true
		}
	}
	root := common(folders, list)
	for i := range list {
		if t := &list[i]; apart[t.name] && !(t.reference && references[t.name] == 1) {
			t.shot = path.Join(strings.TrimPrefix(folders[i], root), t.shot)
		}
	}
	return list
}

// folder is that in which lies what the pattern reads.
func (p Pattern) folder(name string) string {
	return strings.TrimSuffix(name, p.tail(name))
}

// common is the folder that holds all named items, with its slash.
func common(folders []string, list []telling) string {
	var parts []string
	begun := false
	for i, folder := range folders {
		if !list[i].named {
			continue
		}
		own := strings.SplitAfter(folder, "/")
		if !begun {
			parts, begun = own, true
			continue
		}
		n := 0
		for n < len(parts) && n < len(own) && parts[n] == own[n] {
			n++
		}
		parts = slices.Clip(parts[:n])
	}
	return strings.Join(parts, "")
}
