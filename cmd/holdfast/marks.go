package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/urfave/cli/v2"

	"holdfast/extract"
	"holdfast/motion"
	"holdfast/motion/feet"
	"holdfast/motion/figure"
	"holdfast/motion/parts"
	"holdfast/sheet"
)

// A mark is something shown by hand, as the command line has it.
type mark struct {
	option  string
	text    string
	name    string // of a part
	numbers []float64
	place   string // of its frame; empty where none is named
}

// A markForm says how the marks of an option are written.
type markForm struct {
	option  string
	numbers int
	framed  bool // a frame must be named
	named   bool // NAME= comes first
	usage   string
	example string
}

var markForms = []markForm{
	{"ground", 4, false, false,
		"figures stand on the line through `X,Y,X,Y`, pixels of the clip; with @FRAME in that frame's shot, else in all (repeatable)", "--ground 0,610,1280,640"},
	{"figure", 4, true, false,
		"the figure to measure is in the box `X,Y,WIDTH,HEIGHT@FRAME` (repeatable)", "--figure 400,120,260,510@12"},
	{"feet", 2, true, false,
		"a foot is at `X,Y@FRAME`; it is followed from there both ways (repeatable)", "--feet 512,604@12"},
	{"part", 4, true, true,
		"a part of a figure, such as its head, is in the box `NAME=X,Y,WIDTH,HEIGHT@FRAME`; it is followed from there both ways and has its own beats (repeatable)", "--part head=480,130,90,110@12"},
}

func markFlags() []cli.Flag {
	var flags []cli.Flag
	for _, f := range markForms {
		flags = append(flags, &cli.GenericFlag{Name: f.option, Value: new(repeated), Usage: f.usage})
	}
	return flags
}

// A repeated option gathers what it is given each time. The library's own lists
// print every option's name twice.
type repeated []string

// Set takes one more value.
func (r *repeated) Set(text string) error {
	*r = append(*r, text)
	return nil
}

func (r *repeated) String() string { return strings.Join(*r, " ") }

// readMarks reads all marks of a command line.
func readMarks(c *cli.Context) ([]mark, error) {
	var list []mark
	for _, f := range markForms {
		for _, text := range *c.Generic(f.option).(*repeated) {
			m, err := f.read(text)
			if err != nil {
				return nil, err
			}
			list = append(list, m)
		}
	}
	return list, nil
}

// maxPixels bounds the numbers of a mark, far beyond any picture.
const maxPixels = 1e6

// read reads one mark.
func (f markForm) read(text string) (mark, error) {
	hint := "write it like " + f.example
	wrong := func(why string) (mark, error) {
		return mark{}, usage(fmt.Sprintf("--%s %s: %s", f.option, sheet.Visible(text), why), hint)
	}
	m := mark{option: f.option, text: text}
	rest := text
	if f.named {
		var ok bool
		if m.name, rest, ok = strings.Cut(text, "="); !ok || !sheet.IsPartName(m.name) {
			return wrong(fmt.Sprintf("no name of letters, digits, spaces and dashes, %d at most, before a =", sheet.MaxPartName))
		}
	}
	numbers, place, framed := strings.Cut(rest, "@")
	m.place = place
	for _, s := range strings.Split(numbers, ",") {
		v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
		if err != nil || !(math.Abs(v) <= maxPixels) {
			return wrong(fmt.Sprintf("%q is no number of pixels", sheet.Visible(s)))
		}
		m.numbers = append(m.numbers, v)
	}
	switch {
	case len(m.numbers) != f.numbers:
		return wrong(fmt.Sprintf("%d numbers, not %d", len(m.numbers), f.numbers))
	case framed && place == "" || f.framed && !framed:
		return wrong("no frame named")
	case f.boxed() && (m.numbers[2] <= 0 || m.numbers[3] <= 0):
		return wrong("the box is empty")
	case f.option == "ground" && m.numbers[0] == m.numbers[2]:
		return wrong("the line goes straight up")
	}
	return m, nil
}

// boxed reports whether marks of the form are boxes.
func (f markForm) boxed() bool { return f.option == "figure" || f.option == "part" }

// corners are the two places, in displayed pixels, that a mark lies between.
func (m mark) corners() (x0, y0, x1, y1 float64) {
	n := m.numbers
	switch m.option {
	case "figure", "part":
		return n[0], n[1], n[0] + n[2], n[1] + n[3]
	case "ground":
		return n[0], n[1], n[2], n[3]
	}
	return n[0], n[1], n[0], n[1]
}

// A marker makes marks in working pixels of those on the command line.
type marker struct {
	clip  extract.Clip
	first int   // number of the clip's first frame
	from  int64 // frames of the clip before the first one measured
	count int64 // how many are measured at most, 0: all
}

// place sorts marks by what they show. Errors are wrong command lines.
func (k marker) place(list []mark) (out motion.Marks, err error) {
	for _, m := range list {
		x0, y0, x1, y1, err := k.inside(m)
		if err != nil {
			return out, err
		}
		frame, err := k.frame(m)
		if err != nil {
			return out, err
		}
		switch m.option {
		case "ground":
			out.Ground = append(out.Ground, motion.GroundMark{Frame: frame, Line: feet.Line{X0: x0, Y0: y0, X1: x1, Y1: y1}})
		case "figure":
			box := figure.Box{X0: int(x0), Y0: int(y0), X1: int(math.Ceil(x1)), Y1: int(math.Ceil(y1))}
			out.Figures = append(out.Figures, figure.Mark{Frame: frame, Box: box})
		case "part":
			box := parts.Box{X: x0, Y: y0, W: x1 - x0, H: y1 - y0}
			out.Parts = append(out.Parts, parts.Mark{Name: m.name, Frame: frame, Box: box})
		default:
			out.Feet = append(out.Feet, feet.Mark{Frame: frame, X: x0, Y: y0})
		}
	}
	return out, nil
}

// inside returns a mark's corners in working pixels; they must lie in the picture.
func (k marker) inside(m mark) (x0, y0, x1, y1 float64, err error) {
	x0, y0, x1, y1 = m.corners()
	w, h := float64(k.clip.Width), float64(k.clip.Height)
	if min(x0, x1) < 0 || min(y0, y1) < 0 || max(x0, x1) > w || max(y0, y1) > h {
		return 0, 0, 0, 0, usage(fmt.Sprintf("--%s %s lies outside the picture", m.option, sheet.Visible(m.text)),
			fmt.Sprintf("the clip is %d by %d pixels as displayed", k.clip.Width, k.clip.Height))
	}
	sx, sy := float64(k.clip.Work.X)/w, float64(k.clip.Work.Y)/h
	return x0 * sx, y0 * sy, x1 * sx, y1 * sy, nil
}

// frame returns the index, from 0, of a mark's frame among those measured.
func (k marker) frame(m mark) (int, error) {
	if m.place == "" {
		return motion.EveryShot, nil
	}
	n, err := sheet.ParsePlace(m.place, sheet.Rate(k.clip.Rate), k.first)
	if err != nil {
		return 0, usage(fmt.Sprintf("--%s %s: %v", m.option, sheet.Visible(m.text), err), "name a frame by its number or a timecode of the clip")
	}
	if n < k.from || k.count > 0 && n >= k.from+k.count {
		return 0, usage(fmt.Sprintf("--%s %s is on a frame that is not measured", m.option, sheet.Visible(m.text)), "choose another frame, or other --from and --to")
	}
	return int(n - k.from), nil
}

// markTexts are the marks as they were given, for the sheet's settings.
func markTexts(list []mark) []string {
	var texts []string
	for _, m := range list {
		texts = append(texts, "--"+m.option+" "+m.text)
	}
	return texts
}
