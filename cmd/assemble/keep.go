package assemble

import (
	"fmt"
	"reflect"

	"github.com/fxamacker/cbor/v2"

	"holdfast/extract"
	"holdfast/motion"
	"holdfast/motion/feet"
	"holdfast/motion/sound"
)

// kept is what of a measured clip does not depend on how it is put out.
type kept struct {
	Clip     extract.Clip
	Result   *motion.Result
	Warnings []string
	SHA256   string
	Feet     []feet.Mark

	Sound  *sound.Result // nil: nothing is heard
	Source string
	Offset float64
}

// Keep returns what was measured as bytes (CBOR, RFC 8949), without what only
// decides about the output: numbering, thresholds of notes, a figure's height.
func (m *Measured) Keep() ([]byte, error) {
	k := kept{Clip: m.clip, Result: m.result, Warnings: m.Warnings, SHA256: m.SHA256, Feet: m.Feet}
	if m.Sound != nil {
		k.Sound, k.Source, k.Offset = m.Sound.Result, m.Sound.Source, m.Sound.Offset
	}
	b, err := cbor.Marshal(k)
	if err != nil {
		return nil, fmt.Errorf("keep what was measured: %w", err)
	}
	return b, nil
}

// settingsType is that of settings, and of what is listed in them.
var settingsType = reflect.TypeOf(map[string]any{})

// mostKept bounds lists that are read back: half a million frames, some numbers
// each.
const mostKept = 1 << 28

// Kept returns what Keep made of a measured clip.
func Kept(b []byte) (*Measured, error) {
	mode, err := cbor.DecOptions{
		MaxArrayElements: mostKept, MaxMapPairs: mostKept,
		DefaultMapType: settingsType, IntDec: cbor.IntDecConvertSigned,
	}.DecMode()
	if err != nil {
		return nil, err
	}
	var k kept
	if err := mode.Unmarshal(b, &k); err != nil {
		return nil, fmt.Errorf("take up what was measured: %w", err)
	}
	if k.Result == nil {
		return nil, fmt.Errorf("take up what was measured: nothing was")
	}
	m := New(k.Clip, k.Result)
	m.Warnings, m.SHA256, m.Feet = k.Warnings, k.SHA256, k.Feet
	if k.Sound != nil {
		m.Sound = &Heard{Result: k.Sound, Source: k.Source, Offset: k.Offset}
	}
	return m, nil
}

// Clip returns what is known of the clip.
func (m *Measured) Clip() extract.Clip { return m.clip }

// Rename says where the clip is: the same one may have had another name when it
// was measured.
func (m *Measured) Rename(name, path string) { m.clip.Name, m.clip.Path = name, path }
