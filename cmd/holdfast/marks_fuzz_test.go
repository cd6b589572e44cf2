package main

import (
	"math"
	"strings"
	"testing"
)

// Whatever is taken for a mark has the numbers that it wants, none of them beyond
// any picture; what is refused is refused in one line.
func FuzzMarks(f *testing.F) {
	for _, form := range markForms {
		f.Add(form.option, strings.SplitN(form.example, " ", 2)[1])
	}
	f.Add("figure", "NaN,1,1,1@1")
	f.Add("part", "=1,2,3,4@1")
	f.Add("feet", "1e400,0x1p9@\x1b[2J")
	f.Fuzz(func(t *testing.T, option, text string) {
		for _, form := range markForms {
			if form.option != option {
				continue
			}
			m, err := form.read(text)
			if err != nil {
				if strings.ContainsAny(err.Error(), "\n\r\x1b") {
					t.Errorf("%q: %q", text, err)
				}
				continue
			}
			for _, v := range m.numbers {
				if math.IsNaN(v) || math.Abs(v) > maxPixels {
					t.Errorf("%q is taken for %v", text, m.numbers)
				}
			}
			if len(m.numbers) != form.numbers || form.framed && m.place == "" || form.named && m.name == "" {
				t.Errorf("%q is taken for %+v", text, m)
			}
		}
	})
}
