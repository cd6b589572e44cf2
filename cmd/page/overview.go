package page

import (
	"cmp"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"

	"holdfast/sheet"
	"holdfast/sheet/overview"
)

// An Overview is one page of many clips, with links to the page of each.
type Overview struct {
	Title string
	*overview.Overview
	Link   func(name string) string // relative URL of a clip's own page; empty: it has none
	Poster func(name string) []byte // JPEG picture of a clip; nil: there is none
}

//go:embed parts/overview.html
var overviewHTML string

//go:embed parts/overview.css
var overviewCSS string

//go:embed parts/overview.js
var overviewJS string

var overviewTemplate = parsed("overview", overviewHTML)

// An overviewView is what the template shows. All text is visible.
type overviewView struct {
	Policy, Title string
	CSS           template.CSS
	JS            template.JS
	Facts, Kinds  []string
	Rows          []overviewRow
	Failed, Same  []overviewRow
	Older         bool // some rows are no newest passes
}

type overviewRow struct {
	Place                          int // in the order of where to look first
	Name, Link, Where, Beats, Text string
	Poster                         template.URL
	Seconds                        float64
	Slides, Fix, Look, Notes       int
	KindWords, Since, Against      string
	Newest                         bool
	Error, Hint, Same              string
}

// Write writes the page. All text in it is escaped for the place it stands in.
func (o *Overview) Write(w io.Writer) error {
	v := overviewView{
		Title: sheet.Visible(o.Title), CSS: template.CSS(pageCSS + overviewCSS), JS: template.JS(overviewJS),
		Policy: policy("script-src '"+fingerprint(overviewJS)+"'", "style-src '"+fingerprint(pageCSS+overviewCSS)+"'", "img-src data:"),
		Facts:  o.facts(),
	}
	for i, r := range o.Rows {
		v.Rows = append(v.Rows, o.row(i, r))
		v.Older = v.Older || !r.Newest
		for _, kind := range r.Kinds {
			if !slices.Contains(v.Kinds, kind) {
				v.Kinds = append(v.Kinds, kind)
			}
		}
	}
	slices.Sort(v.Kinds)
	for _, r := range o.Failed {
		v.Failed = append(v.Failed, overviewRow{Name: sheet.Visible(r.Path), Error: sheet.Visible(r.Fail.Error), Hint: sheet.Visible(r.Fail.Hint)})
	}
	for _, r := range o.Same {
		v.Same = append(v.Same, overviewRow{Name: sheet.Visible(r.Path), Same: sheet.Visible(r.Same)})
	}
	if err := overviewTemplate.Execute(w, v); err != nil {
		return fmt.Errorf("overview of %s: %w", v.Title, err)
	}
	return nil
}

// facts stand under the title.
func (o *Overview) facts() []string {
	fix, seconds := 0, 0.0
	for _, r := range o.Rows {
		seconds += r.Clip.Seconds
		if r.Newest && !r.Reference {
			fix += r.Fix
		}
	}
	list := []string{counted(len(o.Rows), "clip"), fmt.Sprintf("%.0f s", seconds), counted(fix, "note") + " to fix in the newest passes"}
	if n := len(o.Failed); n > 0 {
		list = append(list, fmt.Sprintf("%d without a sheet", n))
	}
	if n := len(o.Same); n > 0 {
		list = append(list, fmt.Sprintf("%d the same as another", n))
	}
	if p := o.Pattern.String(); p != "" {
		list = append(list, "names read as "+sheet.Visible(p))
	}
	return list
}

// counted is a number with its noun.
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

func (o *Overview) row(place int, r overview.Row) overviewRow {
	line := overviewRow{
		Place: place, Name: sheet.Visible(r.Name), Link: o.Link(results(r)), Where: where(r),
		Beats:   fmt.Sprintf("%s: %s (%s), %s; %s, %s", counted(r.Beats, "beat"), counted(r.Holds, "hold"), counted(r.Held, "frame"), counted(r.Moves, "move"), counted(r.Slides, "slide"), counted(r.Hops, "hop")),
		Seconds: r.Clip.Seconds, Slides: r.Slides, Fix: r.Fix, Look: r.Look, Notes: r.Fix + r.Look,
		KindWords: strings.Join(r.Kinds, ", "), Since: since(r.Since), Against: against(r.Against), Newest: r.Newest,
	}
	if picture := o.Poster(results(r)); len(picture) > 0 {
		line.Poster = template.URL("data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(picture))
	}
	line.Text = strings.Join([]string{line.Name, sheet.Visible(r.Path), line.Where, line.KindWords}, " ")
	return line
}

// results is the name under which those of a row are.
func results(r overview.Row) string { return cmp.Or(r.Same, r.Name) }

// where says which shot and pass a clip is, and how long.
func where(r overview.Row) string {
	list := []string{}
	switch {
	case r.Reference:
		list = append(list, sheet.Visible(r.Shot)+", the reference")
	case r.Pass > 0:
		list = append(list, fmt.Sprintf("%s, pass %d", sheet.Visible(r.Shot), r.Pass))
	}
	if r.Same != "" {
		list = append(list, "the same as "+sheet.Visible(r.Same))
	}
	return strings.Join(append(list, fmt.Sprintf("%d × %d", r.Clip.Width, r.Clip.Height), counted(r.Clip.Frames, "frame"), fmt.Sprintf("%.2f s", r.Clip.Seconds)), " · ")
}

// since words what became of the notes on the pass before.
func since(c *overview.Change) string {
	switch {
	case c == nil:
		return ""
	case !c.Related:
		return fmt.Sprintf("too unlike %s to follow its notes", sheet.Visible(c.Name))
	}
	var list []string
	for _, part := range []struct {
		n    int
		word string
	}{{c.Fixed, "fixed"}, {c.Better, "better"}, {c.Still, "still there"}, {c.Worse, "worse"}, {c.New, "new"}} {
		if part.n > 0 {
			list = append(list, fmt.Sprintf("%d %s", part.n, part.word))
		}
	}
	if len(list) == 0 {
		list = append(list, "no notes then or now")
	}
	return fmt.Sprintf("since %s: %s", sheet.Visible(c.Name), strings.Join(list, ", "))
}

// against words how a pass agrees with its reference.
func against(a *overview.Agreement) string {
	switch {
	case a == nil:
		return ""
	case !a.Related:
		return fmt.Sprintf("too unlike the reference %s to compare", sheet.Visible(a.Name))
	}
	return fmt.Sprintf("against %s: likeness %.2f, %s", sheet.Visible(a.Name), a.Likeness, counted(a.Changes, "difference"))
}
