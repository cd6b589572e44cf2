// Package heap keeps what lies idle in the program's two heaps small: Go's, and
// that of the C library, which holds all pictures.
package heap

import (
	"os"
	"runtime/debug"
)

// garbagePercent is how much garbage may gather for each byte in use before
// Go's collector runs, in percent: half of Go's own setting. Some 25 MB are in
// use at a time, and collecting twice as often takes under a hundredth of a run.
const garbagePercent = 50

// Tighten sets both heaps for the whole process. It is for main to call, before
// pictures are made. GOGC in the environment goes before.
func Tighten() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(garbagePercent)
	}
	returnPictures()
}
