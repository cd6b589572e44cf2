package sheet

import (
	"bytes"
	"math"
	"reflect"
	"testing"
)

func TestBands(t *testing.T) {
	s := sampleSheet()
	for i := range s.Clip.Frames {
		s.Curve.Bands.Add(float64(i)/1e5, 0.01, 0, 0.02, math.NaN())
	}
	s.Complete()
	var out bytes.Buffer
	if err := s.WriteJSON(&out); err != nil {
		t.Fatal(err)
	}
	back, err := Read(&out)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(back.Curve.Bands, s.Curve.Bands) {
		t.Error("bands do not come back as they were written")
	}
	less := -1.0
	s.Curve.Bands.Left[3] = &less
	if err := s.Check(); err == nil {
		t.Error("a band goes less than nowhere")
	}
	s.Curve.Bands.Left = s.Curve.Bands.Left[1:]
	if err := s.Check(); err == nil {
		t.Error("a band lacks a frame")
	}
}
