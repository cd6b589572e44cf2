package draw

import "image"

const (
	// besideBar is how far words stand off the bar they belong to, pixels, and
	// fromBar the farthest that a line leads to.
	besideBar, fromBar = 6, 150
	// leaderFrom is from what distance on there is such a line.
	leaderFrom = 16
	// darkBar is the green, 0 to 255, under which a pixel is bar and no ground.
	darkBar = 200
)

// place is where words about a bar that lies between two columns and two rows
// hide least of the other bars.
func (c *canvas) place(words string, left, right, y0, y1 int) image.Point {
	w := width(textBold, words)
	best, least := image.Pt(right+besideBar, (y0+y1)/2), -1
	for off := besideBar; off <= fromBar; off += 24 {
		for _, y := range []int{(y0 + y1) / 2, (y0 + 2*y1) / 3, (2*y0 + y1) / 3, y1, y0} {
			for _, x := range []int{right + off, left - off - w} {
				b := bounds(textBold, words, x, y)
				if !c.free(b) {
					continue
				}
				if n := c.dark(b); least < 0 || n < least {
					best, least = image.Pt(x, y), n
				}
			}
		}
	}
	return best
}

// dark is how many pixels of a rectangle are no ground.
func (c *canvas) dark(r image.Rectangle) int {
	n := 0
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if c.Pix[c.PixOffset(x, y)+1] < darkBar {
				n++
			}
		}
	}
	return n
}

// leader draws a line from a bar to words that stand off it.
func (c *canvas) leader(words string, at image.Point, left, right int) {
	end := at.X + width(textBold, words)
	switch {
	case at.X-right > leaderFrom:
		c.across(right+2, at.X-3, at.Y, 1, slide)
	case left-end > leaderFrom:
		c.across(end+3, left-2, at.Y, 1, slide)
	}
}
