//go:build linux

package main

import (
	"fmt"
	"math/bits"
	"math/rand/v2"
	"os"
	"path/filepath"
	"time"
)

// tryMutants damages the clips one after the other, each time in another way,
// until the time is over. Whatever comes in must come out clean: a sheet or
// one line, no signal, no hang, nothing left behind. The same seed gives the
// same mutants; one with a fault is kept beside the others in the folder keep.
func tryMutants(o options, clips []string, scratch string) error {
	started, tried, wrong, sheets := time.Now(), 0, 0, 0
	var longest time.Duration
	var largest int64
	for time.Since(started) < o.mutate {
		clip := clips[tried%len(clips)]
		data, err := os.ReadFile(clip)
		if err != nil {
			return err
		}
		dice := rand.New(rand.NewPCG(o.seed, uint64(tried)))
		path := filepath.Join(scratch, fmt.Sprintf("mutant%d-%d%s", o.seed, tried, filepath.Ext(clip)))
		if err := os.WriteFile(path, mutate(data, dice), 0o666); err != nil {
			return err
		}
		in := input{name: filepath.Base(path), path: path, expect: "ANY_CLEAN"}
		got, err := try(o, in, filepath.Join(scratch, "at"))
		if err != nil {
			return err
		}
		tried++
		if got.code == done {
			sheets++
		}
		longest, largest = max(longest, got.took), max(largest, got.memory)
		faults := judge(in, got, o)
		for _, f := range faults {
			fmt.Printf("%s of %s: %s\n", in.name, filepath.Base(clip), f)
		}
		if len(faults) > 0 {
			wrong++
			if err := keep(path); err != nil {
				return err
			}
		}
		os.Remove(path)
	}
	fmt.Printf("%d mutants of %d clips in %v, seed %d: %d gave sheets, %d with faults; the longest %v, the largest process %d MB\n",
		tried, len(clips), time.Since(started).Round(time.Second), o.seed, sheets, wrong, longest.Round(time.Second/10), largest)
	if wrong > 0 {
		return errWrong
	}
	return nil
}

// keep copies a mutant to the folder the run was started in.
func keep(path string) error {
	data, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Base(path), data, 0o666)
}

// headBytes is how much of a clip counts as its head, which half of the bit
// flips go to: there the sizes, counts and tables are.
const headBytes = 2048

// mutate flips bits, from one to one in 500 bytes, few as often as many, and now
// and then also cuts the data, repeats, blanks or leaves out a stretch of it, or
// writes a large number over four bytes.
func mutate(data []byte, dice *rand.Rand) []byte {
	x := append([]byte{}, data...)
	if len(x) < 16 {
		return x
	}
	for range 1 << dice.IntN(1+bits.Len(uint(len(x)/500))) {
		at := dice.IntN(len(x))
		if dice.IntN(2) == 0 {
			at = dice.IntN(min(len(x), headBytes))
		}
		x[at] ^= 1 << dice.IntN(8)
	}
	from := dice.IntN(len(x) - 8)
	to := from + dice.IntN(min(len(x)-from, 4096))
	switch dice.IntN(8) {
	case 0:
		x = x[:from+1]
	case 1:
		x = append(x[:to:to], x[from:]...)
	case 2:
		clear(x[from:to])
	case 3:
		x = append(x[:from:from], x[to:]...)
	case 4:
		copy(x[from:], []byte{0x7f, 0xff, 0xff, 0xff})
	}
	return x
}
