// Package page makes one HTML page of a beat sheet: the clip to step through,
// and under it, on one time axis, all that the sheet says. A sheet and media
// come in as numbers and bytes, a page that needs nothing else goes out.
package page

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"fmt"
	"io"

	"holdfast/sheet"
	"holdfast/sheet/follow"
)

// A Page is everything that is shown.
type Page struct {
	Sheet  *sheet.Sheet
	Video  Video
	Thumbs map[int][]byte  // JPEG pictures by frame number
	Boxes  []Boxes         // of figures, as far as known
	Ground []Ground        // the ground strips
	Beside *Beside         // the pass's reference; nil for a page of one clip
	Follow *follow.History // notes of the passes up to this one; nil for a page of one pass
}

// A Video is what the page plays: frame n of the sheet is its frame
// n - Clip.FirstFrame + Before.
type Video struct {
	Width, Height int       // pixels, for the page to keep room
	MP4           io.Reader // the video itself, to be embedded; or
	Link          string    // a URL of it, relative to the page or whole
	Before        int       // frames of it that come before the first one measured
	Sound         bool      // it has some
}

// A Ground is the ground strip of a shot, drawn with time from left to right.
type Ground struct {
	Start, End int // frames
	PNG        []byte
}

//go:embed parts/page.html
var pageHTML string

//go:embed parts/page.css
var pageCSS string

//go:embed parts/page.js
var pageJS string

var pageTemplate = parsed("page", pageHTML)

// Write writes the page. All text in it is escaped for the place it stands in.
func (p *Page) Write(w io.Writer) error {
	if err := p.Sheet.Check(); err != nil {
		return err
	}
	if err := pageTemplate.Execute(w, p.view()); err != nil {
		return fmt.Errorf("page of %s: %w", sheet.Visible(p.Sheet.Clip.Name), err)
	}
	if err := embed(w, "clip", p.Video); err != nil {
		return err
	}
	if p.Beside != nil {
		if err := embed(w, "beside", p.Beside.Video); err != nil {
			return err
		}
	}
	_, err := io.WriteString(w, "</body>\n</html>\n")
	return err
}

// embed writes a video for the script to hand to the player with an id. It comes
// last on the page, so that everything else shows before it is read.
func embed(w io.Writer, id string, v Video) error {
	if v.MP4 == nil {
		return nil
	}
	if _, err := fmt.Fprintf(w, "<script type=\"text/plain\" data-for=%q>", id); err != nil {
		return err
	}
	enc := base64.NewEncoder(base64.StdEncoding, w)
	if _, err := io.Copy(enc, v.MP4); err != nil {
		return err
	}
	if err := enc.Close(); err != nil {
		return err
	}
	_, err := io.WriteString(w, "</script>\n")
	return err
}

// policy lets the page's own script, style, pictures and video in and nothing
// else (W3C Content Security Policy Level 3): no other script runs, whatever a
// name holds, and nothing is asked of any network.
func (p *Page) policy() string {
	media := "blob:"
	if p.Video.Link != "" {
		media = "'self' file:"
	}
	return policy("script-src '"+fingerprint(pageJS)+"'", "style-src '"+fingerprint(pageCSS)+"'", "img-src data:", "media-src "+media)
}

// fingerprint names a script or style by its content.
func fingerprint(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
}
