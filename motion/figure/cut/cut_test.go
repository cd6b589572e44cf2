package cut

import (
	"math/rand/v2"
	"slices"
	"sync"
	"testing"
)

const side = 48

// scene is a warm square, from 14 to 33, on cool ground, all of it in grain.
func scene() (picture []uint8) {
	draw := rand.New(rand.NewPCG(3, 5))
	for i := range side * side {
		c := [3]float64{70, 150, 110}
		if inSquare(i) {
			c = [3]float64{150, 100, 160}
		}
		for _, v := range c {
			picture = append(picture, uint8(v+6*draw.NormFloat64()))
		}
	}
	return picture
}

func inSquare(i int) bool {
	x, y := i%side, i/side
	return x >= 14 && x < 34 && y >= 14 && y < 34
}

// boxed marks a box around the square, some pixels too wide.
func boxed() []uint8 {
	mask := make([]uint8, side*side)
	for i := range mask {
		if x, y := i%side, i/side; x >= 9 && x < 40 && y >= 8 && y < 41 {
			mask[i] = LikelyThing
		}
	}
	return mask
}

func TestCutFindsTheThingInABox(t *testing.T) {
	mask := boxed()
	if err := Cut(scene(), mask, side, side, 5); err != nil {
		t.Fatal(err)
	}
	wrong := 0
	for i, v := range mask {
		if IsThing(v) != inSquare(i) {
			wrong++
		}
	}
	if wrong > 8 { // of 400
		t.Errorf("%d pixels are on the wrong side", wrong)
	}
}

// The same picture is cut the same way, whatever was cut before and by whom.
func TestCutDoesNotDependOnChance(t *testing.T) {
	want := boxed()
	if err := Cut(scene(), want, side, side, 2); err != nil {
		t.Fatal(err)
	}
	var all sync.WaitGroup
	for range 8 {
		all.Add(1)
		go func() {
			defer all.Done()
			got := boxed()
			if err := Cut(scene(), got, side, side, 2); err != nil || !slices.Equal(got, want) {
				t.Errorf("another cut (%v)", err)
			}
		}()
	}
	all.Wait()
}

func TestCutSaysWhatIsWrong(t *testing.T) {
	if err := Cut(scene(), boxed()[1:], side, side, 2); err == nil {
		t.Error("a mask too short was taken")
	}
	if err := Cut(nil, nil, 0, 0, 2); err == nil {
		t.Error("no picture was taken")
	}
	if err := Cut(scene(), make([]uint8, side*side), side, side, 2); err == nil {
		t.Error("a mask without a thing was taken")
	}
}
