package main

import (
	"image"
	"slices"
	"testing"

	"holdfast/motion/scene"
	"holdfast/sheet"
)

// calmNotes is the most notes that a clip without a fault may get.
const calmNotes = 1

// A calm clip gets few notes and none that wants a change; of a clip with one
// fault of timing or poses the fault is the heaviest note, on its frames.
func TestNotesOfPlantedFaults(t *testing.T) {
	if testing.Short() {
		t.Skip("draws and measures sixteen clips")
	}
	clips, err := scene.Plant(image.Pt(320, 180))
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range clips {
		t.Run(p.Name, func(t *testing.T) {
			notes := sheetOfScene(t, p.Scene).Notes
			for _, n := range notes {
				t.Logf("%s, %s, %d–%d: %s", n.Weight, n.Kind, n.Start, n.End, n.Text)
			}
			if p.Fault == "" {
				if len(notes) > calmNotes || len(heaviest(notes, sheet.WeightFix)) > 0 {
					t.Error("a clip without a fault has more to say against it than it should")
				}
				return
			}
			weight := sheet.WeightFix
			if len(heaviest(notes, weight)) == 0 {
				weight = sheet.WeightLook
			}
			list := heaviest(notes, weight)
			if len(list) != 1 || list[0].Kind != p.Fault {
				t.Fatalf("the heaviest is not one %s", p.Fault)
			}
			if n := list[0]; off(n.Start, p.Start+1) > 1 || off(n.End, p.End+1) > 1 {
				t.Errorf("it lies on %d–%d, the fault on %d–%d", n.Start, n.End, p.Start+1, p.End+1)
			}
		})
	}
}

// heaviest returns the notes of a weight.
func heaviest(notes []sheet.Note, weight string) []sheet.Note {
	return slices.DeleteFunc(slices.Clone(notes), func(n sheet.Note) bool { return n.Weight != weight })
}

func off(a, b int) int { return max(a-b, b-a) }
