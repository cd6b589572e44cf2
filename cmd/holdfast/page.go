package main

import (
	"context"
	"errors"
	"fmt"
	"io"
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

const (
	pageSuffix = ".html"
	// proxyName is that of the page's video while the page is being made.
	proxyName = "proxy.mp4"
)

// writePage writes the page of a sheet into its folder.
func (j *sheetJob) writePage(ctx context.Context, folder *whole.Folder, s *sheet.Sheet, m *assemble.Measured) error {
	path := folder.Scratch(proxyName)
	proxy, err := j.writeProxy(ctx, path, s)
	if err != nil {
		return err
	}
	defer os.Remove(path)
	p := &page.Page{Sheet: s, Video: page.Video{Width: proxy.Width, Height: proxy.Height, Sound: proxy.Sound}, Thumbs: map[int][]byte{}}
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
	for index, picture := range proxy.Thumbs {
		p.Thumbs[s.Clip.FirstFrame+index] = picture
	}
	if j.linkClip {
		if p.Video.Link, err = j.link(); err != nil {
			return err
		}
		p.Video.Before = s.Clip.Skipped
	} else {
		video, err := os.Open(path)
		if err != nil {
			return err
		}
		defer video.Close()
		p.Video.MP4 = video
	}
	if err := folder.WriteFrom(j.set().stem+pageSuffix, func(w io.Writer) error { return p.Write(w) }); err != nil {
		return err
	}
	return os.Remove(path)
}

// writeProxy reads the clip a second time, for the video that the page plays and
// its thumbnails: which frames these show is known once it is measured.
func (j *sheetJob) writeProxy(ctx context.Context, path string, s *sheet.Sheet) (*extract.Proxy, error) {
	bar := &progress{}
	if !j.quiet {
		bar = newProgress(j.stderr, "writing the page", int64(s.Clip.Frames))
	}
	defer bar.done()
	thumbs := page.ThumbFrames(s)
	proxy, err := extract.WriteProxy(ctx, j.clip, path, j.read, func(index int) bool {
		_, wanted := slices.BinarySearch(thumbs, s.Clip.FirstFrame+index)
		return wanted
	}, bar.frame)
	if err != nil {
		return nil, err
	}
	if proxy.Frames != s.Clip.Frames {
		return nil, fmt.Errorf("%s changed while it was measured: it had %d frames and has %d", s.Clip.Name, s.Clip.Frames, proxy.Frames)
	}
	return proxy, nil
}

// link is the clip's URL as seen from the page.
func (j *sheetJob) link() (string, error) {
	info, err := os.Stat(j.clip)
	if err != nil || !info.Mode().IsRegular() {
		return "", usage("--link-clip: an image sequence cannot be played", "leave --link-clip out")
	}
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
