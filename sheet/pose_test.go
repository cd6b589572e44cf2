package sheet

import "testing"

func TestCheckPoses(t *testing.T) {
	for path, spoil := range map[string]func(p []Pose){
		"":                      func([]Pose) {},
		"poses[0].beat":         func(p []Pose) { p[0].Beat = 2 },
		"poses[1].back_to":      func(p []Pose) { p[1].Back = 3 },
		"poses[1].lean_degrees": func(p []Pose) { *p[1].Lean = 91 },
		"poses[1].contrast":     func(p []Pose) { *p[1].Contrast = 1.5 },
		"poses[1].way_contrast": func(p []Pose) { *p[1].Way = -0.1 },
		"poses[0]":              func(p []Pose) { p[0].Width = 0 },
		"poses[1].start":        func(p []Pose) { p[1].Start = 1 },
	} {
		s := sampleSheet()
		lean, contrast, way := 12.0, 0.4, 0.5
		s.Poses = []Pose{
			{Beat: 1, Shot: 1, Figure: 1, Start: 101, End: 112, Width: 0.3, Height: 1},
			{Beat: 3, Shot: 1, Figure: 1, Start: 129, End: 148, Width: 0.3, Height: 1, Lean: &lean, Contrast: &contrast, Way: &way, Back: 1},
		}
		spoil(s.Poses)
		err := s.Check()
		if field, _ := err.(*FieldError); path == "" && err != nil || path != "" && (field == nil || field.Path != path) {
			t.Errorf("%q: %v", path, err)
		}
	}
}

func TestLeanWords(t *testing.T) {
	for degrees, want := range map[float64]string{0.4: "upright", -0.4: "upright", 14.7: "15° right", -3.2: "3° left"} {
		if got := leanWords(&degrees); got != want {
			t.Errorf("%g: %q, want %q", degrees, got, want)
		}
	}
	if got := leanWords(nil); got != "" {
		t.Errorf("no lean: %q", got)
	}
}
