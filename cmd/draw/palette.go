package draw

import (
	"image/color"

	"holdfast/motion/strip"
)

// The colours: paper and ink, a sea green for what stands, a brick red for what
// slides, a pale sky for the air.
var (
	paper = color.RGBA{250, 249, 246, 255}
	ink   = color.RGBA{46, 50, 56, 255}
	faint = color.RGBA{138, 142, 148, 255}
	line  = color.RGBA{222, 222, 218, 255}
	plant = color.RGBA{22, 112, 108, 255}
	slide = color.RGBA{200, 72, 36, 255}
	air   = color.RGBA{206, 222, 240, 255}
	aloft = color.RGBA{78, 110, 158, 255}
	note  = color.RGBA{140, 92, 24, 255}
)

// A tone is a colour to reckon with, 0 to 255 each.
type tone struct{ r, g, b float64 }

func toneOf(c color.RGBA) tone { return tone{float64(c.R), float64(c.G), float64(c.B)} }

// mix is a share of b in a.
func (a tone) mix(b tone, share float64) tone {
	return tone{a.r + share*(b.r-a.r), a.g + share*(b.g-a.g), a.b + share*(b.b-a.b)}
}

func (a tone) color() color.RGBA {
	return color.RGBA{uint8(a.r + 0.5), uint8(a.g + 0.5), uint8(a.b + 0.5), 255}
}

const (
	// bareDark and bareLight are what black and white ground fade to.
	bareDark, bareLight = 218.0, 250.0
	// bodyDark is what a figure's black becomes, bodyKept how much of its range is
	// kept: darker than any ground, whatever it wears.
	bodyDark, bodyKept = 96.0, 0.4
	// markShare is how much of a contact's colour is in what stands there.
	markShare = 0.8
)

// bare is the tone of ground, faded.
func bare(c strip.Cell) tone {
	v := bareDark + (bareLight-bareDark)*float64(c.Y)/255
	return tone{v, v, v - 2}
}

// body is the tone of a figure, its own but darkened.
func body(c strip.Cell) tone {
	r, g, b := color.YCbCrToRGB(c.Y, c.Cb, c.Cr)
	return tone{bodyDark + bodyKept*float64(r), bodyDark + bodyKept*float64(g), bodyDark + bodyKept*float64(b)}
}
