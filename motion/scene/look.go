package scene

// A Style is the way a shot is drawn.
type Style int

// The styles.
const (
	Painted Style = iota // a painted street at dusk: texture everywhere
	Flat                 // flat cartoon shapes, few edges
	Line                 // ink lines on white paper
	Preview              // grey shaded preview render over a floor grid
)

// A Scheme is how a figure stands out against its background.
type Scheme int

// The schemes.
const (
	Contrasting Scheme = iota // light and warm against dark and cold, or the reverse
	LowContrast               // a dozen levels from the background, hardly any colour
	SimilarHue                // the hue of the background, lighter
)

// A Look is how one figure is coloured.
type Look struct {
	Scheme  Scheme
	Palette int // picks among the colours of the scheme
}

// cloth is the set of tones that a costume is made of.
type cloth struct {
	coat, coatMark, leg, shoe, skin, hat, scarf, bag, ink tone
	weave, shade                                          float64 // levels
}

// contrasting are the palettes of the scheme of that name, for colour styles.
var contrasting = []cloth{
	{coat: rgb(214, 120, 52), coatMark: rgb(250, 214, 140), leg: rgb(92, 70, 92), shoe: rgb(226, 190, 130), skin: rgb(244, 200, 160), hat: rgb(190, 62, 58), scarf: rgb(240, 226, 190), bag: rgb(140, 86, 46)},
	{coat: rgb(88, 168, 160), coatMark: rgb(222, 240, 214), leg: rgb(206, 176, 120), shoe: rgb(120, 64, 44), skin: rgb(214, 160, 120), hat: rgb(240, 200, 84), scarf: rgb(206, 76, 70), bag: rgb(96, 110, 70)},
	{coat: rgb(206, 84, 104), coatMark: rgb(250, 224, 214), leg: rgb(70, 84, 120), shoe: rgb(240, 220, 196), skin: rgb(188, 132, 96), hat: rgb(80, 120, 170), scarf: rgb(250, 214, 96), bag: rgb(120, 74, 96)},
}

// clothFor picks the tones of a figure in a style.
func clothFor(l Look, s Style) cloth {
	var c cloth
	switch s {
	case Line:
		paper := grey(232)
		c = cloth{coat: paper, coatMark: grey(120), leg: paper, shoe: grey(150), skin: paper, hat: grey(190), scarf: grey(170), bag: grey(205)}
	case Preview:
		c = greys(158 + 12*float64(l.Palette%3))
		c.shade = 46
	default:
		c = contrasting[l.Palette%len(contrasting)]
	}
	switch {
	case l.Scheme == LowContrast:
		c = nearTo(backTone(s))
	case l.Scheme == SimilarHue:
		c = hueOf(backTone(s))
	}
	c.ink = grey(28)
	if s == Painted {
		c.weave, c.shade = 22, 34
	}
	if s == Preview {
		c.weave, c.shade = 6, 46
	}
	if s == Flat || s == Line {
		c.weave, c.shade = 0, 0
	}
	return c
}

// backTone is the mean of the background behind a figure.
func backTone(s Style) tone {
	switch s {
	case Flat:
		return rgb(150, 190, 206)
	case Line:
		return grey(235)
	case Preview:
		return grey(112)
	default:
		return rgb(74, 82, 108)
	}
}

func greys(y float64) cloth {
	return cloth{coat: grey(y), coatMark: grey(y - 40), leg: grey(y - 14), shoe: grey(y - 30), skin: grey(y + 22), hat: grey(y - 22), scarf: grey(y + 12), bag: grey(y - 34)}
}

// nearTo dresses a figure in tones a dozen levels from t.
func nearTo(t tone) cloth {
	away := func(d float64) tone { return tone{t.y + d, t.cb*0.5 + 64, t.cr*0.5 + 64} }
	return cloth{coat: away(13), coatMark: away(26), leg: away(-13), shoe: away(-20), skin: away(22), hat: away(-16), scarf: away(18), bag: away(-22)}
}

// hueOf dresses a figure in lighter and darker tones of t's own hue.
func hueOf(t tone) cloth {
	of := func(k float64) tone { return t.lit(k) }
	return cloth{coat: of(1.55), coatMark: of(2.1), leg: of(1.3), shoe: of(0.55), skin: of(1.9), hat: of(0.6), scarf: of(1.75), bag: of(0.7)}
}
