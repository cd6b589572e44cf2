package sheet

import (
	"bytes"
	"encoding/csv"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
)

// ground is a clip of one figure, 200 px tall, in front of a still camera.
func ground(rate Rate, frames int) *Sheet {
	s := &Sheet{
		Tool: Tool{"holdfast", "0.0.0"},
		Clip: Clip{Name: "feet.mp4", Width: 1280, Height: 720, FPS: rate, Frames: frames, FirstFrame: 1,
			SHA256: strings.Repeat("0", 64)},
		Shots:   []Shot{{Start: 1, End: frames, Camera: Camera{Kind: "still", Zoom: 1}}},
		Figures: []Figure{{Shot: 1, Start: 1, End: frames, Height: 200}},
		Beats:   lively(frames),
		Curve:   Curve{Motion: make([]float64, frames), Camera: make([][4]float64, frames)},
	}
	for i := range s.Curve.Camera {
		s.Curve.Camera[i][3] = 1
	}
	s.Complete()
	return s
}

// lively are beats in which the figure moves nearly all the time, and rests twice.
func lively(frames int) []Beat {
	rest := frames / 15
	first, second := frames/3, 2*frames/3
	return []Beat{
		NewMove(1, 1, 1, first, 1, 1), NewHold(1, 1, first+1, first+rest, HoldMoving),
		NewMove(1, 1, first+rest+1, second, second, 0.4), NewHold(1, 1, second+1, second+rest, HoldMoving),
		NewMove(1, 1, second+rest+1, frames, frames, 0.7),
	}
}

// stand adds a contact that slips by a share of the figure's height.
func (s *Sheet) stand(start, end int, x, slip float64) *Sheet {
	state := StatePlant
	if math.Abs(slip) >= SlideShare {
		state = StateSlide
	}
	s.Contacts = append(s.Contacts, Contact{Shot: 1, Figure: 1, Start: start, End: end, State: state,
		X: x, Y: 600, SlipPx: slip * 200, SlipShare: slip})
	return s
}

// sliding has the last contact slide between two frames only.
func (s *Sheet) sliding(start, end int) *Sheet {
	s.Contacts[len(s.Contacts)-1].SlidesFrom(start, end)
	return s
}

// fly adds a flight.
func (s *Sheet) fly(start, frames int, rise float64) *Sheet {
	s.Flights = append(s.Flights, Flight{Shot: 1, Figure: 1, Start: start, End: start + frames - 1,
		RisePx: rise * 200, RiseShare: rise})
	return s
}

// walk adds plants that start after steps of so many frames, 80 px apart, all
// standing 60 % longer than a step takes and slipping alike.
func (s *Sheet) walk(start int, slip float64, steps ...int) *Sheet {
	x := 100.0
	for _, n := range steps {
		s.stand(start, start+n+n*6/10, x, slip)
		start, x = start+n, x+80
	}
	return s
}

func (s *Sheet) review(t *testing.T) *Sheet {
	t.Helper()
	s.Complete()
	s.Review(DefaultFigureHeight, nil)
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	return s
}

func kinds(s *Sheet) (list []string) {
	for _, n := range s.Notes {
		list = append(list, n.Kind)
	}
	return list
}

func TestFeetNotes(t *testing.T) {
	twelve := []int{12, 12, 12, 12, 12, 12, 12, 12}
	hops := func(rises ...float64) *Sheet {
		s := ground(film, 240).stand(10, 20, 300, 0)
		for i, r := range rises {
			s.fly(21+24*i, 12, r).stand(33+24*i, 44+24*i, 300, 0)
		}
		return s
	}
	for name, c := range map[string]struct {
		sheet *Sheet
		kinds []string
		weigh string // of the first note
		says  string // in its text
	}{
		"no contacts":        {ground(film, 240), nil, "", ""},
		"flight, no contact": {ground(film, 240).fly(20, 20, 0.05), nil, "", ""},
		"clean walk":         {ground(film, 240).walk(5, 0, twelve...), nil, "", ""},
		"slip under a slide": {ground(film, 240).walk(5, 0.019, twelve...), nil, "", ""},
		"one slide":          {ground(film, 240).walk(5, 0, 12, 12, 12).stand(41, 60, 340, -0.08), []string{"slide"}, WeightFix, "foot down at 41 slides 8.0 % of the figure's height to the left (16 px) over 20 frames, 0.10 heights a second; the camera is still"},
		"small slide":        {ground(film, 240).walk(5, 0, 12, 12, 12).stand(41, 60, 340, 0.035), []string{"slide"}, WeightLook, "to the right"},
		"brief slide":        {ground(film, 240).stand(5, 9, 300, 0.1), []string{"slide"}, WeightLook, "over 5 frames"},
		"both feet":          {ground(film, 240).stand(5, 60, 300, 0.1).stand(5, 61, 340, 0.11), []string{"slide"}, WeightFix, "the feet down at 5 slide together 10.0 % of the figure's height to the right (20 px) over 56 frames"},
		"each foot":          {ground(film, 240).stand(5, 60, 300, 0.1).stand(5, 60, 340, 0.2), []string{"slide", "slide"}, WeightFix, "the foot down at 5 slides 10.0 %"},
		"shoots along":       {ground(film, 240).stand(5, 60, 300, 0.2).sliding(30, 42), []string{"slide"}, WeightFix, "foot down at 5 slides 20.0 % of the figure's height to the right (40 px) over 13 frames, 0.40 heights a second"},
		"glide":              {ground(film, 240).walk(5, 0.07, twelve...), []string{"slide"}, WeightFix, "the whole figure glides: 8 of 8 contacts slip to the right"},
		"glide and bad plant": {ground(film, 240).walk(5, 0.07, twelve...).stand(101, 119, 740, -0.2),
			[]string{"slide", "slide"}, WeightFix, "the whole figure glides: 8 of 9"},
		"two slides of three": {ground(film, 240).stand(5, 24, 100, 0.08).stand(17, 36, 180, 0).stand(29, 48, 260, -0.08),
			[]string{"slide", "slide"}, WeightFix, "foot down at 5"},
		"rooted":         {ground(film, 240).stand(1, 96, 300, 0).stand(1, 96, 340, 0), []string{"rooted-feet"}, WeightLook, "4.0 s"},
		"not yet rooted": {ground(film, 240).stand(1, 95, 300, 0).stand(1, 95, 340, 0), nil, "", ""},
		"shifts weight":  {ground(film, 240).stand(1, 120, 300, 0).stand(1, 50, 340, 0).stand(60, 120, 340, 0), nil, "", ""},
		"pop":            {ground(film, 240).stand(5, 30, 300, 0).stand(33, 60, 301, 0), []string{"foot-pop"}, WeightLook, "2 frames"},
		"longer lift":    {ground(film, 240).stand(5, 30, 300, 0).stand(34, 60, 301, 0), nil, "", ""},
		"other spot":     {ground(film, 240).stand(5, 30, 300, 0).stand(33, 60, 310, 0), nil, "", ""},
		"pop of a hop":   {ground(film, 240).stand(5, 30, 300, 0).fly(31, 2, 0.01).stand(33, 60, 300, 0), nil, "", ""},
		"pop at 60":      {ground(Rate{60, 1}, 240).stand(5, 30, 300, 0).stand(36, 60, 301, 0), []string{"foot-pop"}, WeightLook, "5 frames"},
		// 12 frames at 24 a second rise 0.3065 m: 0.18 heights of 1.7 m.
		"hops big and little": {hops(0.16, 0.20, 0.155), nil, "", ""},
		"even hops":           {hops(0.18, 0.18, 0.181), []string{"even-hops"}, WeightLook, "the 3 hops are all alike"},
		"two hops":            {hops(0.18, 0.18), nil, "", ""},
		"floats":              {hops(0.10), []string{"floaty-hop"}, WeightLook, "gives a figure of 1.7 m 15 to 21 %"},
		"hangs":               {hops(0.06), []string{"floaty-hop"}, WeightFix, "up 6 %"},
		"drops":               {hops(0.30), []string{"heavy-drop"}, WeightLook, "falls too fast"},
		"slams":               {hops(0.50), []string{"heavy-drop"}, WeightFix, "12 frames of air"},
		"too short to say":    {ground(film, 240).stand(5, 9, 300, 0).fly(10, 5, 0.2).stand(15, 30, 300, 0), nil, "", ""},
		"long enough":         {ground(film, 240).stand(5, 9, 300, 0).fly(10, 6, 0.2).stand(16, 30, 300, 0), []string{"heavy-drop"}, WeightFix, "6 frames"},
		"no free flight":      {carried(hops(0.50)), nil, "", ""},
		"running flight":      {ground(film, 240).stand(5, 9, 300, 0).fly(10, 3, 0.02).stand(13, 17, 500, 0), nil, "", ""},
		"stumble":             {ground(film, 240).walk(5, 0, 12, 12, 12, 12, 17, 12, 12, 12), []string{"step-rhythm"}, WeightLook, "takes 17 frames where the others take about 12"},
		"uneven by a frame":   {ground(film, 240).walk(5, 0, 12, 13, 12, 11, 13, 12, 12, 12), nil, "", ""},
		"machine at 60": {ground(Rate{60, 1}, 360).walk(5, 0, 30, 30, 30, 30, 30, 30, 30, 30),
			[]string{"step-rhythm"}, WeightLook, "7 steps of 30 frames"},
		"people at 60": {ground(Rate{60, 1}, 360).walk(5, 0, 30, 31, 29, 30, 31, 30, 29, 30), nil, "", ""},
	} {
		t.Run(name, func(t *testing.T) {
			s := c.sheet.review(t)
			if !slices.Equal(kinds(s), c.kinds) {
				t.Fatalf("notes %v, want %v: %+v", kinds(s), c.kinds, s.Notes)
			}
			if len(c.kinds) > 0 && (s.Notes[0].Weight != c.weigh || !strings.Contains(s.Notes[0].Text, c.says)) {
				t.Errorf("%s: %q, want %s: %q", s.Notes[0].Weight, s.Notes[0].Text, c.weigh, c.says)
			}
		})
	}
}

// A foot missed by the measuring makes one step twice as long and as slow: no
// stumble.
func TestMissedContactIsNoStumble(t *testing.T) {
	s := ground(film, 240).walk(5, 0, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12)
	s.Contacts = slices.Delete(s.Contacts, 5, 6)
	if s.review(t); len(s.Notes) > 0 {
		t.Errorf("notes %+v", s.Notes)
	}
}

// carried is a sheet with no flight in which the body flies freely.
func carried(s *Sheet) *Sheet {
	for i := range s.Flights {
		s.Flights[i].OffParabola = true
	}
	return s
}

// The rises are those of ballistics, h = g t²/8: 12 frames at 24 a second are
// 30.6 cm, one frame either way 25.8 to 36.0 cm.
func TestGravityOfTwelveFrames(t *testing.T) {
	s := ground(film, 60).stand(2, 9, 300, 0).fly(10, 12, 0.306)
	s.Complete()
	s.Review(1, nil)
	g := s.Flights[0].Gravity
	if g.AirSeconds != 0.5 || math.Abs(g.RiseLow-0.258) > 1e-3 || math.Abs(g.RiseHigh-0.360) > 1e-3 ||
		math.Abs(g.Ratio-1) > 2e-3 || g.Word != InKeeping || s.Settings["figure_height_m"] != 1.0 {
		t.Errorf("gravity %+v", g)
	}
}

func TestLadder(t *testing.T) {
	s := ground(film, 240).stand(2, 9, 300, 0).fly(10, 12, 0.2).fly(40, 8, 0.08).fly(70, 11, 0.18).review(t)
	var got []string
	for _, f := range s.Flights {
		got = append(got, f.Ladder)
	}
	if !slices.Equal(got, []string{HopBig, HopSmall, HopBig}) {
		t.Errorf("ladder %v", got)
	}
}

func TestSteps(t *testing.T) {
	s := ground(film, 240).walk(1, 0, 12, 12, 14).review(t)
	if len(s.Steps) != 2 {
		t.Fatalf("steps %+v", s.Steps)
	}
	want := Step{Shot: 1, Figure: 1, From: 2, To: 3, Start: 13, End: 25, Frames: 12, Seconds: 0.5, Length: 0.4, Direction: "right", Timed: true}
	if s.Steps[1] != want || s.Steps[0].Timed {
		t.Errorf("steps %+v", s.Steps)
	}
}

// A camera that pans along keeps the feet at one place in the picture.
func TestStepsLeaveTheCameraOut(t *testing.T) {
	s := ground(film, 240).stand(5, 24, 300, 0).stand(15, 34, 300, 0)
	for i := range s.Curve.Camera {
		s.Curve.Camera[i][0] = -8
	}
	s.review(t)
	if len(s.Steps) != 1 || s.Steps[0].Length != 0.4 || s.Steps[0].Direction != "left" {
		t.Errorf("steps %+v", s.Steps)
	}
}

func TestStepsMustLeadFromContactToContact(t *testing.T) {
	for path, spoil := range map[string]func(*Step){
		"steps[0].to":   func(s *Step) { s.To = 99 },
		"steps[1].end":  func(s *Step) { s.End = s.Start - 1 },
		"steps[2].shot": func(s *Step) { s.Shot = 2 },
	} {
		s := feetSample()
		i := int(path[len("steps[")] - '0')
		spoil(&s.Steps[i])
		var field *FieldError
		if err := s.Check(); !errors.As(err, &field) || field.Path != path {
			t.Errorf("%s: %v", path, err)
		}
	}
}

func TestFeetOutOfFrameLieInTheirShot(t *testing.T) {
	for path, spoil := range map[string]func(*FeetOut){
		"feet_out_of_frame[0].end":    func(o *FeetOut) { o.End = 241 },
		"feet_out_of_frame[0].figure": func(o *FeetOut) { o.Figure = 3 },
	} {
		s := feetSample()
		spoil(&s.FeetOut[0])
		var field *FieldError
		if err := s.Check(); !errors.As(err, &field) || field.Path != path {
			t.Errorf("%s: %v", path, err)
		}
	}
}

// A figure at rest may stand as long as it likes.
func TestRestingFeetAreNotRooted(t *testing.T) {
	s := ground(film, 240).stand(1, 240, 300, 0)
	s.Beats = []Beat{NewHold(1, 1, 1, 200, HoldMoving), NewMove(1, 1, 201, 240, 220, 1)}
	if s.review(t); len(s.Notes) > 0 {
		t.Errorf("notes %+v", s.Notes)
	}
}

// Notes of several figures name theirs.
func TestNotesNameTheFigure(t *testing.T) {
	s := ground(film, 240).stand(5, 30, 300, 0.08)
	s.Figures = append(s.Figures, Figure{Shot: 1, Start: 1, End: 240, Height: 200})
	if s.review(t); len(s.Notes) != 1 || !strings.HasPrefix(s.Notes[0].Text, "figure 1's foot") {
		t.Errorf("notes %+v", s.Notes)
	}
}

// The parser is another's (encoding/csv), and no cell comes alive.
func TestNotesCSVHasOneRowANote(t *testing.T) {
	for _, name := range awkward {
		s := named(name)
		var b bytes.Buffer
		if err := s.WriteNotesCSV(&b); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil || len(rows) != len(s.Notes)+1 {
			t.Fatalf("%q: %d rows for %d notes, %v", name, len(rows), len(s.Notes), err)
		}
		for _, cell := range rows[1] {
			if trimmed := strings.TrimLeft(cell, " "); trimmed != "" && strings.ContainsRune(formulaStart, []rune(trimmed)[0]) {
				t.Errorf("%q makes the live cell %q", name, cell)
			}
		}
	}
}

func TestSlidesLieInTheirContact(t *testing.T) {
	for _, c := range [][2]int{{52, 66}, {58, 73}, {66, 58}} {
		s := feetSample()
		s.Contacts[4].SlideStart, s.Contacts[4].SlideEnd = &c[0], &c[1]
		var field *FieldError
		if err := s.Check(); !errors.As(err, &field) || field.Path != "contacts[4].slide_start" {
			t.Errorf("%v: %v", c, err)
		}
	}
}
