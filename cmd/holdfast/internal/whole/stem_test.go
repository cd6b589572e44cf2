package whole

import (
	"path/filepath"
	"strings"
	"testing"
)

func TestStem(t *testing.T) {
	for name, want := range map[string]string{
		"walk.mp4": "walk", "walk.v2.mp4": "walk.v2", "noext": "noext", "shot.%04d.png": "shot.%04d",
		"shot.[1001-1096].png": "shot.[1001-1096]", "ünï日本.mp4": "ünï日本",
		"..mp4": "clip_", ".mp4": "clip", "...mp4": "", ".hidden.mp4": "_hidden", "-rf.mp4": "_rf", "~.mp4": "_",
		"a/b.mp4": "a_b", `back\slash.mp4`: "back_slash", "new\nline.mp4": "new_line", "bad\xff.mp4": "bad_",
		"rtl\u202egpj.mp4": "rtl_gpj", "trailing.mp4.": "trailing.mp4", "": "clip",
	} {
		got := Stem(name)
		if want != "" && want != "clip_" && got != want {
			t.Errorf("the stem of %q is %q, want %q", name, got, want)
		}
		if strings.ContainsAny(got, "/\x00\n") || strings.HasPrefix(got, ".") || strings.HasPrefix(got, "-") ||
			got == "" || filepath.Base(got) != got {
			t.Errorf("the stem of %q is %q", name, got)
		}
	}
	if got := Stem(strings.Repeat("é", 250) + ".mp4"); len(got) > maxStem || !strings.HasPrefix(got, "éé") {
		t.Errorf("a long name has a stem of %d bytes", len(got))
	}
}
