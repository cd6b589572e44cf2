// Package flow finds the displacement of every pixel from one frame to the
// next. It knows nothing of cameras or figures.
package flow

// A Field holds one displacement a pixel: u to the right, v down, in pixels.
type Field struct {
	W, H int
	UV   []float32 // u, v interleaved, row by row
}

// Reset makes f w by h pixels; its values are left as they are.
func (f *Field) Reset(w, h int) {
	f.W, f.H = w, h
	if n := 2 * w * h; cap(f.UV) < n {
		f.UV = make([]float32, n)
	} else {
		f.UV = f.UV[:n]
	}
}

// At returns the displacement of pixel (x, y).
func (f *Field) At(x, y int) (u, v float32) {
	i := 2 * (y*f.W + x)
	return f.UV[i], f.UV[i+1]
}
