package page

import (
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"holdfast/sheet"
	"holdfast/sheet/compare"
	"holdfast/sheet/follow"
)

// acted is a clip of holds and moves of these lengths, in turn, from a frame on.
func acted(first int, lengths ...int) *sheet.Sheet {
	s := sample()
	s.Beats, s.Contacts, s.Flights, s.Notes, s.Remarks = nil, nil, nil, nil, nil
	at := first
	for i, n := range lengths {
		if i%2 == 0 {
			s.Beats = append(s.Beats, sheet.NewHold(1, 0, at, at+n-1, sheet.HoldFrozen))
		} else {
			s.Beats = append(s.Beats, sheet.NewMove(1, 0, at, at+n-1, at+n/3, 0.2+float64(i%5)/6))
		}
		at += n
	}
	s.Clip.FirstFrame, s.Clip.Frames = first, at-first
	s.Shots[0].Start, s.Shots[0].End, s.Figures[0].Start, s.Figures[0].End = first, at-1, first, at-1
	s.Curve = sheet.Curve{}
	for range s.Clip.Frames {
		s.Curve.Motion = append(s.Curve.Motion, 0)
		s.Curve.Camera = append(s.Curve.Camera, [4]float64{0, 0, 0, 1})
	}
	s.Complete()
	return s
}

var (
	referenceLengths = []int{20, 8, 31, 12, 9, 25, 14, 6, 40, 10, 17, 15, 28, 7, 22, 11}
	// The hold at 72–80 of the reference is twelve frames longer.
	passLengths = []int{20, 8, 31, 12, 21, 25, 14, 6, 40, 10, 17, 15, 28, 7, 22, 11}
)

func besideOf(reference, pass *sheet.Sheet) *Beside {
	return &Beside{Called: "reference", Sheet: reference, Comparison: compare.New(reference, pass, sheet.Tool{Name: "holdfast", Version: "test"})}
}

// The reference waits where the pass holds longer: beats begin together.
func TestReferenceKeepsInStep(t *testing.T) {
	reference, pass := acted(1, referenceLengths...), acted(1001, passLengths...)
	b := besideOf(reference, pass)
	frames := b.data(&pass.Clip).Frames
	if len(frames) != pass.Clip.Frames {
		t.Fatalf("%d frames for %d", len(frames), pass.Clip.Frames)
	}
	for i, beat := range pass.Beats {
		if got, want := 1+frames[beat.Start-1001], reference.Beats[i].Start; got != want {
			t.Errorf("beat %d begins at %d of the reference, want %d", i+1, got, want)
		}
		if at := b.row(pass).Items[i]; at.Start != beat.Start || at.End != beat.End {
			t.Errorf("beat %d of the reference is laid on %d–%d, want %d–%d", i+1, at.Start, at.End, beat.Start, beat.End)
		}
	}
}

// Clips that have nothing to do with each other begin together and keep their own
// time.
func TestUnrelatedClipsBeginTogether(t *testing.T) {
	reference, pass := acted(1, 48, 48), acted(1001, passLengths...)
	reference.Clip.FPS = sheet.Rate{Num: 12, Den: 1}
	b := besideOf(reference, pass)
	b.Comparison.Related = false
	if frames := b.data(&pass.Clip).Frames; frames[0] != 0 || frames[48] != 24 || frames[len(frames)-1] != 95 {
		t.Errorf("frames %v", frames)
	}
}

// Both players show the same numbers, so that each picture tells which frame of
// its clip it is.
func TestComparisonInABrowser(t *testing.T) {
	b := startBrowser(t)
	p, other := codedPage(t), codedPage(t)
	p.Sheet = acted(codeOffset+codeFrom, append(passLengths, 6)...)
	p.Beside = besideOf(acted(codeOffset+codeFrom, append(referenceLengths, 6)...), p.Sheet)
	p.Beside.Video = other.Video
	p.Boxes, p.Ground, p.Thumbs = nil, nil, nil
	b.open(p)
	b.wait("the reference loads", `$("beside").readyState >= 2 && !$("beside").seeking`)
	code := strings.Replace(readCode, "drawImage(clip", `drawImage($("beside")`, 1)
	for i, beat := range p.Sheet.Beats {
		b.run(chromedp.Evaluate(`document.querySelectorAll("#beats button")[`+strconv.Itoa(i)+`].click()`, nil))
		b.showsFrame(beat.Start)
		b.wait("the reference stands", `!$("beside").seeking`)
		want := p.Beside.Sheet.Beats[i].Start
		if counter, shown := eval[int](b, `Number($("beside-frame").textContent)`), eval[int](b, code)+codeOffset; counter != want || shown != want {
			t.Errorf("frame %d of the pass: the reference's counter says %d, its picture %d, want %d", beat.Start, counter, shown, want)
		}
	}
	b.clicksReachEverything(0)
	b.nothingOverflows()
	b.noTrouble()
}

// Notes are followed to the last pass; the state of each can be asked for.
func TestFollowedNotesInABrowser(t *testing.T) {
	b := startBrowser(t)
	before, now := acted(1001, referenceLengths...), acted(1001, passLengths...)
	note := func(id int, kind string, start int) sheet.Note {
		return sheet.Note{ID: id, Kind: kind, Start: start, End: start + 4, Weight: sheet.WeightFix, Text: "a " + kind, Measured: map[string]any{}}
	}
	before.Notes = []sheet.Note{note(1, "slide", 1010), note(2, "pop", 1030)}
	now.Notes = []sheet.Note{note(1, "slide", 1010), note(2, "hitch", 1060)}
	h := follow.Passes([]*sheet.Sheet{before, now}, sheet.Tool{Name: "holdfast", Version: "test"})
	b.load(&Page{Sheet: now, Beside: besideOf(before, now), Follow: h})
	const shown = `[...document.querySelectorAll("#note-list li")].filter((e) => e.checkVisibility()).map((e) => e.dataset.state + " " + e.dataset.kind).sort().join()`
	if got := eval[string](b, shown); got != "fixed pop,new hitch,remains slide" {
		t.Errorf("the list has %s", got)
	}
	b.run(chromedp.SetValue("#want-state", "fixed", chromedp.ByQuery), chromedp.Evaluate(`$("want-state").dispatchEvent(new Event("change"))`, nil))
	if got := eval[string](b, shown); got != "fixed pop" {
		t.Errorf("of fixed notes the list has %s", got)
	}
	if got := eval[string](b, `document.querySelector("[data-kind=pop] .text.kind").textContent`); got != "pass 1: 1030–1034; pass 2: not there" {
		t.Errorf("the trail is %q", got)
	}
	if n := eval[int](b, `document.querySelectorAll("#row-notes g").length`); n != 2 {
		t.Errorf("the axis has %d notes", n)
	}
	b.noTrouble()
}

// Of sheets made before there is no clip; everything else is there.
func TestComparisonOfSheetsInABrowser(t *testing.T) {
	b := startBrowser(t)
	pass := acted(1001, passLengths...)
	b.load(&Page{Sheet: pass, Beside: besideOf(acted(1, referenceLengths...), pass)})
	b.press("PageDown", 0)
	b.press(" ", 0)
	b.wait("it goes to the second beat", "frame === 1021")
	if n := eval[int](b, `Number($("beside-frame").textContent)`); n != 21 {
		t.Errorf("the reference is at %d", n)
	}
	b.nothingOverflows()
	b.noTrouble()
}
