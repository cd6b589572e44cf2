package extract

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"io/fs"
	"os"
	"syscall"
	"unicode/utf8"
)

// sniffLength is how many bytes of a file are looked at.
const sniffLength = 4096

// sniffed is what the first bytes of a file tell.
type sniffed struct {
	force     string // the demuxer to use, or "" to let ffmpeg find out
	container bool   // it begins as a container of video does
	clips     int    // movie indexes in an mp4 or mov file
}

// sniffFile opens a file as a child would and looks at its beginning.
func sniffFile(path string) (sniffed, error) {
	// O_NONBLOCK: should the file have been swapped for a FIFO since it was
	// looked at, this does not hang.
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		if errors.Is(err, fs.ErrPermission) {
			return sniffed{}, &InputError{Name: SafeName(path), Kind: NoAccess, Err: err}
		}
		return sniffed{}, statError(path, err)
	}
	defer f.Close()
	head := make([]byte, sniffLength)
	n, err := io.ReadFull(f, head)
	if err != nil && !errors.Is(err, io.ErrUnexpectedEOF) {
		return sniffed{}, &InputError{Name: SafeName(path), Kind: NoAccess, Detail: "reading failed", Err: err}
	}
	s, err := sniff(path, head[:n])
	if err == nil && isMovie(head[:n]) {
		s.clips = countBoxes(f, "moov")
	}
	return s, err
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
func sniff(path string, head []byte) (sniffed, error) {
	if bytes.HasPrefix(head, []byte("YUV4MPEG2 ")) {
		return sniffed{container: true}, nil
	}
	if isText(head) {
		for _, s := range listStarts {
			if bytes.Contains(head, []byte(s)) {
				return sniffed{}, inputError(path, Playlist, "")
			}
		}
		return sniffed{}, inputError(path, Text, "")
	}
	if kind := refusedPicture(head); kind != "" {
		return sniffed{}, inputError(path, Unsupported, kind)
	}
	if soundOnly(head) {
		return sniffed{}, inputError(path, NoVideo, "")
	}
	return sniffed{force: pictureDemuxer(head), container: isMovie(head) || isOtherContainer(head)}, nil
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

// soundOnly tells of formats that hold sound and at most a cover picture.
func soundOnly(head []byte) bool {
	has := func(magic string) bool { return bytes.HasPrefix(head, []byte(magic)) }
	return has("ID3") || has("fLaC") || len(head) > 12 && has("RIFF") && string(head[8:12]) == "WAVE"
}

// isMovie tells of mp4 and mov, whose files are rows of boxes: four bytes of
// length, four of type (ISO/IEC 14496-12, section 4.2).
func isMovie(head []byte) bool {
	if len(head) < 8 {
		return false
	}
	switch string(head[4:8]) {
	case "ftyp", "moov", "mdat", "wide", "free", "skip", "pnot":
		return true
	}
	return false
}

// isOtherContainer tells of Matroska, AVI, ASF and FLV.
func isOtherContainer(head []byte) bool {
	has := func(magic string) bool { return bytes.HasPrefix(head, []byte(magic)) }
	return has("\x1a\x45\xdf\xa3") || has("\x30\x26\xb2\x75") || has("FLV\x01") ||
		len(head) > 12 && has("RIFF") && string(head[8:12]) == "AVI "
}

// maxBoxes bounds the walk along a file's boxes; fragmented files have two a
// second.
const maxBoxes = 10_000

// countBoxes counts the boxes of a type on the top level of an mp4 or mov
// file.
func countBoxes(f io.ReaderAt, kind string) int {
	count, at := 0, int64(0)
	var head [16]byte
	for range maxBoxes {
		n, _ := f.ReadAt(head[:], at)
		if n < 8 {
			break
		}
		if string(head[4:8]) == kind {
			count++
		}
		size := int64(binary.BigEndian.Uint32(head[:4]))
		if size == 1 && n == 16 {
			size = int64(binary.BigEndian.Uint64(head[8:]))
		}
		if size < 8 || size > noLimit-at {
			break
		}
		at += size
	}
	return count
}
