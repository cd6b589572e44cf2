package strip

import (
	"encoding/binary"
	"errors"
)

// cellBytes is what a packed cell takes.
const cellBytes = 4

// MarshalBinary packs a row into few bytes: its frame and column as variable
// integers, then four bytes a cell.
func (r Row) MarshalBinary() ([]byte, error) {
	b := make([]byte, 0, 2*binary.MaxVarintLen64+cellBytes*len(r.Cells))
	b = binary.AppendVarint(b, int64(r.Frame))
	b = binary.AppendVarint(b, int64(r.X0))
	for _, c := range r.Cells {
		b = append(b, c.Y, c.Cb, c.Cr, c.Cover)
	}
	return b, nil
}

var errPacked = errors.New("these bytes are no row of a ground strip")

// UnmarshalBinary takes a row apart again.
func (r *Row) UnmarshalBinary(b []byte) error {
	frame, n := binary.Varint(b)
	if n <= 0 {
		return errPacked
	}
	b = b[n:]
	x0, n := binary.Varint(b)
	if n <= 0 || len(b[n:])%cellBytes != 0 {
		return errPacked
	}
	b = b[n:]
	*r = Row{Frame: int(frame), X0: int(x0), Cells: make([]Cell, len(b)/cellBytes)}
	for i := range r.Cells {
		c := b[cellBytes*i:]
		r.Cells[i] = Cell{Y: c[0], Cb: c[1], Cr: c[2], Cover: c[3]}
	}
	return nil
}
