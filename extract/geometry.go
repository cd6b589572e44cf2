package extract

import (
	"image"
	"math"
	"strconv"
	"strings"
)

// maxPixelAspect is the most lopsided pixel that is believed. Real material
// stays below 2.2; a file that claims more has a broken header.
const maxPixelAspect = 16

// geometry is how the stored pictures of a clip are to be shown.
type geometry struct {
	width, height int // displayed
	warnings      []string
}

// displayed turns a stored size into the size that a player shows: pixel
// aspect ratio applied to the width, then quarter turns. Turns come from the
// display matrix alone, since that is what ffmpeg turns the frames by;
// releases before 5 mirrored the "rotate" tag of mp4 in it.
func displayed(s probedStream) geometry {
	var g geometry
	num, den, sane := pixelAspect(s.PixelAspect)
	if !sane {
		g.warnings = append(g.warnings, "the pixel aspect ratio makes no sense: pixels taken as square")
	}
	g.width = max(1, int(math.Round(float64(s.Width)*num/den)))
	g.height = int(s.Height)
	turn, sane := rotation(s)
	if !sane {
		g.warnings = append(g.warnings, "the clip is marked as turned by an angle that is no quarter turn")
	}
	if turn == 90 || turn == 270 {
		g.width, g.height = g.height, g.width
	}
	return g
}

// pixelAspect reads "64:45". Unknown ("0:1", "N/A", nothing) is square.
func pixelAspect(s string) (num, den float64, sane bool) {
	a, b, ok := strings.Cut(s, ":")
	n, errN := strconv.ParseFloat(a, 64)
	d, errD := strconv.ParseFloat(b, 64)
	if !ok || errN != nil || errD != nil || !(n > 0) || !(d > 0) {
		return 1, 1, true
	}
	if r := n / d; r > maxPixelAspect || r < 1.0/maxPixelAspect {
		return 1, 1, false
	}
	return n, d, true
}

// quarterTolerance is how far from a quarter turn, in degrees, ffmpeg still
// takes an angle for one.
const quarterTolerance = 1

// rotation returns 0, 90, 180 or 270; sane is false for other angles, which
// ffmpeg turns the picture by without changing its size.
func rotation(s probedStream) (turn int, sane bool) {
	for _, d := range s.SideData {
		if d.Rotation == nil {
			continue
		}
		angle := math.Mod(*d.Rotation, 360)
		if math.Abs(*d.Rotation) > 720 {
			return 0, false
		}
		if angle < 0 {
			angle += 360
		}
		quarter := math.Round(angle/90) * 90
		if math.Abs(angle-quarter) > quarterTolerance {
			return 0, false
		}
		return int(quarter) % 360, true
	}
	return 0, true
}

// workSize scales a displayed size down to at most area pixels, with even
// sides of at least 2 that a video can be written with.
func workSize(width, height, area int) image.Point {
	scale := math.Min(1, math.Sqrt(float64(area)/(float64(width)*float64(height))))
	scale = math.Min(scale, maxVideoSide/float64(max(width, height)))
	even := func(side int) int {
		down := int(math.Floor(float64(side)/2)) * 2
		return max(2, min(down, int(math.Round(float64(side)*scale/2))*2))
	}
	return image.Pt(even(width), even(height))
}
