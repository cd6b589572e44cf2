package main

import (
	"fmt"
	"strings"
	"testing"

	"holdfast/sheet"
)

func stillSheet() *sheet.Sheet {
	s := &sheet.Sheet{Clip: sheet.Clip{Name: "a.mp4", Width: 64, Height: 36, FPS: sheet.Rate{Num: 24, Den: 1}, Frames: 48, FirstFrame: 101}}
	s.Shots = []sheet.Shot{{Start: 101, End: 148, Camera: sheet.Camera{Kind: "still", Zoom: 1}}}
	s.Figures = []sheet.Figure{{ID: 1, Shot: 1, Start: 101, End: 148, Height: 20}}
	s.Beats = []sheet.Beat{sheet.NewHold(1, 0, 101, 112, sheet.HoldFrozen), sheet.NewMove(1, 0, 113, 148, 120, 1)}
	from, to := 115, 118
	contact := sheet.Contact{Shot: 1, Figure: 1, Start: 101, End: 130, State: sheet.StateSlide, SlideStart: &from, SlideEnd: &to}
	s.Contacts = []sheet.Contact{contact, contact}
	s.Flights = []sheet.Flight{{Shot: 1, Figure: 1, Start: 131, End: 140, Frames: 10, RiseShare: 0.2}, {Shot: 1, Figure: 1, Start: 144, End: 145, Frames: 2, RiseShare: 0.01}}
	s.Complete()
	return s
}

func TestChooseStills(t *testing.T) {
	all := "101 [down from here, 101–130]|106 [hold, 12 f (101–112)]|115 [slides, 115–118]|120 [peak of 113–148]|135 [top of a hop, 10 f]"
	for _, test := range []struct {
		wish stillWish
		want string
	}{
		{stillWish{}, all},
		{stillWish{at: []string{"101"}}, all},
		{stillWish{only: true, at: []string{"103", "110-111", "00:00:01:00"}}, "103 []|110 []|111 []|125 []"},
		{stillWish{only: true, every: 20}, "101 []|121 []|141 []"},
	} {
		list, err := test.wish.choose(stillSheet())
		var got []string
		for _, s := range list {
			got = append(got, fmt.Sprint(s.frame, " ", s.words))
		}
		if s := strings.Join(got, "|"); err != nil || s != test.want {
			t.Errorf("%+v: %v\ngot  %s\nwant %s", test.wish, err, s, test.want)
		}
	}
	for _, at := range []string{"100", "149", "120-110", "x", "-", "103-", "99999999999"} {
		if list, err := (stillWish{at: []string{at}}).choose(stillSheet()); err == nil || !strings.Contains(err.Error(), "the clip has 101 to 148") {
			t.Errorf("--at %s: %v, %v", at, list, err)
		}
	}
}
