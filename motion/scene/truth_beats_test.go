package scene

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
)

func describe(list []Beat) (s []string) {
	for _, b := range list {
		switch {
		case b.Hold && b.Moving:
			s = append(s, fmt.Sprintf("moving %d-%d", b.Start, b.End))
		case b.Hold:
			s = append(s, fmt.Sprintf("frozen %d-%d", b.Start, b.End))
		default:
			s = append(s, fmt.Sprintf("move %d-%d peak %d", b.Start, b.End, b.Peak))
		}
	}
	return s
}

// What the keys of the acting figure say, written down by hand. A quarter
// cosine is fastest at its steep end, half a cosine in its middle, and the step
// that lands on a pose belongs to the hold.
func TestBeatsOfKnownActing(t *testing.T) {
	tests := []struct {
		scene string
		want  []string
	}{
		{"acting", []string{"frozen 0-20", "move 21-29 peak 25", "frozen 30-48", "move 49-55 peak 49", "frozen 56-70", "move 71-79 peak 71", "frozen 80-96", "move 97-103 peak 103", "frozen 104-119"}},
		// Poses pop without in-betweens: holds touch.
		{"stepped", []string{"frozen 0-29", "frozen 30-55", "frozen 56-79", "frozen 80-103", "frozen 104-119"}},
		{"camera-mixed", []string{"frozen 0-20", "move 21-29 peak 25", "frozen 30-48", "move 49-55 peak 49", "frozen 56-70", "move 71-79 peak 71", "frozen 80-96", "move 97-103 peak 103", "frozen 104-119"}},
		// Drawings change on even frames: 22..28 and 30 lands on the salute.
		{"twos", []string{"frozen 0-21", "move 22-29 peak 26", "frozen 30-49", "move 50-55 peak 50", "frozen 56-71", "move 72-79 peak 72", "frozen 80-97", "move 98-103 peak 102", "frozen 104-119"}},
	}
	for _, c := range tests {
		beats := named(t, c.scene).Truth().Figures[0].Beats
		got := describe(beats)
		if len(got) != len(c.want) {
			t.Errorf("%s:\n got %q\nwant %q", c.scene, got, c.want)
			continue
		}
		for i, want := range c.want {
			span, peak, isMove := strings.Cut(want, " peak ")
			if !strings.HasPrefix(got[i]+" ", span+" ") {
				t.Errorf("%s: %q, want %q", c.scene, got[i], want)
			}
			// Neighbours may be as good a peak: which is largest hangs on the poses.
			if p, _ := strconv.Atoi(peak); isMove && !slices.Contains(beats[i].Ties, p) {
				t.Errorf("%s: %q with ties %v, want %q", c.scene, got[i], beats[i].Ties, want)
			}
		}
	}
}

func TestMovingHolds(t *testing.T) {
	for _, name := range []string{"moving-holds", "moving-holds-on-twos"} {
		moving, frozen := 0, 0
		for _, b := range named(t, name).Truth().Figures[0].Beats {
			if b.Hold && b.Moving {
				moving++
			} else if b.Hold {
				frozen++
			}
		}
		if moving != 3 || frozen != 0 {
			t.Errorf("%s: %d moving and %d frozen holds, want 3 and 0", name, moving, frozen)
		}
	}
}

// Beats tile each figure's frames, and obey their own definition. For figures
// on ones the definition is checked from the travels alone.
func TestBeatsTile(t *testing.T) {
	for _, sc := range catalogue(t) {
		minHold := MinHold(sc.Rate.Float())
		for _, ft := range sc.Truth().Figures {
			next := ft.Start
			for i, b := range ft.Beats {
				if b.Start != next || b.End < b.Start {
					t.Fatalf("%s: beat %+v where one from %d is due", sc.Name, b, next)
				}
				next = b.End + 1
				if b.Hold && b.End-b.Start+1 < minHold {
					t.Errorf("%s: hold %+v is shorter than %d", sc.Name, b, minHold)
				}
				if !b.Hold && i > 0 && !ft.Beats[i-1].Hold {
					t.Errorf("%s: moves touch at %d", sc.Name, b.Start)
				}
				if !b.Hold && (b.Peak < b.Start || b.Peak > b.End) {
					t.Errorf("%s: peak outside %+v", sc.Name, b)
				}
			}
			if next != ft.End+1 {
				t.Errorf("%s: beats end at %d, figure at %d", sc.Name, next-1, ft.End)
			}
			if onOnes := len(ft.Exposure) == 1 && ft.Exposure[0].Pattern == "ones"; onOnes && sc.spec.Conform.Of == 0 {
				checkDefinition(t, sc.Name, ft, minHold)
			}
		}
	}
}

func checkDefinition(t *testing.T, name string, ft FigureTruth, minHold int) {
	run := 1 // frames of the run of still steps that ends here
	inHold := func(f int) bool {
		for _, b := range ft.Beats {
			if f >= b.Start && f <= b.End {
				return b.Hold
			}
		}
		return false
	}
	for i := 1; i <= len(ft.Max); i++ {
		if i < len(ft.Max) && ft.Max[i] < 0.003*ft.Height[i] {
			run++
			continue
		}
		for k := i - run; k < i; k++ {
			if got := inHold(ft.Start + k); got != (run >= minHold) {
				t.Fatalf("%s frame %d: in a hold %v, in a run of %d still frames", name, ft.Start+k, got, run)
			}
		}
		run = 1
	}
}

// On twos at 12 frames a second a drawing stays up for as long as the shortest
// hold: such runs are the pattern and no holds.
func TestPatternIsNoHold(t *testing.T) {
	sc := mustNew(t, Spec{Width: 640, Height: 360, Rate: FPS(12), Shots: []Shot{{Frames: 40, Figures: []Figure{{
		Keys:     []Key{{From: 0, To: 9, Pose: poseEasy}, {From: 30, Pose: poseCheer, Ease: Linear}},
		Exposure: []Stretch{{To: 39, On: 2}},
	}}}}})
	want := []string{"frozen 0-9", "move 10-29", "frozen 30-39"}
	got := describe(sc.Truth().Figures[0].Beats)
	for i, w := range want {
		if len(got) != len(want) || !strings.HasPrefix(got[i], w) {
			t.Fatalf("got %q, want %q", got, want)
		}
	}
}

// A drift of 0.25 % of the height a frame is a hold on ones and on twos, where
// every pop is 0.5 %; one of 0.35 % is a move on either.
func TestDriftIsSpreadOverThePattern(t *testing.T) {
	for _, on := range []int{1, 2, 3} {
		for drift, hold := range map[float64]bool{0.0025: true, 0.0035: false} {
			sc := mustNew(t, Spec{Width: 640, Height: 360, Shots: []Shot{{Frames: 36, Balls: []Ball{{
				// A disc that rises and falls so slowly that its speed hardly changes.
				Radius: 50, Drop: 100, Start: 0, Gravity: 1e-9, Restitution: 0.5, Speed: 0, Ground: 100, Exposure: []Stretch{{To: 35, On: on}},
			}}, Camera: Camera{}}}})
			slide(sc, drift*100)
			got := describe(sc.reckon().Figures[0].Beats)
			if isHold := len(got) == 1 && got[0] == "moving 0-35"; isHold != hold {
				t.Errorf("on %ds, %g a frame: %q, want a hold: %v", on, drift, got, hold)
			}
		}
	}
}

// A glider is a disc that goes across without turning.
type glider struct {
	*bouncer
	speed float64
}

func (g glider) place(t float64, _ bool, dst []affine) { dst[0] = shift(g.speed*t, 0) }

func slide(sc *Scene, speed float64) {
	a := &sc.shots[0].cast[0]
	a.performer = glider{a.performer.(*bouncer), speed}
}

// The body goes along with sliding feet: hips stay over the middle of the feet.
func TestHipsKeepOverTheFeet(t *testing.T) {
	for _, name := range []string{"walk", "slide", "slide-backwards", "slide-one-plant", "hops"} {
		sc := named(t, name)
		b := sc.shots[0].cast[0].performer.(*body)
		for f := range sc.Frames {
			tm := float64(f)
			near, far := b.plan.feet[0].at(tm).x, b.plan.feet[1].at(tm).x
			off := math.Abs(sumRamps(b.plan.hips, tm)-(near+far)/2) / b.Build.Height
			if limit := map[bool]float64{true: 0.16, false: 1e-9}[f > 8 && f < sc.Frames-1]; off > limit {
				t.Fatalf("%s frame %d: hips %.3f heights off the middle of the feet", name, f, off)
			}
		}
	}
}

func TestMinHold(t *testing.T) {
	for rate, want := range map[float64]int{12: 2, 24: 4, 23.976: 4, 25: 4, 30: 5, 60: 10, 120: 20, 6: 2} {
		if got := MinHold(rate); got != want {
			t.Errorf("at %g: %d, want %d", rate, got, want)
		}
	}
}
