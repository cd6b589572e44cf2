package flow

import (
	"image"
	"math"
	"testing"
)

// ripples is a smooth picture whose pattern is moved by a way.
func ripples(dx, dy float64) *image.Gray {
	p := image.NewGray(image.Rect(0, 0, 96, 64))
	for i := range p.Pix {
		x, y := float64(i%96)-dx, float64(i/96)-dy
		p.Pix[i] = uint8(math.Round(128 + 50*math.Sin(x/4+y/9)*math.Cos(y/5) + 30*math.Sin((x-2*y)/13)))
	}
	return p
}

func TestSeek(t *testing.T) {
	// The two parabolas know nothing of slanted patterns, which costs up to so much.
	const third = 1.0 / 3
	small := Crop(ripples(0, 0), image.Rect(30, 20, 54, 40))
	for _, way := range [][2]float64{{0, 0}, {3, -2}, {-4.5, 1.25}, {0.3, 5.7}} {
		at, like, err := Seek(small, ripples(way[0], way[1]), image.Rect(20, 10, 41, 31))
		if d := math.Hypot(at.X-30-way[0], at.Y-20-way[1]); err != nil || d > third || like < 0.97 {
			t.Errorf("moved by %v: at %v, off by %.2f, like %.3f, %v", way, at, d, like, err)
		}
	}
}

// There is no place for what is larger than the picture, outside of it, or of one
// colour.
func TestSeekNothing(t *testing.T) {
	whole := ripples(0, 0)
	for name, c := range map[string]struct {
		small *image.Gray
		area  image.Rectangle
	}{
		"larger":     {image.NewGray(image.Rect(0, 0, 200, 20)), image.Rect(0, 0, 50, 50)},
		"outside":    {Crop(whole, image.Rect(10, 10, 30, 30)), image.Rect(90, 60, 120, 90)},
		"one colour": {image.NewGray(image.Rect(0, 0, 20, 20)), image.Rect(0, 0, 50, 40)},
	} {
		if _, like, err := Seek(c.small, whole, c.area); like != 0 || err != nil {
			t.Errorf("%s: like %g, %v", name, like, err)
		}
	}
}
