package main

import (
	"context"
	"errors"

	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/cmd/page"
	"holdfast/extract"
	"holdfast/sheet"
)

// A pair is a page of a pass with what came before it beside it, short of their
// videos.
type pair struct {
	take         taker
	before, pass string // paths of clips, or of sheets made before
	page         *page.Page
}

// writePair writes the page of a pair into a folder that is being filled. Of a
// sheet made before there is no clip to show.
func writePair(ctx context.Context, folder *whole.Folder, stem string, p *pair) (err error) {
	sc := &screener{folder, p.take.voice}
	screen := func(name, path string, s *sheet.Sheet) (*screening, error) {
		if isSheetFile(path) {
			return nil, nil
		}
		return sc.screen(ctx, name, path, extract.Options{FPS: p.take.read.FPS, Limits: p.take.read.Limits}, s)
	}
	pass, err := screen("pass.mp4", p.pass, p.page.Sheet)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, pass.close()) }()
	before, err := screen("before.mp4", p.before, p.page.Beside.Sheet)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, before.close()) }()
	p.page.Video, p.page.Thumbs = pass.video(), pass.pictures(p.page.Sheet.Clip)
	p.page.Beside.Video = before.video()
	return folder.WriteFrom(stem+pageSuffix, p.page.Write)
}
