package solid

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"holdfast/motion/scene/capture"
)

// What a clip of a walk over force plates says of contacts is what the table of
// the plates says, read here as it stands: the first frame at or after a foot
// comes down, the last one before it leaves.
func TestPlateWalks(t *testing.T) {
	table, err := os.Open(filepath.Join(recordings(t), "contacts.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer table.Close()
	rows, err := csv.NewReader(table).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	scenes := recorded(t)
	compared := 0
	for _, sc := range scenes {
		if !strings.HasPrefix(sc.Name, "solid-plates") {
			continue
		}
		for _, row := range rows[1:] {
			if row[0] == sc.spec.Figures[0].Recording {
				compared++
				comparePlate(t, sc, row)
			}
		}
	}
	if compared != 24 {
		t.Errorf("%d stands compared", compared)
	}
}

// comparePlate looks for a row of the table (recording, marker file, rate,
// foot, seconds on and off, frames on and off, on and off known) among the
// contacts of a scene.
func comparePlate(t *testing.T, sc *Scene, row []string) {
	t.Helper()
	number := func(i int) float64 {
		v, err := strconv.ParseFloat(row[i], 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	side := map[string]int{"L": capture.Left, "R": capture.Right}[row[3]]
	rate := sc.Rate.Float()
	start := int(math.Ceil(number(4) * rate))
	end := min(int(math.Floor(number(5)*rate)), sc.Frames-1)
	truth := sc.Feet()
	for i, c := range truth.Contacts {
		if truth.Stands[i].Side != side || c.Start != start {
			continue
		}
		whole := [2]bool{row[8] == "1", row[9] == "1"}
		if c.End != end || truth.Stands[i].Whole != whole {
			t.Errorf("%s: %v is on frames %d to %d, whole %v", sc.Name, row, c.Start, c.End, truth.Stands[i].Whole)
		}
		return
	}
	t.Errorf("%s: no contact of %v from frame %d to %d", sc.Name, row, start, end)
}
