package extract

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"syscall"
	"unicode/utf8"
)

// sniffLength is how many bytes of a file are looked at.
const sniffLength = 4096

// sniffFile opens a file as a child would, looks at its beginning, and
// returns the demuxer that must be forced, if any.
func sniffFile(path string) (string, error) {
	// O_NONBLOCK: should the file have been swapped for a FIFO since it was
	// looked at, this does not hang.
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		if errors.Is(err, fs.ErrPermission) {
			return "", &InputError{Name: SafeName(path), Kind: NoAccess, Err: err}
		}
		return "", statError(path, err)
	}
	defer f.Close()
	head := make([]byte, sniffLength)
	n, err := io.ReadFull(f, head)
	if err != nil && !errors.Is(err, io.ErrUnexpectedEOF) {
		return "", &InputError{Name: SafeName(path), Kind: NoAccess, Detail: "reading failed", Err: err}
	}
	return sniff(path, head[:n])
}

// listStarts are how lists of other files, and drawings that may refer to
// other files, begin.
var listStarts = []string{
	"#EXTM3U", "ffconcat", "[playlist]", "[Reference]", "<asx", "<ASX", "<MPD", "<smil", "<playlist", "<svg", "v=0",
	"# VobSub", ";FFMETADATA", "<!DOCTYPE MPD", "<!DOCTYPE svg", "RTSPtext", "SMILtext",
}

// sniff judges the first bytes of a file. Text is refused before any child
// sees it: no kind of clip that is read here begins as text, and lists are
// text.
func sniff(path string, head []byte) (demuxer string, err error) {
	if bytes.HasPrefix(head, []byte("YUV4MPEG2 ")) {
		return "", nil
	}
	if isText(head) {
		for _, s := range listStarts {
			if bytes.Contains(head, []byte(s)) {
				return "", inputError(path, Playlist, "")
			}
		}
		return "", inputError(path, Text, "")
	}
	if kind := refusedPicture(head); kind != "" {
		return "", inputError(path, Unsupported, kind)
	}
	return pictureDemuxer(head), nil
}

// isText tells of valid UTF-8 (but for a rune cut off at the end) without
// control characters other than blanks, line ends and escape, with or without
// byte order mark.
func isText(head []byte) bool {
	for i := 0; i < len(head); {
		r, size := utf8.DecodeRune(head[i:])
		if r == utf8.RuneError && size == 1 {
			return i > 0 && len(head)-i < utf8.UTFMax && len(head) == sniffLength
		}
		if r < ' ' && r != '\t' && r != '\n' && r != '\r' && r != '\f' && r != 0x1b {
			return false
		}
		i += size
	}
	return len(head) > 0
}

// refusedPicture names still picture formats whose decoders are not used on
// files from strangers.
func refusedPicture(head []byte) string {
	has := func(magic string) bool { return bytes.HasPrefix(head, []byte(magic)) }
	switch {
	case has("\x76\x2f\x31\x01"):
		return "OpenEXR"
	case has("II*\x00"), has("MM\x00*"):
		return "TIFF"
	case has("SDPX"), has("XPDS"):
		return "DPX"
	case len(head) > 20 && has("RIFF") && string(head[8:12]) == "WEBP" && bytes.Contains(head, []byte("ANIM")):
		return "animated WebP"
	}
	return ""
}

// pictureDemuxer picks the demuxer of a lone picture by its content, so that
// a percent sign in its name is not taken for a pattern.
func pictureDemuxer(head []byte) string {
	has := func(magic string) bool { return bytes.HasPrefix(head, []byte(magic)) }
	switch {
	case has("\x89PNG\r\n\x1a\n"):
		if bytes.Contains(head, []byte("acTL")) {
			return "apng"
		}
		return "png_pipe"
	case has("\xff\xd8\xff"):
		return "jpeg_pipe"
	case has("BM") && len(head) > 26 && head[14] != 0 && bytes.Equal(head[15:18], []byte{0, 0, 0}):
		return "bmp_pipe"
	case len(head) > 12 && has("RIFF") && string(head[8:12]) == "WEBP":
		return "webp_pipe"
	}
	return ""
}
