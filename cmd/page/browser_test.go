package page

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/png"
	"io"
	"maps"
	"math/rand/v2"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	cdp "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"holdfast/extract"
	"holdfast/sheet"
)

// A browser is Chromium with one page, and what it complained of.
type browser struct {
	ctx context.Context
	t   *testing.T

	mu       sync.Mutex
	trouble  []string // errors on the console, exceptions, blocked content
	requests []string // but for the page itself
}

// startBrowser starts Chromium, or skips the test where there is none;
// scripts/test installs it.
func startBrowser(t *testing.T) *browser {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("no chromium here: the page is not looked at in a browser")
	}
	// Chromium's helpers may write into its profile for a moment after it has ended.
	profile, err := os.MkdirTemp("", "holdfast-browser-*")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		for range 20 {
			if os.RemoveAll(profile) == nil {
				return
			}
			time.Sleep(50 * time.Millisecond)
		}
		t.Errorf("%s cannot be removed", profile)
	})
	options := append(slices.Clone(chromedp.DefaultExecAllocatorOptions[:]),
		chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.UserDataDir(profile),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))
	ctx, cancel := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	ctx, cancel = context.WithTimeout(ctx, 3*time.Minute)
	t.Cleanup(cancel)
	b := &browser{ctx: ctx, t: t}
	chromedp.ListenTarget(ctx, b.listen)
	b.run(network.Enable(), log.Enable())
	return b
}

func (b *browser) listen(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		b.trouble = append(b.trouble, e.ExceptionDetails.Error())
	case *runtime.EventConsoleAPICalled:
		b.trouble = append(b.trouble, fmt.Sprintf("console: %s", e.Type))
	case *log.EventEntryAdded:
		b.trouble = append(b.trouble, e.Entry.Text)
	case *network.EventRequestWillBeSent:
		if e.Type != network.ResourceTypeDocument && !strings.HasPrefix(e.Request.URL, "blob:") && !strings.HasPrefix(e.Request.URL, "data:") {
			b.requests = append(b.requests, e.Request.URL)
		}
	}
}

func (b *browser) run(actions ...chromedp.Action) {
	b.t.Helper()
	if err := chromedp.Run(b.ctx, actions...); err != nil {
		b.t.Fatal(err)
	}
}

// open opens a page from disk, writes it first, and waits until its clip is there.
func (b *browser) open(p *Page) {
	b.t.Helper()
	b.load(p)
	b.wait("the clip loads", "clip.readyState >= 2 && !clip.seeking")
}

// load opens a page from disk and writes it first.
func (b *browser) load(p *Page) {
	b.t.Helper()
	path := filepath.Join(b.t.TempDir(), "page.html")
	if err := os.WriteFile(path, []byte(written(b.t, p)), 0o600); err != nil {
		b.t.Fatal(err)
	}
	b.run(chromedp.Navigate((&url.URL{Scheme: "file", Path: path}).String()))
}

// eval returns what a script comes to.
func eval[T any](b *browser, script string) (v T) {
	b.t.Helper()
	b.run(chromedp.Evaluate(script, &v))
	return v
}

func (b *browser) wait(what, condition string) {
	b.t.Helper()
	for range 3000 { // half a minute: the machine may be busy
		if eval[bool](b, condition) {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	b.t.Fatalf("in vain waited until %s", what)
}

// codedFrames is how many frames the clip of numbers has, and codeBits how many
// bits tell them apart.
const codedFrames, codeBits = 300, 10

// codedClip writes a clip whose frame n shows the bits of n as columns.
func codedClip(t *testing.T, rate extract.Rate) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "numbers.mp4")
	n := 0
	err := extract.WriteVideo(context.Background(), path, extract.VideoOptions{Width: 320, Height: 180, Rate: rate, Codec: extract.H264Lossless, Preset: "ultrafast"},
		func(f *image.YCbCr) error {
			if n == codedFrames {
				return io.EOF
			}
			for i := range f.Y {
				f.Y[i] = 40 + 170*uint8(n>>(i%f.YStride*codeBits/320)&1)
			}
			for i := range f.Cb {
				f.Cb[i], f.Cr[i] = 128, 128
			}
			n++
			return nil
		})
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// readCode reads the number that the player shows.
const readCode = `(() => {
	const c = document.createElement("canvas");
	c.width = 320; c.height = 180;
	const g = c.getContext("2d", { willReadFrequently: true });
	g.drawImage(clip, 0, 0, 320, 180);
	let n = 0;
	for (let bit = 0; bit < 10; bit++) if (g.getImageData(32 * bit + 16, 90, 1, 1).data[0] > 125) n |= 1 << bit;
	return n;
})()`

// The page of numbers leaves out the first codeFrom frames of its clip; frame n of
// it shows n - codeOffset.
const codeOffset, codeFrom = 1001, 7

// codedPage is a page of numbers on which much happens.
func codedPage(t *testing.T) *Page {
	t.Helper()
	s := longSample(codeOffset+codeFrom, codedFrames-codeFrom, sheet.Rate(codeRate))
	coded.Do(func() { makeCoded(t, s) })
	thumbs := map[int][]byte{}
	for n, picture := range coded.made.Thumbs {
		thumbs[s.Clip.FirstFrame+n] = picture
	}
	boxes := Boxes{Figure: 1, Start: s.Clip.FirstFrame}
	for i := range s.Clip.Frames {
		boxes.At = append(boxes.At, [4]float64{30 + 2*float64(i), 40, 20, 90})
	}
	return &Page{
		Sheet: s, Boxes: []Boxes{boxes}, Thumbs: thumbs,
		Ground: []Ground{{s.Clip.FirstFrame, s.Clip.FirstFrame + 20, onePixel(t)}},
		Video:  Video{Width: coded.made.Width, Height: coded.made.Height, MP4: bytes.NewReader(coded.mp4)},
	}
}

var codeRate = extract.Rate{Num: 24000, Den: 1001}

// coded is the video of every codedPage.
var coded struct {
	sync.Once
	made *extract.Proxy
	mp4  []byte
}

func makeCoded(t *testing.T, s *sheet.Sheet) {
	t.Helper()
	proxy := filepath.Join(t.TempDir(), "proxy.mp4")
	var err error
	coded.made, err = extract.WriteProxy(context.Background(), codedClip(t, codeRate), proxy, extract.Options{From: codeFrom},
		func(n int) bool { return slices.Contains(ThumbFrames(s), s.Clip.FirstFrame+n) }, nil)
	if err != nil {
		t.Fatal(err)
	}
	if coded.mp4, err = os.ReadFile(proxy); err != nil {
		t.Fatal(err)
	}
}

// onePixel is a picture that a browser can show.
func onePixel(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 1, 1))); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// longSample is a clip in which much happens: beats of eight frames, and all
// else between them.
func longSample(first, frames int, rate sheet.Rate) *sheet.Sheet {
	s := sample()
	last := first + frames - 1
	s.Clip.Name = "numbers.mp4"
	s.Clip.FirstFrame, s.Clip.Frames, s.Clip.FPS = first, frames, rate
	s.Shots[0].Start, s.Shots[0].End, s.Figures[0].Start, s.Figures[0].End = first, last, first, last
	s.Beats, s.Contacts, s.Flights, s.Notes = nil, nil, nil, nil
	for at := first; at <= last; at += 16 {
		end := min(at+15, last)
		if end < at+8 {
			s.Beats = append(s.Beats, sheet.NewHold(1, 0, at, end, sheet.HoldMoving))
			break
		}
		s.Beats = append(s.Beats, sheet.NewHold(1, 0, at, at+7, sheet.HoldFrozen), sheet.NewMove(1, 0, at+8, end, at+9, 0.5))
		s.Contacts = append(s.Contacts, sheet.Contact{Shot: 1, Figure: 1, Start: at, End: at + 5, State: sheet.StatePlant, X: 100, Y: 150})
		s.Flights = append(s.Flights, sheet.Flight{Shot: 1, Figure: 1, Start: at + 6, End: at + 8, RisePx: 9, RiseShare: 0.1})
		weight := sheet.WeightLook
		if len(s.Notes)%2 == 0 {
			weight = sheet.WeightFix
		}
		s.Notes = append(s.Notes, sheet.Note{ID: len(s.Notes) + 1, Kind: []string{"slide", "dead-hold"}[len(s.Notes)%2],
			Start: at, End: at + 3, Weight: weight, Text: "something to say of it", Measured: map[string]any{}})
	}
	s.Remarks = []sheet.Remark{{Start: first + 3, End: first + 9, Text: "longer hold here"}}
	s.Curve = sheet.Curve{}
	for i := range frames {
		s.Curve.Motion = append(s.Curve.Motion, float64(i%9)/100)
		s.Curve.Camera = append(s.Curve.Camera, [4]float64{3 * float64(min(i, 1)), 0, 0, 1})
	}
	s.Complete()
	return s
}

// showsFrame waits until the player has got to a frame, and compares its number
// with the one in the picture.
func (b *browser) showsFrame(n int) {
	b.t.Helper()
	b.wait("the player stands", "!clip.seeking && wanted === null")
	if counter, code := eval[int](b, `Number(document.getElementById("frame").value)`), eval[int](b, readCode); counter != n || code != n-codeOffset {
		b.t.Errorf("frame %d: the counter says %d, the picture %d", n, counter, code+codeOffset)
	}
}

func TestPageInABrowser(t *testing.T) {
	b := startBrowser(t)
	p := codedPage(t)
	b.open(p)
	first, last := p.Sheet.Clip.FirstFrame, p.Sheet.Clip.Last()
	b.showsFrame(first)

	// It goes to any frame, and steps.
	rng := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		n := first + rng.IntN(p.Sheet.Clip.Frames)
		b.run(chromedp.Evaluate(fmt.Sprintf(`{ const f = document.getElementById("frame"); f.value = %d; f.dispatchEvent(new Event("change")); }`, n), nil))
		b.showsFrame(n)
	}
	b.press("Home", 0)
	b.showsFrame(first)
	b.press("ArrowRight", 0)
	b.showsFrame(first + 1)
	b.press("ArrowRight", input.ModifierShift)
	b.showsFrame(first + 11)
	b.press("ArrowLeft", 0)
	b.showsFrame(first + 10)
	b.press("PageDown", 0)
	b.showsFrame(first + 16)
	b.press("PageUp", 0)
	b.showsFrame(first + 8)
	b.press("End", 0)
	b.showsFrame(last)
	b.press("Home", 0)

	// It plays, at the speed that is wanted, and stops on a frame.
	b.run(chromedp.SetValue("#speed", "2", chromedp.ByQuery), chromedp.Evaluate(`document.getElementById("speed").dispatchEvent(new Event("change"))`, nil),
		chromedp.Click("#play", chromedp.ByQuery))
	b.wait("it plays", fmt.Sprintf("frame > %d", first+5))
	if speed := eval[float64](b, "clip.playbackRate"); speed != 2 {
		t.Errorf("it plays at %g", speed)
	}
	b.run(chromedp.Click("#play", chromedp.ByQuery))
	b.showsFrame(eval[int](b, "frame"))

	b.loopsOverABeat(first)
	b.layers()
	b.clicksReachEverything(3)
	b.keysReachEverything()
	b.notesFilter()
	b.remarksAreSaved(p.Sheet)
	b.nothingOverflows()
	b.noTrouble()
}

// loopsOverABeat plays the second beat over and over: no frame of another shows.
func (b *browser) loopsOverABeat(first int) {
	b.t.Helper()
	b.run(chromedp.SetValue("#again", "beat", chromedp.ByQuery))
	b.press("Home", 0)
	b.press("PageDown", 0)
	b.showsFrame(first + 8)
	b.run(chromedp.Evaluate(`window.seen = []; onFrame.push((n) => seen.push(n))`, nil), chromedp.Click("#play", chromedp.ByQuery))
	b.wait("it has gone round twice", fmt.Sprintf("seen.filter((n, i) => n === %d && seen[i - 1] > n).length >= 2", first+8))
	b.run(chromedp.Click("#play", chromedp.ByQuery), chromedp.SetValue("#again", "clip", chromedp.ByQuery))
	if others := eval[[]int](b, fmt.Sprintf("seen.filter((n) => n < %d || n > %d)", first+8, first+15)); len(others) > 0 {
		b.t.Errorf("frames %v show in the loop of %d–%d", others, first+8, first+15)
	}
}

func (b *browser) press(key string, modifiers input.Modifier) {
	b.t.Helper()
	code := map[string]int64{"Home": 36, "End": 35, "ArrowLeft": 37, "ArrowRight": 39, "PageUp": 33, "PageDown": 34, "Tab": 9, "Enter": 13, " ": 32}[key]
	for _, kind := range []input.KeyType{input.KeyRawDown, input.KeyUp} {
		b.run(input.DispatchKeyEvent(kind).WithKey(key).WithWindowsVirtualKeyCode(code).WithModifiers(modifiers))
	}
}

// layers switches on what can be drawn over the picture, and looks at its places
// in pixels of a clip of 320 by 180. The figure of codedPage goes two pixels to the
// right a frame, under a camera that turns three after it; a spot that stands goes
// three to the left.
func (b *browser) layers() {
	b.t.Helper()
	b.press("Home", 0)
	for range 3 {
		b.press("ArrowRight", 0)
	}
	for id, want := range map[string]string{
		"thirds":  "line 106.67 0, line 0 60, line 213.33 0, line 0 120",
		"safe":    "rect 11.2 6.3 297.6 167.4, rect 16 9 288 162",
		"figures": "rect 36 40 20 90",
		"feet":    "line 86 150",
	} {
		b.run(chromedp.Click("#"+id, chromedp.ByQuery))
		got := eval[string](b, `[...document.getElementById("over").children].map((e) => [e.tagName, ...["x", "y", "width", "height", "x1", "y1"]
			.filter((a) => e.hasAttribute(a)).map((a) => +Number(e.getAttribute(a)).toFixed(2))].join(" ")).join(", ")`)
		if got != want {
			b.t.Errorf("%s: %s, want %s", id, got, want)
		}
		b.run(chromedp.Click("#"+id, chromedp.ByQuery))
	}
	// Where the figure is in other frames, as seen from this one: five to the right
	// a frame.
	b.run(chromedp.Click("#paths", chromedp.ByQuery))
	if got := eval[string](b, `document.querySelector("#over polyline").getAttribute("points").split(" ").slice(0, 6).join(" ")`); got != "31.0,85.0 36.0,85.0 41.0,85.0 46.0,85.0 51.0,85.0 56.0,85.0" {
		b.t.Errorf("the path is %s", got)
	}
	b.run(chromedp.Click("#paths", chromedp.ByQuery))
	b.arcs()
}

// arcs looks at the arc of the figure through the beat that one is on, a hold from 1008
// to 1015, from the frame before it, which there is not, to the one after it: five to
// the right a frame, as seen from frame 1011.
func (b *browser) arcs() {
	b.t.Helper()
	choose := func(value string) {
		b.run(chromedp.Evaluate(fmt.Sprintf(`{ const a = document.getElementById("arc"); a.value = %q; a.dispatchEvent(new Event("change")); }`, value), nil))
	}
	choose("0")
	const want = "31.0,85.0 36.0,85.0 41.0,85.0 46.0,85.0 51.0,85.0 56.0,85.0 61.0,85.0 66.0,85.0 71.0,85.0"
	if got := eval[string](b, `document.querySelector("#over .arc").getAttribute("points")`); got != want {
		b.t.Errorf("the arc is %s, want %s", got, want)
	}
	if got := eval[string](b, `[...document.querySelectorAll("#over text")].map((e) => e.textContent).join()`); got != "1008,1016" {
		b.t.Errorf("the arc has the numbers %s", got)
	}
	choose("")
	if n := eval[int](b, `document.getElementById("over").children.length`); n != 0 {
		b.t.Errorf("%d things stay over the picture", n)
	}
}

// clicksReachEverything clicks on each thing that has a frame, and with a real
// mouse on one of the contacts, if any.
func (b *browser) clicksReachEverything(contact int) {
	b.t.Helper()
	missed := eval[[]string](b, `[...document.querySelectorAll("[data-go]")].filter((e) => {
		e.dispatchEvent(new MouseEvent("click", { bubbles: true }));
		return frame !== Number(e.dataset.go);
	}).map((e) => e.outerHTML.slice(0, 90))`)
	if len(missed) > 0 {
		b.t.Errorf("clicks do not go to the frames of %d things, such as %s", len(missed), missed[0])
	}
	if contact > 0 {
		g := fmt.Sprintf("#row-contacts g:nth-of-type(%d)", contact)
		b.run(chromedp.Click(g, chromedp.ByQuery))
		b.showsFrame(eval[int](b, fmt.Sprintf("Number(document.querySelector(%q).dataset.go)", g)))
	}
}

// keysReachEverything goes through the page by tab, and through each row by arrow.
func (b *browser) keysReachEverything() {
	b.t.Helper()
	b.run(chromedp.Evaluate(`document.activeElement.blur(); window.reached = new Set();
		document.addEventListener("focusin", (e) => reached.add(e.target));`, nil))
	stops := eval[int](b, `document.querySelectorAll("a[href], button, input, select, summary, [tabindex='0']").length`)
	for range stops + 2 {
		b.press("Tab", 0)
	}
	missed := eval[[]string](b, `[...document.querySelectorAll("a[href], button, input, select, summary, [tabindex='0']")]
		.filter((e) => !reached.has(e) && e.checkVisibility()).map((e) => e.outerHTML.slice(0, 90))`)
	if len(missed) > 0 {
		b.t.Errorf("tab does not reach %d things, such as %s", len(missed), missed[0])
	}
	for _, row := range eval[[]string](b, `[...document.querySelectorAll(".line:has(g[data-go])")].map((e) => e.id)`) {
		things := fmt.Sprintf(`[...document.querySelectorAll("#%s g[data-go]")].filter((e) => getComputedStyle(e).display !== "none")`, row)
		b.run(chromedp.Evaluate(fmt.Sprintf(`document.querySelector("#%s g[tabindex='0']").focus()`, row), nil))
		for range eval[int](b, things+".length") {
			b.press("ArrowLeft", 0)
		}
		b.press("Enter", 0)
		for range eval[int](b, things+".length") {
			b.press("ArrowRight", 0)
		}
		if n := eval[int](b, things+`.filter((e) => !reached.has(e)).length`); n > 0 {
			b.t.Errorf("arrows do not reach %d things on %s", n, row)
		}
		if at := eval[bool](b, things+".at(-1) === document.activeElement && frame === Number(document.activeElement.dataset.go)"); !at {
			b.t.Errorf("the arrows do not end on the last thing of %s and its frame", row)
		}
	}
}

// notesFilter looks at which notes show.
func (b *browser) notesFilter() {
	b.t.Helper()
	const shown = `[...document.querySelectorAll("#note-list li")].filter((e) => e.checkVisibility()).map((e) => e.dataset.weight + " " + e.dataset.kind)`
	all := len(eval[[]string](b, shown))
	b.run(chromedp.Click("#want-look", chromedp.ByQuery))
	got := map[string]bool{}
	for _, n := range eval[[]string](b, shown) {
		got[n] = true
	}
	if want := (map[string]bool{"fix slide": true}); !maps.Equal(got, want) {
		b.t.Errorf("of notes to fix it shows %v", got)
	}
	b.run(chromedp.SetValue("#want-kind", "dead-hold", chromedp.ByQuery), chromedp.Evaluate(`document.getElementById("want-kind").dispatchEvent(new Event("change"))`, nil))
	if left := eval[[]string](b, shown); len(left) != 0 {
		b.t.Errorf("of dead holds to fix it shows %v", left)
	}
	b.run(chromedp.Click("#want-look", chromedp.ByQuery))
	if left := eval[[]string](b, shown); len(left) != all/2 {
		b.t.Errorf("%d of %d notes are dead holds", len(left), all)
	}
}

// remarksAreSaved types remarks, saves them, and reads the file as --remarks does.
func (b *browser) remarksAreSaved(s *sheet.Sheet) {
	b.t.Helper()
	folder := b.t.TempDir()
	b.run(cdp.SetDownloadBehavior(cdp.SetDownloadBehaviorBehaviorAllow).WithDownloadPath(folder))
	first := s.Clip.FirstFrame
	b.press("Home", 0)
	add := func(from, to, text string) {
		for id, v := range map[string]string{"from": from, "to": to, "text": text} {
			b.run(chromedp.SendKeys("#remark-"+id, v, chromedp.ByQuery))
		}
		b.run(chromedp.Click("#remark button[type=submit]", chromedp.ByQuery))
	}
	add(fmt.Sprint(first+20), fmt.Sprint(first+30), "12:30 is late,\rand <b>so</b> on")
	add("", "", "where the clip stands")
	add(fmt.Sprint(first+8), fmt.Sprint(first+1), "the wrong way round")
	b.run(chromedp.Click("#remark-list li:nth-child(2) button:last-child", chromedp.ByQuery),
		chromedp.Click("#save", chromedp.ByQuery))
	file := filepath.Join(folder, "numbers.remarks.txt")
	for range 200 {
		if info, err := os.Stat(file); err == nil && info.Size() > 0 {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
	f, err := os.Open(file)
	if err != nil {
		b.t.Fatal(err)
	}
	defer f.Close()
	read, err := sheet.ReadRemarks(f)
	if err != nil {
		b.t.Fatal(err)
	}
	copied := *s
	copied.Remarks = nil
	if err := copied.AddRemarks(read); err != nil {
		b.t.Fatal(err)
	}
	want := []sheet.Remark{
		{Start: first, End: first, Text: "where the clip stands"},
		{Start: first + 3, End: first + 9, Text: "longer hold here"},
		{Start: first + 20, End: first + 30, Text: "12:30 is late, and <b>so</b> on"},
	}
	if !slices.Equal(copied.Remarks, want) {
		b.t.Errorf("saved %v, want %v", copied.Remarks, want)
	}
	if n := eval[int](b, `document.querySelectorAll("#row-remarks g").length`); n != len(want) {
		b.t.Errorf("the axis has %d remarks", n)
	}
}

// nothingOverflows looks for what reaches over the page's edge at the widths of a
// phone, a tablet and a desk.
func (b *browser) nothingOverflows() {
	b.t.Helper()
	for _, width := range []int64{360, 800, 1600} {
		b.run(chromedp.EmulateViewport(width, 900))
		over := eval[[]string](b, `[...document.querySelectorAll("body *")].filter((e) =>
			!e.closest("#inner, .wide table, [hidden]") && e.checkVisibility() && e.getBoundingClientRect().right > innerWidth + 0.5).map((e) => e.outerHTML.slice(0, 90))`)
		if wide := eval[int](b, "document.documentElement.scrollWidth"); len(over) > 0 || wide > int(width) {
			b.t.Errorf("at %d pixels the page is %d wide: %q", width, wide, over)
		}
	}
}

func (b *browser) noTrouble() {
	b.t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	if len(b.trouble) > 0 {
		b.t.Errorf("the browser complains: %q", b.trouble)
	}
	if len(b.requests) > 0 {
		b.t.Errorf("the page asks for %q", b.requests)
	}
}

// Names and texts full of HTML are shown and do nothing.
func TestHostileNamesInABrowser(t *testing.T) {
	b := startBrowser(t)
	const evil = `</script></title><img src=http://127.0.0.1:9/ onerror="document.title='hit'"><script>document.title="hit"</script>"'{{.}}`
	p := codedPage(t)
	p.Sheet.Clip.Name, p.Sheet.Clip.Warnings = evil, []string{evil}
	for i := range p.Sheet.Notes {
		p.Sheet.Notes[i].Text = evil
	}
	p.Sheet.Remarks[0].Text = evil
	b.open(p)
	if title := eval[string](b, "document.title"); title != evil+" · beat sheet" {
		t.Errorf("the title is %q", title)
	}
	if n := eval[int](b, "document.scripts.length + 100 * document.images.length"); n != 2 {
		t.Errorf("%d scripts and %d images", n%100, n/100)
	}
	b.nothingOverflows()
	b.noTrouble()
}
