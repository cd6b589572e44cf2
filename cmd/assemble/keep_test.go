package assemble

import (
	"math"
	"reflect"
	"testing"

	"holdfast/extract"
	"holdfast/motion"
	"holdfast/motion/feet"
	"holdfast/motion/sound"
)

// filler puts something else into each field it comes to.
type filler struct{ n int }

// fill sets v and all it holds. What is not exported is for the measuring alone and
// stays empty.
func (f *filler) fill(t *testing.T, v reflect.Value) {
	f.n++
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		v.SetInt(int64(f.n%100 - 50))
	case reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uint:
		v.SetUint(uint64(f.n % 200))
	case reflect.Float64, reflect.Float32:
		v.SetFloat(float64(f.n) / 7)
	case reflect.String:
		v.SetString(string(rune('a' + f.n%26)))
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		f.fill(t, v.Elem())
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		f.fill(t, v.Index(0))
		f.fill(t, v.Index(1))
	case reflect.Array:
		for i := range v.Len() {
			f.fill(t, v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				f.fill(t, v.Field(i))
			}
		}
	case reflect.Map:
		v.Set(reflect.ValueOf(map[string]any{
			"integer": int64(f.n), "number": 0.5, "whole": 3.0, "words": "x", "list": []any{int64(1), "two"}, "more": map[string]any{"deep": true},
		}))
	default:
		t.Fatalf("a field of kind %v", v.Kind())
	}
}

// again keeps what was measured and takes it up again.
func again(t *testing.T, m *Measured) *Measured {
	t.Helper()
	b, err := m.Keep()
	if err != nil {
		t.Fatal(err)
	}
	got, err := Kept(b)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// Whatever is measured comes back as it was: every field of every part.
func TestKeepKeepsAll(t *testing.T) {
	var f filler
	m := &Measured{result: &motion.Result{}, Sound: &Heard{Result: &sound.Result{}}}
	for _, v := range []any{&m.clip, m.result, &m.Warnings, &m.SHA256, &m.Feet, m.Sound} {
		f.fill(t, reflect.ValueOf(v).Elem())
	}
	got := again(t, m)
	want, have := reflect.ValueOf(m.result).Elem(), reflect.ValueOf(got.result).Elem()
	for i := range want.NumField() {
		if f := want.Type().Field(i); f.IsExported() && !reflect.DeepEqual(have.Field(i).Interface(), want.Field(i).Interface()) {
			t.Errorf("%s: kept %+v\ngot  %+v", f.Name, want.Field(i), have.Field(i))
		}
	}
	if got.result = m.result; !reflect.DeepEqual(got, m) {
		t.Errorf("kept %+v\ngot  %+v", m, got)
	}
}

// Nothing, an empty list and nought are told apart, and what is no number stays
// none.
func TestKeepTellsNothingFromNought(t *testing.T) {
	m := New(extract.Clip{}, &motion.Result{Beats: []motion.Beat{}, Settings: map[string]any{"a": 0.0, "b": int64(0)}})
	m.Feet = []feet.Mark{}
	m.result.Curve.Motion = []float64{0, math.Inf(1), -0.1}
	got := again(t, m)
	if !reflect.DeepEqual(got, m) {
		t.Errorf("kept %+v\ngot  %+v", m.result, got.result)
	}
}

func TestKeptRefuses(t *testing.T) {
	m := New(extract.Clip{Name: "x"}, &motion.Result{Frames: 3})
	b, err := m.Keep()
	if err != nil {
		t.Fatal(err)
	}
	for n := range b {
		if _, err := Kept(b[:n]); err == nil {
			t.Errorf("%d of %d bytes are a clip", n, len(b))
		}
	}
}
