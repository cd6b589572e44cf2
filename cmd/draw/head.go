package draw

import (
	"fmt"
	"image"
	"image/color"

	"holdfast/sheet"
)

// drawHead writes what the picture is and how to read it.
func (l *layout) drawHead(c *canvas) {
	c.write(head, l.title(), 16, 22, ink)
	c.write(text, "Ground at the feet, camera taken out. Down: "+l.pace()+".", 16, 46, faint)
	c.write(text, "An upright bar stands, a leaning bar slides, no bar is in the air.", 16, 64, faint)
	x := 16
	for _, k := range []struct {
		with  color.RGBA
		words string
	}{
		{plant, "plant"}, {slide, "slide, slip in % of figure height"},
		{color.RGBA{150, 150, 150, 255}, "moving foot"}, {air, "flight"},
	} {
		c.fill(image.Rect(x, 80, x+12, 92), k.with)
		c.write(text, k.words, x+18, 86, ink)
		x += 18 + width(text, k.words) + 22
	}
	c.across(leftSide, leftSide+l.width, topSide-1, 1, line)
	c.across(leftSide, leftSide+l.width, l.bottom(), 1, line)
}

func (l *layout) title() string {
	s := shortened(sheet.Visible(l.sheet.Clip.Name)) + ", ground strip"
	if len(l.sheet.Shots) > 1 {
		s += fmt.Sprintf(", shot %d", l.strip.Shot+1)
	}
	s += ", frames " + span(l.number(l.rows[0].Frame), l.number(l.rows[len(l.rows)-1].Frame))
	if l.Pages > 1 {
		s += fmt.Sprintf(", page %d of %d", l.Of, l.Pages)
	}
	return s
}

// pace says how many frames a row stands for.
func (l *layout) pace() string {
	if l.strip.Every == 1 {
		return "one row a frame"
	}
	return fmt.Sprintf("one row for every %d frames, too long a clip for all", l.strip.Every)
}

// longestName is the most characters of a clip's name that the title has room for.
const longestName = 36

// shortened leaves out the middle of a long name: version numbers stand at its
// end.
func shortened(name string) string {
	r := []rune(name)
	if len(r) <= longestName {
		return name
	}
	return string(r[:longestName/2]) + "…" + string(r[len(r)-longestName/2:])
}
