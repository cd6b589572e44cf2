package main

import (
	"context"
	"fmt"

	"github.com/urfave/cli/v2"

	"holdfast/extract"
	"holdfast/sheet"
)

// numbers gets the sheet of a clip that pictures are to be made of: it measures
// the clip, or reads what was measured before.
type numbers struct {
	file    string // a sheet; empty: measure
	first   int
	remarks *remarkFile
	take    taker
}

// readNumbers understands --sheet and the options that take its place.
func readNumbers(c *cli.Context) (n numbers, err error) {
	n = numbers{file: c.String("sheet"), first: c.Int("first-frame")}
	if n.take.voice, err = readVoice(c); err != nil {
		return n, err
	}
	if n.take.cache, err = readCache(c); err != nil {
		return n, err
	}
	for _, option := range []string{"fps", "first-frame", "house"} {
		if n.file != "" && c.IsSet(option) {
			return n, usage(fmt.Sprintf("--%s goes with measuring, not with --sheet", option), "leave one of them out")
		}
	}
	if n.first < -maxFirst || n.first > maxFirst {
		return n, usage(fmt.Sprintf("--first-frame %d is out of range", n.first), fmt.Sprintf("frame numbers go from %d to %d", -maxFirst, maxFirst))
	}
	if c.IsSet("fps") {
		if n.take.fps, err = extract.ParseRate(c.String("fps")); err != nil {
			return n, usage(fmt.Sprintf("--fps: %v", err), "write a rate such as 24, 23.976 or 30000/1001")
		}
	}
	if n.take.limits, err = readLimits(c); err != nil {
		return n, err
	}
	if n.take.house, err = readHouse(c); err != nil {
		return n, err
	}
	n.remarks, err = readRemarks(c)
	return n, err
}

// of returns the sheet of a clip.
func (n numbers) of(ctx context.Context, clip string) (*sheet.Sheet, error) {
	s, err := n.read(ctx, clip)
	if err != nil {
		return nil, err
	}
	return s, n.remarks.into(s)
}

func (n numbers) read(ctx context.Context, clip string) (*sheet.Sheet, error) {
	if n.file == "" {
		n.take.first = n.first
		return n.take.measure(ctx, clip)
	}
	s, err := readSheet(n.file)
	if err != nil {
		return nil, err
	}
	sum, err := extract.SHA256(ctx, clip)
	if err != nil {
		return nil, err
	}
	if sum != s.Clip.SHA256 {
		return nil, usage(fmt.Sprintf("--sheet %s was made of another clip than %s", sheet.Visible(n.file), extract.SafeName(clip)),
			"leave --sheet out: the clip is measured then")
	}
	return s, nil
}
