package extract

import (
	"image"
	"testing"
)

// Whatever is displayed, pictures of the working size can be written as a video.
func TestWorkSize(t *testing.T) {
	for _, c := range []struct {
		width, height, area int
		want                image.Point
	}{
		{1920, 1080, UsualArea, image.Pt(640, 360)},
		{321, 181, UsualArea, image.Pt(320, 180)},
		{1, 1, UsualArea, image.Pt(2, 2)},
		{26, 19990, proxyArea, image.Pt(22, 16384)},
		{30000, 2, proxyArea, image.Pt(16384, 2)},
	} {
		if got := workSize(c.width, c.height, c.area); got != c.want {
			t.Errorf("%d×%d: %v, want %v", c.width, c.height, got, c.want)
		}
	}
}
