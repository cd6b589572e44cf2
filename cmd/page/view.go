package page

import (
	"fmt"
	"html/template"
	"slices"
	"strings"

	"holdfast/sheet"
)

// A view is what the template shows.
type view struct {
	Policy   string
	CSS      template.CSS
	JS       template.JS
	Title    string
	NoteWord string
	Name     string // the clip's
	Stem     string // of files that are saved from the page
	Facts    []string
	Warnings []string
	Clip     sheet.Clip
	Last     int // frame
	Video    Video
	Shape    string // of the picture, for the overlay's box of coordinates
	Rows     []row
	Joins    []string // where shots begin, in per cent of the axis
	Summary  []string // of what differs
	Beside   *Beside
	Other    string   // the reference's name
	Plays    bool     // there is a clip
	Figures  bool     // where they are is known
	Arcs     []string // names of the points whose arcs can be shown
	Kinds    []string // of notes
	States   []string // of notes that are followed
	Notes    []noteLine
	Beats    []beatLine
	Data     data
}

// data is what the script reckons with.
type data struct {
	First   int            `json:"first"`
	Frames  int            `json:"frames"`
	Before  int            `json:"before"`
	Num     int64          `json:"num"` // frames a second: num/den
	Den     int64          `json:"den"`
	Stem    string         `json:"stem"`
	Key     string         `json:"key"` // tells this clip's remarks from another's
	Stops   []int          `json:"stops"`
	Over    over           `json:"over"`
	Beside  *besideData    `json:"beside"`
	Remarks []sheet.Remark `json:"remarks"`
}

// A beatLine is a row of the table of beats.
type beatLine struct {
	sheet.Beat
	Words, Who string
	Ladder     *ladder
}

func (p *Page) view() view {
	s := p.Sheet
	name := sheet.Visible(s.Clip.Name)
	v := view{
		Policy: p.policy(), CSS: template.CSS(pageCSS), JS: template.JS(pageJS),
		Title: p.title(), NoteWord: p.noteWord(), Beside: p.Beside, Plays: p.Video.MP4 != nil || p.Video.Link != "", Figures: len(p.Boxes) > 0, Arcs: p.arcNames(),
		Name: name, Stem: stem(name), Facts: facts(s), Clip: s.Clip, Last: s.Clip.Last(), Video: p.Video,
		Shape: fmt.Sprintf("0 0 %d %d", s.Clip.Width, s.Clip.Height),
		Rows:  p.rows(), Beats: beatLines(s),
	}
	for _, w := range s.Clip.Warnings {
		v.Warnings = append(v.Warnings, sheet.Visible(w))
	}
	for _, n := range p.notes() {
		n.Kind, n.Text = sheet.Visible(n.Kind), sheet.Visible(n.Text)
		v.Notes = append(v.Notes, n)
		if !slices.Contains(v.Kinds, n.Kind) {
			v.Kinds = append(v.Kinds, n.Kind)
		}
		if n.State != "" && !slices.Contains(v.States, n.State) {
			v.States = append(v.States, n.State)
		}
	}
	slices.Sort(v.Kinds)
	slices.Sort(v.States)
	for _, line := range p.summary() {
		v.Summary = append(v.Summary, sheet.Visible(line))
	}
	if p.Beside != nil {
		v.Other = sheet.Visible(p.Beside.Sheet.Clip.Name)
	}
	for _, t := range s.Shots[1:] {
		v.Joins = append(v.Joins, share(&s.Clip, t.Start))
	}
	v.Data = data{
		First: s.Clip.FirstFrame, Frames: s.Clip.Frames, Before: p.Video.Before,
		Num: s.Clip.FPS.Num, Den: s.Clip.FPS.Den, Stem: v.Stem, Key: s.Clip.SHA256, Stops: stops(s), Over: p.over(), Beside: p.Beside.data(&s.Clip), Remarks: visibleRemarks(s),
	}
	return v
}

// visibleRemarks are the sheet's remarks as the page shows and saves them.
func visibleRemarks(s *sheet.Sheet) []sheet.Remark {
	list := []sheet.Remark{}
	for _, r := range s.Remarks {
		r.Text = sheet.Visible(r.Text)
		list = append(list, r)
	}
	return list
}

// facts are the clip in a few words.
func facts(s *sheet.Sheet) []string {
	c := s.Clip
	list := []string{
		fmt.Sprintf("%d × %d", c.Width, c.Height),
		c.FPS.Words() + " frames a second",
		fmt.Sprintf("%d frames, %d–%d", c.Frames, c.FirstFrame, c.Last()),
	}
	if n := len(s.Shots); n > 1 {
		list = append(list, fmt.Sprintf("%d shots", n))
	}
	return list
}

// stem is a clip's name without its suffix.
func stem(name string) string {
	if i := strings.LastIndexByte(name, '.'); i > 0 {
		return name[:i]
	}
	return name
}

func beatLines(s *sheet.Sheet) []beatLine {
	var list []beatLine
	for _, b := range s.Beats {
		list = append(list, beatLine{b, beatWords(b), who(b.Figure), ladderOf(b)})
	}
	return list
}

// stops are the frames on which beats begin.
func stops(s *sheet.Sheet) []int {
	list := []int{}
	for _, b := range s.Beats {
		list = append(list, b.Start)
	}
	slices.Sort(list)
	return slices.Compact(list)
}
