package page

import (
	"bytes"
	"context"
	"encoding/xml"
	"fmt"
	"io"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"holdfast/sheet"
)

func exposed(t *testing.T, s *sheet.Sheet) string {
	t.Helper()
	var b bytes.Buffer
	if err := (&ExposureSheet{Sheet: s}).Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// A table is one page of an exposure sheet as a reader of HTML has it: by the number
// of a row, the words of each column, on every row that a cell goes on over.
type exposureTable map[string][]string

// tablesOf reads pages as HTML Living Standard, 4.9.12 (forming a table) has it.
func tablesOf(t *testing.T, html string) []exposureTable {
	t.Helper()
	var list []exposureTable
	for _, body := range regexp.MustCompile(`(?s)</colgroup>.*?<tbody>(.*?)</tbody>`).FindAllStringSubmatch(html, -1) {
		list = append(list, tableOf(t, body[1]))
	}
	return list
}

func tableOf(t *testing.T, body string) exposureTable {
	table := exposureTable{}
	var over []struct { // by column: how many more rows a cell takes
		rows int
		text string
	}
	for _, row := range regexp.MustCompile(`(?s)<tr.*?</tr>`).FindAllString(body, -1) {
		head, cells := cellsOf(t, row)
		var line []string
		for k := 0; len(cells) > 0 || k < len(over); k++ {
			for len(over) <= k {
				over = append(over, struct {
					rows int
					text string
				}{})
			}
			if over[k].rows == 0 {
				if len(cells) == 0 {
					t.Fatalf("row %s has too few cells", head)
				}
				over[k].rows, over[k].text, cells = cells[0].span, cells[0].text, cells[1:]
			}
			over[k].rows--
			line = append(line, over[k].text)
		}
		table[head] = line
	}
	for _, o := range over {
		if o.rows != 0 {
			t.Errorf("a cell goes on %d rows below its table", o.rows)
		}
	}
	return table
}

type exposedCell struct {
	span int
	text string
}

func cellsOf(t *testing.T, row string) (head string, cells []exposedCell) {
	t.Helper()
	d, inside := xml.NewDecoder(strings.NewReader(row)), ""
	for {
		token, err := d.Token()
		if err == io.EOF {
			return head, cells
		}
		if err != nil {
			t.Fatalf("%v in %s", err, row)
		}
		switch e := token.(type) {
		case xml.StartElement:
			inside = e.Name.Local
			if inside != "td" {
				continue
			}
			cells = append(cells, exposedCell{span: 1})
			for _, a := range e.Attr {
				if a.Name.Local == "rowspan" {
					fmt.Sscan(a.Value, &cells[len(cells)-1].span)
				}
			}
		case xml.CharData:
			if inside == "th" {
				head = string(e)
			} else if len(cells) > 0 {
				cells[len(cells)-1].text += string(e)
			}
		}
	}
}

// A row a frame, and what the sample says of each in its columns: travel, drawing,
// beats, two of feet, notes, by hand.
func TestExposureSheetHasARowAFrame(t *testing.T) {
	tables := tablesOf(t, exposed(t, sample()))
	if len(tables) != 1 || len(tables[0]) != 48 {
		t.Fatalf("%d pages, the first of %d rows; want one of 48", len(tables), len(tables[0]))
	}
	for frame, want := range map[string]string{
		"101": ",—,frozen hold, 20,slide 10%,1 fix: slide (to 140),",
		"111": ",,frozen hold, 20,slide 10%,remark: longer hold here (to 112),",
		"120": ",,frozen hold, 20,slide 10%,,",
		"121": ",—,move, 28,slide 10%,,",
		"130": ",◆,move, 28,slide 10%,,",
		"141": ",,move, 28,air, 6,,",
		"148": ",,move, 28,,,",
	} {
		if got := strings.Join(tables[0][frame], ","); got != want {
			t.Errorf("row %s is %q, want %q", frame, got, want)
		}
	}
}

// What goes on over a page's end is named again on the next.
func TestExposureSheetGoesOnOverPages(t *testing.T) {
	s := sample()
	s.Clip.FPS = sheet.Rate{Num: 120, Den: 1}
	s.Clip.Frames, s.Shots[0].End = 100, 200
	s.Beats[1].End = 200
	for len(s.Curve.Motion) < 100 {
		s.Curve.Motion, s.Curve.Camera = append(s.Curve.Motion, 0), append(s.Curve.Camera, [4]float64{0, 0, 0, 1})
	}
	s.Complete()
	html := exposed(t, s)
	tables := tablesOf(t, html)
	if len(tables) != 2 || len(tables[0]) != 60 || len(tables[1]) != 40 {
		t.Fatalf("%d pages", len(tables))
	}
	if got := tables[1]["161"][2]; got != "… move, 80" {
		t.Errorf("the move goes on as %q", got)
	}
	for _, want := range []string{"page 2 of 2", "frames 161–200", "<small>0:00</small>"} {
		if !strings.Contains(html, want) {
			t.Errorf("no %q", want)
		}
	}
}

func TestRowsOnPage(t *testing.T) {
	for _, c := range []struct {
		rate sheet.Rate
		want int
	}{
		{sheet.Rate{Num: 24, Den: 1}, 48}, {sheet.Rate{Num: 24000, Den: 1001}, 48}, {sheet.Rate{Num: 25, Den: 1}, 50},
		{sheet.Rate{Num: 30, Den: 1}, 60}, {sheet.Rate{Num: 12, Den: 1}, 60}, {sheet.Rate{Num: 60, Den: 1}, 60},
		{sheet.Rate{Num: 120, Den: 1}, 60}, {sheet.Rate{Num: 100, Den: 1}, 50}, {sheet.Rate{Num: 1, Den: 10}, 60},
	} {
		if got := rowsOnPage(c.rate); got != c.want {
			t.Errorf("%v: %d rows, want %d", c.rate, got, c.want)
		}
	}
}

func TestExposureSheetEscapesAndForbids(t *testing.T) {
	const evil = `</style><img src=x onerror=alert(1)>"'` + "`{{.}}‮"
	s := sample()
	s.Clip.Name, s.Notes[0].Text, s.Remarks[0].Text = evil+".mp4", evil, evil
	html := exposed(t, s)
	if strings.Contains(html, "<img") || strings.Contains(html, "‮") || strings.Contains(html, " style=") || strings.Contains(html, "<script") {
		t.Error("text of the sheet came through as it is, or there is what the policy forbids")
	}
	style := regexp.MustCompile(`(?s)<style>(.*?)</style>`).FindStringSubmatch(html)[1]
	if !strings.Contains(html, strings.ReplaceAll(fingerprint(style), "+", "&#43;")) {
		t.Error("the policy does not name the style")
	}
}

// A page of rows is one sheet of paper, on A4 and Letter, whatever the rate.
func TestExposureSheetInABrowser(t *testing.T) {
	b := startBrowser(t)
	for _, fps := range []int64{1, 2, 8, 24, 25, 30, 50} {
		s := longSample(1001, 130, sheet.Rate{Num: fps, Den: 1})
		s.Remarks, s.Notes = nil, nil // they take paper of their own
		html := exposed(t, s)
		path := filepath.Join(t.TempDir(), "exposure.html")
		if err := os.WriteFile(path, []byte(html), 0o600); err != nil {
			t.Fatal(err)
		}
		b.run(chromedp.Navigate((&url.URL{Scheme: "file", Path: path}).String()))
		want := len(tablesOf(t, html))
		for name, size := range map[string][2]float64{"A4": {8.27, 11.69}, "Letter": {8.5, 11}} {
			if got := b.sheetsOfPaper(size); got != want {
				t.Errorf("%d fps: %d pages are %d sheets of %s", fps, want, got, name)
			}
		}
	}
	b.nothingOverflows()
	b.noTrouble()
}

var pdfPage = regexp.MustCompile(`/Type ?/Page\b`)

// sheetsOfPaper is how many the page in the browser takes, printed; size is in inches.
func (b *browser) sheetsOfPaper(size [2]float64) (n int) {
	b.t.Helper()
	b.run(chromedp.ActionFunc(func(ctx context.Context) error {
		pdf, _, err := page.PrintToPDF().WithPaperWidth(size[0]).WithPaperHeight(size[1]).WithPrintBackground(true).Do(ctx)
		n = len(pdfPage.FindAll(pdf, -1))
		return err
	}))
	return n
}
