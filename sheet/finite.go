package sheet

import (
	"fmt"
	"math"
	"reflect"
	"strings"
)

// checkFinite reports the first number of the sheet that JSON cannot hold: RFC
// 8259 has neither NaN nor infinity.
func (s *Sheet) checkFinite() error { return finite("", reflect.ValueOf(s).Elem()) }

func finite(path string, v reflect.Value) error {
	switch v.Kind() {
	case reflect.Float32, reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			return bad(path, "is %g, no finite number", f)
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			return finite(path, v.Elem())
		}
	case reflect.Slice, reflect.Array:
		return finiteList(path, v)
	case reflect.Map:
		for _, key := range v.MapKeys() {
			if err := finite(join(path, fmt.Sprint(key)), v.MapIndex(key)); err != nil {
				return err
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			field := v.Type().Field(i)
			if !field.IsExported() {
				continue
			}
			name, _, _ := strings.Cut(field.Tag.Get("json"), ",")
			if err := finite(join(path, name), v.Field(i)); err != nil {
				return err
			}
		}
	}
	return nil
}

func finiteList(path string, v reflect.Value) error {
	for i := range v.Len() {
		if err := finite(at(path, i, ""), v.Index(i)); err != nil {
			return err
		}
	}
	return nil
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}
