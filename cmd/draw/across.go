package draw

import (
	"bytes"
	"fmt"
	"image"
	"image/png"

	"holdfast/motion/strip"
	"holdfast/sheet"
)

// acrossTall is the height of a ground strip that lies on its side, pixels.
const acrossTall = 120

// An AcrossStrip is the ground strip of a shot with time from left to right, one
// column of pixels a frame, for a place under a time axis. The left of the picture
// is above.
type AcrossStrip struct {
	Start, End int // frames as the sheet numbers them
	PNG        []byte
}

// Across draws a strip that has rows.
func Across(s *sheet.Sheet, st *strip.Strip) (*AcrossStrip, error) {
	p := &Page{Of: 1, Pages: 1, sheet: s, strip: st, rows: st.Rows}
	l := p.layout()
	first, last := st.Rows[0].Frame, st.Rows[len(st.Rows)-1].Frame+st.Every-1
	last = min(last, s.Shots[st.Shot].End-s.Clip.FirstFrame)
	picture := image.NewNRGBA(image.Rect(0, 0, last-first+1, acrossTall))
	for _, r := range l.rows {
		marks, flies := l.standing(r.Frame), l.flies(r.Frame)
		for y := range acrossTall {
			column := l.left + (float64(y)+0.5)/acrossTall*float64(l.width)/l.scale
			t, ok := l.pixel(r, marks, flies, column)
			if !ok {
				continue
			}
			for frame := r.Frame; frame < r.Frame+st.Every && frame <= last; frame++ {
				picture.Set(frame-first, y, t.color())
			}
		}
	}
	var b bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestCompression}
	if err := enc.Encode(&b, picture); err != nil {
		return nil, fmt.Errorf("ground strip of shot %d: %w", st.Shot+1, err)
	}
	return &AcrossStrip{p.number(first), p.number(last), b.Bytes()}, nil
}
