package sheet

import (
	"bytes"
	"flag"
	"io"
	"os"
	"path/filepath"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files anew")

// writers are all the ways a sheet goes out.
var writers = []struct {
	name  string
	write func(*Sheet, io.Writer) error
}{
	{"json", (*Sheet).WriteJSON},
	{"csv", (*Sheet).WriteCSV},
	{"notes.csv", (*Sheet).WriteNotesCSV},
	{"vtt", (*Sheet).WriteVTT},
	{"txt", func(s *Sheet, w io.Writer) error { return s.WriteTable(w, 0) }},
	{"narrow.txt", func(s *Sheet, w io.Writer) error { return s.WriteTable(w, MinWidth) }},
}

func TestGolden(t *testing.T) {
	for _, c := range []struct {
		name  string
		sheet *Sheet
	}{{"sample", sampleSheet()}, {"one-frame", oneFrame()}, {"feet", feetSample()}} {
		for _, w := range writers {
			path := filepath.Join("..", "testdata", "sheet", c.name+"."+w.name)
			var got bytes.Buffer
			if err := w.write(c.sheet, &got); err != nil {
				t.Fatalf("%s: %v", path, err)
			}
			if *update {
				if err := os.WriteFile(path, got.Bytes(), 0o644); err != nil {
					t.Fatal(err)
				}
				continue
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(got.Bytes(), want) {
				t.Errorf("%s differs; got:\n%s", path, got.Bytes())
			}
		}
	}
}
