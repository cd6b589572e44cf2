package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"holdfast/sheet"
)

// mostStills bounds how many pictures one run writes.
const mostStills = 5000

// A still is a frame worth a picture, with why.
type still struct {
	frame int
	words []string
}

// A stillWish says which frames are wanted.
type stillWish struct {
	at    []string // frames or stretches, as given
	every int
	only  bool
}

func readStillWish(c *cli.Context) (w stillWish, err error) {
	w = stillWish{every: c.Int("every"), only: c.Bool("only")}
	if c.IsSet("every") && w.every < 1 {
		return w, usage(fmt.Sprintf("--every %d: there is no such frame", w.every), "--every 10 writes every tenth")
	}
	if c.IsSet("at") {
		for part := range strings.SplitSeq(c.String("at"), ",") {
			if part = strings.TrimSpace(part); part == "" {
				return w, usage("--at: a frame is missing", "write frames such as 43,60-64")
			}
			w.at = append(w.at, part)
		}
	}
	if w.only && len(w.at) == 0 && w.every == 0 {
		return w, usage("--only goes with --at or --every", "say which frames")
	}
	return w, nil
}

// choose returns the frames wanted of a clip, in order.
func (w stillWish) choose(s *sheet.Sheet) ([]still, error) {
	words := map[int][]string{}
	if !w.only {
		addBeats(words, s)
		addFeet(words, s)
	}
	for _, part := range w.at {
		from, to, err := w.span(part, s.Clip)
		if err != nil {
			return nil, err
		}
		for n := from; n <= to && len(words) <= mostStills; n++ {
			words[n] = slices.Concat(words[n])
		}
	}
	for n := s.Clip.FirstFrame; w.every > 0 && n <= s.Clip.Last() && len(words) <= mostStills; n += w.every {
		words[n] = slices.Concat(words[n])
	}
	if len(words) > mostStills {
		return nil, usage(fmt.Sprintf("more than %d stills are asked for", mostStills), "ask for fewer with --at or --every")
	}
	var list []still
	for _, n := range slices.Sorted(maps.Keys(words)) {
		list = append(list, still{n, words[n]})
	}
	return list, nil
}

// span understands a frame or a stretch of frames.
func (w stillWish) span(part string, c sheet.Clip) (from, to int, err error) {
	first, last := c.FirstFrame-c.Skipped, c.FirstFrame-c.Skipped
	start, end := part, part
	// A dash after the first character parts two frames: a number may be below zero.
	if i := strings.Index(part[1:], "-"); i >= 0 {
		start, end = part[:i+1], part[i+2:]
	}
	a, errA := sheet.ParsePlace(strings.TrimSpace(start), c.FPS, first)
	b, errB := sheet.ParsePlace(strings.TrimSpace(end), c.FPS, last)
	from, to = int(a)+first, int(b)+first
	if errA != nil || errB != nil || to < from || from < c.FirstFrame || to > c.Last() {
		return 0, 0, usage(fmt.Sprintf("--at %s: there are no such frames; the clip has %d to %d", sheet.Visible(part), c.FirstFrame, c.Last()),
			"write frames such as 43,60-64")
	}
	return from, to, nil
}

// addBeats wants the middle of each hold and the peak of each move.
func addBeats(words map[int][]string, s *sheet.Sheet) {
	for _, b := range s.Leading() {
		switch {
		case b.Kind == sheet.KindHold:
			n := (b.Start + b.End) / 2
			words[n] = append(words[n], fmt.Sprintf("hold, %d f (%d–%d)", b.Frames, b.Start, b.End))
		case b.Peak != nil:
			words[*b.Peak] = append(words[*b.Peak], fmt.Sprintf("peak of %d–%d", b.Start, b.End))
		}
	}
}

// addFeet wants the first frame of each contact and slide and the top of each
// hop.
func addFeet(words map[int][]string, s *sheet.Sheet) {
	for _, c := range s.Contacts {
		say(words, c.Start, fmt.Sprintf("down from here, %d–%d", c.Start, c.End))
		if c.State == sheet.StateSlide {
			from, to := c.Slide()
			say(words, from, fmt.Sprintf("slides, %d–%d", from, to))
		}
	}
	for _, f := range s.Flights {
		if s.IsHop(f) {
			n := (f.Start + f.End) / 2
			words[n] = append(words[n], fmt.Sprintf("top of a hop, %d f", f.Frames))
		}
	}
}

// say adds a line to a frame, once: two feet may come down together.
func say(words map[int][]string, frame int, line string) {
	if !slices.Contains(words[frame], line) {
		words[frame] = append(words[frame], line)
	}
}
