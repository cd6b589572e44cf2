// Package espeak has eSpeak NG speak a text and say when each phoneme begins. The
// library is looked up when it is first asked for; nothing else needs it.
package espeak

/*
#cgo LDFLAGS: -ldl
#include <stdlib.h>
#include "speak.h"
*/
import "C"

import (
	"errors"
	"fmt"
	"strings"
	"sync"
	"unsafe"
)

// ErrAbsent says that the library is not there.
var ErrAbsent = errors.New("eSpeak NG is not installed (Debian and Ubuntu: apt-get install espeak-ng)")

// A Speech is what was spoken, one channel, full scale at 1.
type Speech struct {
	Samples []float32
	Rate    int
	Vowels  []float64 // when each vowel begins, seconds
}

// One voice speaks at a time: the library has one of everything.
var one sync.Mutex

// Speak speaks an English text at so many words a minute.
func Speak(voice, text string, words int) (*Speech, error) {
	one.Lock()
	defer one.Unlock()
	if C.hf_espeak_open() == 0 {
		return nil, ErrAbsent
	}
	cVoice, cText := C.CString(voice), C.CString(text)
	defer C.free(unsafe.Pointer(cVoice))
	defer C.free(unsafe.Pointer(cText))
	var spoken C.hf_spoken
	defer C.hf_spoken_free(&spoken)
	if C.hf_espeak_speak(cVoice, cText, C.int(words), &spoken) == 0 || spoken.sample_count == 0 {
		return nil, fmt.Errorf("eSpeak NG does not speak with the voice %s", voice)
	}
	s := &Speech{Rate: int(spoken.rate)}
	for _, v := range unsafe.Slice(spoken.samples, int(spoken.sample_count)) {
		s.Samples = append(s.Samples, float32(v)/(1<<15))
	}
	for i := range int(spoken.phoneme_count) {
		p := unsafe.Slice(spoken.phonemes, int(spoken.phoneme_count))[i]
		if vowel(C.GoString(&p.name[0])) {
			s.Vowels = append(s.Vowels, float64(p.sample)/float64(spoken.rate))
		}
	}
	return s, nil
}

// vowel reports whether a phoneme is one, by the first letter of its name in the
// notation of Kirshenbaum, which the library's English voices use.
func vowel(name string) bool { return name != "" && strings.Contains("aeiouyAEIOUVYW@03", name[:1]) }
