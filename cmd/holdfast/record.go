package main

import (
	"context"

	"holdfast/cmd/holdfast/internal/batch"
	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/extract"
	"holdfast/sheet"
)

// writeRecord adds to a set what a batch needs beside the sheet: the clip at a
// glance, and by what it will know that this clip is done.
func (j *sheetJob) writeRecord(ctx context.Context, folder *whole.Folder, s *sheet.Sheet) (err error) {
	if j.poster == nil && s.Clip.Frames > 0 {
		at := j.read
		at.From += int64(posterFrame(s) - s.Clip.FirstFrame)
		if j.poster, err = extract.Thumbnail(ctx, j.clip, at); err != nil {
			return err
		}
	}
	if err := folder.Write(j.called+batch.PosterSuffix, j.poster); err != nil {
		return err
	}
	return folder.Write(j.called+batch.RecordSuffix, []byte(j.record+"\n"))
}

// posterFrame is the frame that shows a clip at a glance: the peak of its biggest
// move; where nothing moves, its first frame.
func posterFrame(s *sheet.Sheet) int {
	frame, most := s.Clip.FirstFrame, 0.0
	for _, b := range s.Beats {
		if b.Peak != nil && b.Size != nil && *b.Size > most {
			frame, most = *b.Peak, *b.Size
		}
	}
	return frame
}
