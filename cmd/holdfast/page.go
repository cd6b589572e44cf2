package main

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"holdfast/cmd/assemble"
	"holdfast/cmd/draw"
	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/cmd/page"
	"holdfast/extract"
	"holdfast/sheet"
)

const pageSuffix = ".html"

// A screening is the small video of a clip that a page plays, while the page is
// being made.
type screening struct {
	*extract.Proxy
	path string
	file *os.File
}

// A changedError says that a clip is no longer the one that was measured.
type changedError struct {
	name     string
	had, has int // frames
}

func (e *changedError) Error() string {
	return fmt.Sprintf("%s changed while it was measured: it had %d frames and has %d", e.name, e.had, e.has)
}

// Hint says what to do about it.
func (e *changedError) Hint() string { return "run it again when the clip is finished" }

// A screener makes screenings in a folder that is being filled.
type screener struct {
	folder *whole.Folder
	voice
}

// screen reads a clip a second time, for its video and the thumbnails: which
// frames these show is known once it is measured.
func (sc *screener) screen(ctx context.Context, name, clip string, o extract.Options, s *sheet.Sheet) (*screening, error) {
	bar := sc.progress("writing the page", int64(s.Clip.Frames))
	defer bar.done()
	defer sc.timed("the page's video")("")
	thumbs := page.ThumbFrames(s)
	v := &screening{path: sc.folder.Scratch(name)}
	var err error
	v.Proxy, err = extract.WriteProxy(ctx, clip, v.path, o, func(index int) bool {
		_, wanted := slices.BinarySearch(thumbs, s.Clip.FirstFrame+index)
		return wanted
	}, bar.frame)
	if err != nil {
		return nil, err
	}
	if v.Frames != s.Clip.Frames {
		os.Remove(v.path)
		return nil, &changedError{sheet.Visible(s.Clip.Name), s.Clip.Frames, v.Frames}
	}
	v.file, err = os.Open(v.path)
	return v, err
}

// close takes the video away: it is no result. There may be none.
func (v *screening) close() error {
	if v == nil {
		return nil
	}
	return errors.Join(v.file.Close(), os.Remove(v.path))
}

// video is what a page embeds; nothing where there is no screening.
func (v *screening) video() page.Video {
	if v == nil {
		return page.Video{}
	}
	return page.Video{Width: v.Width, Height: v.Height, Sound: v.Sound, MP4: v.file}
}

// pictures are the thumbnails by the numbers of their frames.
func (v *screening) pictures(c sheet.Clip) map[int][]byte {
	list := map[int][]byte{}
	if v != nil {
		for index, picture := range v.Thumbs {
			list[c.FirstFrame+index] = picture
		}
	}
	return list
}

// writePage writes the page of a sheet into its folder.
func (j *sheetJob) writePage(ctx context.Context, folder *whole.Folder, s *sheet.Sheet, m *assemble.Measured) (err error) {
	sc := &screener{folder, j.voice}
	v, err := sc.screen(ctx, "screening.mp4", j.clip, j.read, s)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, v.close()) }()
	p := &page.Page{Sheet: s, Video: v.video(), Thumbs: v.pictures(s.Clip)}
	j.poster = p.Thumbs[posterFrame(s)]
	if j.linkClip {
		p.Video.MP4, p.Video.Before = nil, s.Clip.Skipped
		if p.Video.Link, err = j.link(); err != nil {
			return err
		}
	}
	for _, st := range m.Strips() {
		band, err := draw.Across(s, st)
		if err != nil {
			return err
		}
		p.Ground = append(p.Ground, page.Ground{Start: band.Start, End: band.End, PNG: band.PNG})
	}
	for _, b := range m.Boxes() {
		p.Boxes = append(p.Boxes, page.Boxes{Figure: b.Figure, Start: b.Start, At: b.Boxes})
	}
	return folder.WriteFrom(j.set().stem+pageSuffix, p.Write)
}

// link is the clip's URL as seen from the page.
func (j *sheetJob) link() (string, error) {
	clip, errClip := filepath.Abs(j.clip)
	folder, errFolder := filepath.Abs(j.set().folder)
	if err := errors.Join(errClip, errFolder); err != nil {
		return "", err
	}
	relative, err := filepath.Rel(folder, clip)
	if err != nil { // another drive
		return (&url.URL{Scheme: "file", Path: "/" + strings.TrimPrefix(filepath.ToSlash(clip), "/")}).String(), nil
	}
	return (&url.URL{Path: filepath.ToSlash(relative)}).String(), nil
}
