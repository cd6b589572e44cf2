package extract

import (
	"errors"
	"fmt"
	"strings"
)

// Errors of this package come in families, told apart with errors.As:
//
//	*InputError    the input cannot be used (also behind *GapError, *SizeChangeError)
//	*ToolError     ffmpeg or ffprobe is missing, too old, or something else
//	*DecodeError   decoding failed
//	*LimitError    a limit was hit
//	*OutputError   the output could not be written
//	*OptionError   the caller asked for something that makes no sense
//
// *DamagedError asks the caller to read again with one decoder thread; Read
// does so by itself. Each has a one-line message that names the file by its
// escaped base name, and Hint, which says what to do.

// InputKind says why an input cannot be used.
type InputKind string

// The kinds of InputError.
const (
	Missing     InputKind = "missing"
	Directory   InputKind = "directory"
	NotRegular  InputKind = "not-regular"
	NoAccess    InputKind = "no-access"
	Empty       InputKind = "empty"
	Text        InputKind = "text"
	Playlist    InputKind = "playlist"
	Unsupported InputKind = "unsupported"
	NotClip     InputKind = "not-a-clip"
	NoIndex     InputKind = "no-index"
	NoVideo     InputKind = "no-video"
	NoFrames    InputKind = "no-frames"
	NoSound     InputKind = "no-sound"
	PastEnd     InputKind = "past-end"
	BadPattern  InputKind = "bad-pattern"
	NoMatch     InputKind = "no-match"
	Gap         InputKind = "gap"
	SizeChange  InputKind = "size-change"
)

// inputWords holds what each kind says and advises.
var inputWords = map[InputKind]struct{ what, hint string }{
	Missing:     {"does not exist", "check the spelling and the folder"},
	Directory:   {"is a folder, not a clip", "name a video file, or a sequence such as shot.%04d.png inside the folder"},
	NotRegular:  {"is not a regular file", "copy the clip to a plain file first; pipes, sockets and devices are not read"},
	NoAccess:    {"may not be read", "ask for permission to read it, or copy it"},
	Empty:       {"is empty", "the copy or the render was probably cut short: make it again"},
	Text:        {"is text, not a clip", "name the video file itself"},
	Playlist:    {"is a list that points to other files", "name the video file that it points to"},
	Unsupported: {"is of a kind that is not read", "convert it to mp4, mov, mkv or to a sequence of PNG files"},
	NotClip:     {"is not a video that can be read", "check that it plays elsewhere, or make it again"},
	NoIndex:     {"has no readable index or no pictures", "the recording or the copy was probably cut short: make it again"},
	NoVideo:     {"has no video stream", "name a file that has pictures, not only sound, subtitles or cover art"},
	NoFrames:    {"has no frame that can be decoded", "check that it plays elsewhere, or make it again"},
	NoSound:     {"has no sound that can be read", "name a file with a sound track, such as a WAV file"},
	PastEnd:     {"ends before the first frame asked for", "ask for an earlier frame"},
	BadPattern:  {"is no sequence that can be read", "write shot.%04d.png or shot.[1001-1096].png"},
	NoMatch:     {"fits the name of no file", "check the folder and how many digits the numbers have, as in shot.%04d.png or shot.[0005-0030].png"},
	Gap:         {"has missing frames", "render them, or name a range without them"},
	SizeChange:  {"changes picture size", "render all frames in one size"},
}

// InputError says that an input cannot be used.
type InputError struct {
	Name   string    // escaped base name
	Kind   InputKind // why
	Detail string    // more about it, may be empty
	Err    error     // the cause, may be nil
}

func (e *InputError) Error() string {
	return e.Name + " " + inputWords[e.Kind].what + parenthesis(e.Detail)
}

// Hint says what to do.
func (e *InputError) Hint() string { return inputWords[e.Kind].hint }

func (e *InputError) Unwrap() error { return e.Err }

func inputError(path string, kind InputKind, detail string) *InputError {
	return &InputError{Name: SafeName(path), Kind: kind, Detail: detail}
}

// NumberRange is a run of sequence numbers, both ends included.
type NumberRange struct{ First, Last int64 }

func (n NumberRange) String() string {
	if n.First == n.Last {
		return fmt.Sprint(n.First)
	}
	return fmt.Sprintf("%d-%d", n.First, n.Last)
}

// GapError names the numbers that a sequence lacks.
type GapError struct {
	Name    string        // the pattern, escaped, without its folder
	Missing []NumberRange // in order
}

// maxNamedGaps bounds a message to one readable line.
const maxNamedGaps = 8

func (e *GapError) Error() string {
	words := make([]string, 0, maxNamedGaps+1)
	for i, m := range e.Missing {
		if i == maxNamedGaps {
			words = append(words, fmt.Sprintf("and %d more gaps", len(e.Missing)-i))
			break
		}
		words = append(words, m.String())
	}
	return e.Name + " lacks frames " + strings.Join(words, ", ")
}

// Hint says what to do.
func (e *GapError) Hint() string { return inputWords[Gap].hint }

func (e *GapError) Unwrap() error { return &InputError{Name: e.Name, Kind: Gap} }

// SizeChangeError names the first frame of a sequence whose size differs.
type SizeChangeError struct {
	Name   string
	Number int64 // sequence number of the frame
}

func (e *SizeChangeError) Error() string {
	return fmt.Sprintf("%s changes picture size at frame %d", e.Name, e.Number)
}

// Hint says what to do.
func (e *SizeChangeError) Hint() string { return inputWords[SizeChange].hint }

func (e *SizeChangeError) Unwrap() error { return &InputError{Name: e.Name, Kind: SizeChange} }

// ToolError says that ffmpeg or ffprobe cannot be used.
type ToolError struct {
	Tool string // "ffmpeg" or "ffprobe"
	What string // what is wrong with it
	Err  error
}

func (e *ToolError) Error() string { return e.Tool + " " + e.What }

// Hint says what to do.
func (e *ToolError) Hint() string {
	return fmt.Sprintf("install ffmpeg %s or newer (Debian and Ubuntu: apt-get install ffmpeg) in a folder of PATH", oldestVersion)
}

func (e *ToolError) Unwrap() error { return e.Err }

// DecodeError says that decoding broke off in a way that leaves no usable
// result.
type DecodeError struct {
	Name  string
	What  string
	Frame int64  // frames decoded before
	Log   string // the last of what the decoder said, escaped; may be empty
	Err   error
}

func (e *DecodeError) Error() string {
	return fmt.Sprintf("decoding %s failed after frame %d: %s", e.Name, e.Frame, e.What)
}

// Hint says what to do.
func (e *DecodeError) Hint() string {
	return "check that the clip plays elsewhere and that the machine has memory left, then try again"
}

func (e *DecodeError) Unwrap() error { return e.Err }

// LimitError says which limit a clip goes beyond.
type LimitError struct {
	Name  string
	Limit string // the field of Limits: "Bytes", "Pixels", "Frames", "Duration" or "WallClock"
	Got   string // what the clip has or claims, with its unit
	Max   string // the limit, with its unit
}

func (e *LimitError) Error() string {
	return fmt.Sprintf("%s goes beyond the limit of %s: %s", e.Name, e.Max, e.Got)
}

// Hint says what to do.
func (e *LimitError) Hint() string { return limitHints[e.Limit] }

var limitHints = map[string]string{
	"Bytes":     "cut the clip into parts, or encode it smaller",
	"Pixels":    "scale the clip down first: about 640 by 360 pixels of it are measured in any case",
	"Frames":    "cut the clip into parts",
	"Duration":  "name a stretch that ends earlier, or cut the clip into parts",
	"WallClock": "cut the clip into parts, or try again when the machine has less to do",
}

// OutputError says that a file could not be written. Nothing of it is left.
type OutputError struct {
	Name   string
	What   string
	Exists bool // a file of that name is in the way
	Err    error
}

func (e *OutputError) Error() string { return e.Name + " could not be written: " + e.What }

// Hint says what to do.
func (e *OutputError) Hint() string {
	if e.Exists {
		return "choose another name, or move the old file away"
	}
	return "check the folder, its permissions and the space left on the disk"
}

func (e *OutputError) Unwrap() error { return e.Err }

// OptionError says what is wrong with Options or VideoOptions.
type OptionError struct{ What string }

func (e *OptionError) Error() string { return e.What }

// Hint says what to do.
func (e *OptionError) Hint() string { return "correct the options" }

// DamagedError says that the decoder reported damage. Damaged clips decode to
// different pictures with different numbers of threads, so what was read must
// be thrown away and read again with Options.SingleThread. Read does that.
type DamagedError struct{ Name string }

func (e *DamagedError) Error() string {
	return e.Name + " is damaged and has to be decoded again with one thread"
}

// Hint says what to do.
func (e *DamagedError) Hint() string { return "read it again with one decoder thread" }

// HintOf returns the hint of the first error in err's chain that has one.
func HintOf(err error) string {
	var h interface{ Hint() string }
	if errors.As(err, &h) {
		return h.Hint()
	}
	return ""
}

func parenthesis(s string) string {
	if s == "" {
		return ""
	}
	return " (" + s + ")"
}
