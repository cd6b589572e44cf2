package sheet

import (
	"bytes"
	"errors"
	"reflect"
	"strings"
	"testing"
)

func mustHouse(t *testing.T, text string) *House {
	t.Helper()
	h, err := ReadHouse(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return h
}

func TestHouse(t *testing.T) {
	for name, text := range map[string]string{
		"tables":       "[slide]\non = false\n\n[foot-pop]\npop_seconds_most = 0.125 # three frames\n",
		"dotted keys":  "slide.on = false\nfoot-pop.pop_seconds_most = 0.125",
		"inline":       "slide = {on = false}\nfoot-pop = {pop_seconds_most = 1.25e-1}",
		"quoted":       "[\"slide\"]\n'on' = false\n['foot-pop']\n\"pop_seconds_most\" = 0.125",
		"Windows":      "\ufeff[slide]\r\non = false\r\n[foot-pop]\r\npop_seconds_most = 0.125\r\n",
		"rest default": "[slide]\non = false\nfix_share = 0.04\n[foot-pop]\npop_seconds_most = 0.125\n[even-hops]\non = true",
	} {
		h := mustHouse(t, text)
		if h.On(slideRule) || !h.On(footPopRule) || !h.On(evenHopsRule) {
			t.Errorf("%s: off %v", name, h.off)
		}
		if h.Value(footPopSeconds) != 0.125 || h.Value(plainSlide) != 0.04 || h.Value(sureSlide) != 6 {
			t.Errorf("%s: values %v", name, h.values)
		}
	}
}

func TestWholeNumbersStandForThresholds(t *testing.T) {
	if h := mustHouse(t, "[rooted-feet]\nrooted_seconds = 5\n[slide]\nfix_frames = 7.0"); h.Value(rootedSeconds) != 5 || h.Value(sureSlide) != 7 {
		t.Errorf("values %v", h.values)
	}
}

// What a house file may not hold is told by its first wrong line.
func TestWrongHouses(t *testing.T) {
	for _, c := range []struct {
		text string
		line int
		says string
		hint string
	}{
		{"[slid]\nfix_share = 0.1", 1, `no rule "slid"`, "rooted-feet"},
		{"\n\n[slide]\n\nfix_shar = 0.1", 5, `slide has no threshold "fix_shar"`, "fix_share"},
		{"on = false", 1, `no rule "on"`, "slide"},
		{"slide = 3", 1, "slide is a number, no table", "[slide]"},
		{"slide = false", 1, "slide is true or false, no table", "[slide]"},
		{"[[slide]]\non = false", 1, "slide is a list, no table", "[slide]"},
		{"[slide]\nfix_share = \"0.1\"", 2, "slide.fix_share is a text, no number", "fix_share = 0.04"},
		{"[slide]\nfix_share = [0.1]", 2, "is a list", "fix_share = 0.04"},
		{"[slide.fix_share]\nvalue = 1", 1, "is a table", "fix_share = 0.04"},
		{"[slide]\nfix_share = 2001-01-01", 2, "is a date or time", "fix_share = 0.04"},
		{"[slide]\nfix_share = true", 2, "is true or false", "fix_share = 0.04"},
		{"[slide]\non = 0", 2, "slide.on is a number, neither true nor false", "on = true"},
		{"[slide]\nfix_share = 0.01", 2, "slide.fix_share is 0.01, out of range", "0.03 to 1"},
		{"[slide]\nfix_share = 1.01", 2, "out of range", "figure heights"},
		{"[slide]\nfix_share = nan", 2, "NaN, out of range", "0.03 to 1"},
		{"[slide]\nfix_share = inf", 2, "out of range", "0.03 to 1"},
		{"[slide]\nfix_frames = 6.5", 2, "no whole number", "fix_frames = 7"},
		{"[slide]\nfix_share = 0.1\nfix_share = 0.1", 3, "no TOML", "--as toml"},
		{"[slide]\n[slide]", 2, "no TOML", "--as toml"},
		{"[slide\nfix_share = 0.1", 1, "no TOML", "--as toml"},
		{"[slide]\nfix_share == 0.1", 2, "no TOML", "--as toml"},
		{"[slide]\nfix_share = 0.1\n\xff = 1", 3, "no TOML", "--as toml"},
		{"[zeta]\n[slide]\nfix_share = 7\n[alpha]", 1, `"zeta"`, "slide"},
		{"slide.fix_share = 7\nslide.on = 1", 1, "out of range", ""},
		{"slide = {on = true,\n fix_share = 7}", 2, "out of range", ""},
		{"\"\x1b[31m\" = 1", 1, "", ""},
		{"\"\\u202e\" = 1", 1, `\u202e`, "slide"},
		{strings.Repeat("#", maxHouse+1), 0, "larger than 256 kB", "--as toml"},
	} {
		_, err := ReadHouse(strings.NewReader(c.text))
		var wrong *HouseError
		if !errors.As(err, &wrong) {
			t.Errorf("%.40q: %v", c.text, err)
			continue
		}
		if wrong.Line != c.line || !strings.Contains(wrong.Error(), c.says) || !strings.Contains(wrong.Hint(), c.hint) || unseen(wrong.Error()) {
			t.Errorf("%.40q: line %d, %q, hint %q", c.text, wrong.Line, wrong, wrong.Hint())
		}
	}
}

func TestHouseIsReadBack(t *testing.T) {
	for _, house := range []*House{nil, mustHouse(t, ""), mustHouse(t, "slide.on = false\nslide.fix_share = 0.125\nfoot-pop.pop_seconds_most = 0.011")} {
		var b bytes.Buffer
		if err := WriteHouse(&b, house); err != nil {
			t.Fatal(err)
		}
		back, err := ReadHouse(&b)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(back.settings(), house.settings()) {
			t.Errorf("read %v\nwrote %v", back.settings(), house.settings())
		}
	}
}

func FuzzHouse(f *testing.F) {
	var whole bytes.Buffer
	if err := WriteHouse(&whole, nil); err != nil {
		f.Fatal(err)
	}
	f.Add(whole.Bytes())
	for _, text := range []string{
		"", "[slide]\non = false", "slide.fix_share = 0.05", "slide = {on = false, fix_share = 1e-1}", "[[slide]]\non = false",
		"[slide]\nfix_share = nan", "a = [[1, {b = 2}], '''x\ny''']", "[slide]\nfix_frames = 0x10", "\ufeff[slide]", "x = 1979-05-27T07:32:00Z",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		house, err := ReadHouse(bytes.NewReader(text))
		if err != nil {
			var wrong *HouseError
			if !errors.As(err, &wrong) || unseen(err.Error()) || unseen(wrong.Hint()) || wrong.Hint() == "" {
				t.Errorf("%q", err)
			}
			if lines := bytes.Count(text, []byte("\n")) + 1; wrong.Line > lines {
				t.Errorf("line %d of %d", wrong.Line, lines)
			}
			return
		}
		for _, rule := range rules {
			for _, h := range rule.Thresholds {
				if v := house.Value(h); !(v >= h.Min && v <= h.Max) {
					t.Errorf("%s.%s is %g", rule.Kind, h.Name, v)
				}
			}
		}
	})
}
