package compare

import (
	"testing"

	"holdfast/sheet"
	"holdfast/sheet/internal/sketch"
)

// TestFramesOfOneClipAlone wants what lies before the first frame of a trimmed
// pass told, though the clips are in step from there on: no curve denies it.
func TestFramesOfOneClipAlone(t *testing.T) {
	whole, trimmed := sketch.Of("h24 m10 "+lantern), sketch.Of(lantern)
	c := New(whole, trimmed, sheet.Tool{})
	if !c.Related || c.Offset != -34 || len(c.Differences) == 0 || c.Differences[0].Kind != MoveMissing && c.Differences[0].Kind != HoldMissing {
		t.Errorf("offset %d, %v", c.Offset, c.Summary)
	}
	c = New(trimmed, whole, sheet.Tool{})
	if !c.Related || c.Offset != 34 || len(c.Differences) == 0 || c.Differences[0].Kind != MoveExtra && c.Differences[0].Kind != HoldExtra {
		t.Errorf("offset %d, %v", c.Offset, c.Summary)
	}
}
