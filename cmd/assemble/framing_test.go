package assemble

import (
	"testing"

	"holdfast/sheet"
)

// A box that ends at the knees reaches down to the feet where those stand, one
// that holds the shadow under them as well ends there too, and what hangs lower
// stays.
func TestBoxesEndAtSoles(t *testing.T) {
	hold := sheet.NewHold(1, 0, 11, 15, sheet.HoldFrozen)
	boxes := [][4]float64{{10, 20, 30, 40}, {10, 20, 30, 40}, {}, {10, 20, 30, 83}, {10, 20, 30, 90}}
	endAtSoles(boxes, hold, []sheet.Contact{
		{Shot: 1, Figure: 1, Start: 12, End: 20, Y: 100},
		{Shot: 1, Figure: 2, Start: 1, End: 20, Y: 300},
		{Shot: 2, Figure: 1, Start: 1, End: 20, Y: 300},
	}, 1)
	want := [][4]float64{{10, 20, 30, 40}, {10, 20, 30, 80}, {}, {10, 20, 30, 80}, {10, 20, 30, 90}}
	for i := range want {
		if boxes[i] != want[i] {
			t.Errorf("frame %d: %v, want %v", 11+i, boxes[i], want[i])
		}
	}
}
