package whole

import (
	"path/filepath"
	"strconv"
	"strings"
	"unicode/utf8"
)

// maxStem bounds a stem in bytes: file systems take names of 255, and a suffix
// follows.
const maxStem = 200

// Stem returns a clip's name without its suffix as a name any file system
// takes: nothing in it separates folders, hides the file, starts an option or
// does not print.
func Stem(name string) string {
	name = strings.TrimSuffix(name, filepath.Ext(name))
	var b strings.Builder
	for _, r := range name {
		switch {
		case r == utf8.RuneError, !strconv.IsPrint(r), strings.ContainsRune(`/\:*?"<>|`, r):
			r = '_'
		case (r == '.' || r == '-' || r == '~' || r == ' ') && b.Len() == 0:
			r = '_'
		}
		if b.Len()+utf8.RuneLen(r) > maxStem {
			break
		}
		b.WriteRune(r)
	}
	if stem := strings.TrimRight(b.String(), " ."); stem != "" {
		return stem
	}
	return "clip"
}
