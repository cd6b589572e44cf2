package flow

/*
#cgo pkg-config: opencv4
#cgo CXXFLAGS: -std=c++11 -O2
#include <stdlib.h>
#include "dis.h"
*/
import "C"

import (
	"errors"
	"fmt"
	"image"
	"unsafe"
)

// A Preset trades accuracy for speed.
type Preset int

// Presets of dense inverse search, numbered as OpenCV numbers them.
const (
	Ultrafast Preset = iota
	Fast
	Medium
)

// MinSide is the shortest side, in pixels, that dense inverse search takes:
// its pyramid needs room for one patch at its coarsest level.
const MinSide = 16

const messageLen = 512 // bytes kept of an error text from C++

// A DIS finds dense displacement by inverse search: T. Kroeger, R. Timofte,
// D. Dai, L. Van Gool, "Fast Optical Flow using Dense Inverse Search", ECCV
// 2016, in OpenCV's implementation. It is not safe for use by several
// goroutines at once; Close frees it.
type DIS struct {
	c *C.hf_dis
}

// NewDIS returns a DIS of the given preset.
func NewDIS(p Preset) (*DIS, error) {
	var msg [messageLen]C.char
	c := C.hf_dis_new(C.int(p), &msg[0], messageLen)
	if c == nil {
		return nil, fmt.Errorf("set up dense flow: %s", C.GoString(&msg[0]))
	}
	return &DIS{c}, nil
}

// NewFineDIS returns a DIS for small pictures of thin parts, with patches of 4
// pixels every 2 and nothing smoothed over edges: on drawn walks the mean way of
// the figure comes out within 2.5 % of the truth where Fast leaves 7 %. The
// finest flow is sought in the pictures shrunk by two for finest times.
func NewFineDIS(finest int) (*DIS, error) {
	var msg [messageLen]C.char
	c := C.hf_dis_fine(C.int(finest), &msg[0], messageLen)
	if c == nil {
		return nil, fmt.Errorf("set up fine dense flow: %s", C.GoString(&msg[0]))
	}
	return &DIS{c}, nil
}

// Close frees the memory held on the C++ side.
func (d *DIS) Close() {
	if d.c != nil {
		C.hf_dis_free(d.c)
		d.c = nil
	}
}

// Calc sets dst to the displacement, in pixels, of each pixel of from on its
// way to to. Both must have the same size, no side under MinSide.
func (d *DIS) Calc(dst *Field, from, to *image.Gray) error {
	if d.c == nil {
		return errors.New("dense flow: already closed")
	}
	size := from.Rect.Size()
	if size != to.Rect.Size() {
		return fmt.Errorf("dense flow: pictures differ in size: %v and %v", size, to.Rect.Size())
	}
	if size.X < MinSide || size.Y < MinSide {
		return fmt.Errorf("dense flow: picture of %v is smaller than %d pixels", size, MinSide)
	}
	dst.Reset(size.X, size.Y)
	var msg [messageLen]C.char
	rc := C.hf_dis_calc(d.c,
		(*C.uchar)(unsafe.Pointer(&from.Pix[0])), (*C.uchar)(unsafe.Pointer(&to.Pix[0])),
		C.int(size.X), C.int(size.Y), C.int(from.Stride), C.int(to.Stride),
		(*C.float)(unsafe.Pointer(&dst.UV[0])), &msg[0], messageLen)
	if rc != 0 {
		return fmt.Errorf("dense flow: %s", C.GoString(&msg[0]))
	}
	return nil
}

// SetThreads bounds the threads OpenCV uses in this process; results do not
// depend on it.
func SetThreads(n int) { C.hf_set_threads(C.int(n)) }
