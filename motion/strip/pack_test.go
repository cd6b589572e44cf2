package strip

import (
	"reflect"
	"testing"
)

func TestPackedRows(t *testing.T) {
	for _, r := range []Row{
		{Cells: []Cell{}},
		{Frame: 1 << 40, X0: -7, Cells: []Cell{{1, 2, 3, 4}, {255, 0, 128, 9}}},
	} {
		b, err := r.MarshalBinary()
		if err != nil {
			t.Fatal(err)
		}
		var got Row
		if err := got.UnmarshalBinary(b); err != nil || !reflect.DeepEqual(got, r) {
			t.Errorf("%+v became %+v, %v", r, got, err)
		}
		for n := range b {
			if err := got.UnmarshalBinary(b[:n]); err == nil && len(r.Cells) > 0 && (n-len(b))%cellBytes != 0 {
				t.Errorf("%d of %d bytes are a row", n, len(b))
			}
		}
	}
}
