// Package cut cuts a thing out of a picture by its colours. It is here because
// gocv cannot set where OpenCV's chance starts from in the thread that cuts, and the
// same picture must always be cut the same way.
package cut

/*
#cgo pkg-config: opencv4
#cgo CXXFLAGS: -std=c++11 -O2
#include "cut.h"
*/
import "C"

import (
	"fmt"
	"unsafe"
)

// What is known of a pixel before the cut, and found by it; the values are
// OpenCV's.
const (
	Ground       = uint8(iota) // surely not the thing
	Thing                      // surely the thing
	LikelyGround               // to be decided
	LikelyThing                // to be decided
)

const messageLen = 512 // bytes kept of an error text from C++

// Cut decides which of the pixels of mask that are likely one or the other are, by
// the colours of those that are sure and by the edges between them: C. Rother, V.
// Kolmogorov, A. Blake, "GrabCut: Interactive Foreground Extraction using Iterated
// Graph Cuts", SIGGRAPH 2004, in OpenCV's implementation. The picture has three
// bytes a pixel, mask one, row by row; both colours must be there.
func Cut(picture, mask []uint8, w, h, rounds int) error {
	if w < 1 || h < 1 || len(picture) != 3*w*h || len(mask) != w*h {
		return fmt.Errorf("cut a thing out of %d by %d pixels: %d bytes of colours, %d of mask", w, h, len(picture), len(mask))
	}
	var msg [messageLen]C.char
	rc := C.hf_cut((*C.uchar)(unsafe.Pointer(&picture[0])), (*C.uchar)(unsafe.Pointer(&mask[0])),
		C.int(w), C.int(h), C.int(rounds), &msg[0], messageLen)
	if rc != 0 {
		return fmt.Errorf("cut a thing out of a picture: %s", C.GoString(&msg[0]))
	}
	return nil
}

// IsThing reports whether a value of a mask says that a pixel is the thing's.
func IsThing(v uint8) bool { return v == Thing || v == LikelyThing }
