package draw

import (
	"image"
	"image/color"
	"image/draw"
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
)

type style struct {
	bold bool
	size float64
}

// faces are fonts in the sizes that some pictures need. They keep what they drew
// last, so that each has one user at a time.
type faces struct {
	mu   sync.Mutex
	made map[style]font.Face
}

func (f *faces) face(s style) font.Face {
	if face := f.made[s]; face != nil {
		return face
	}
	ttf := goregular.TTF
	if s.bold {
		ttf = gobold.TTF
	}
	parsed, err := opentype.Parse(ttf)
	if err != nil {
		panic(err) // the font is part of the program
	}
	face, err := opentype.NewFace(parsed, &opentype.FaceOptions{Size: s.size, DPI: 72, Hinting: font.HintingFull})
	if err != nil {
		panic(err)
	}
	if f.made == nil {
		f.made = map[style]font.Face{}
	}
	f.made[s] = face
	return face
}

// glyph returns a copy of what a letter covers: the face draws the next over it.
func (f *faces) glyph(s style, dot fixed.Point26_6, r rune) (dr image.Rectangle, mask image.Image, at image.Point, advance fixed.Int26_6, ok bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	dr, mask, at, advance, ok = f.face(s).Glyph(dot, r)
	if !ok {
		return dr, mask, at, advance, ok
	}
	copied := image.NewAlpha(image.Rectangle{Max: dr.Size()})
	for y := range dr.Dy() {
		for x := range dr.Dx() {
			copied.Set(x, y, mask.At(at.X+x, at.Y+y))
		}
	}
	return dr, copied, image.Point{}, advance, true
}

// width is how wide words are, pixels.
func (f *faces) width(s style, words string) int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return font.MeasureString(f.face(s), words).Ceil()
}

// write draws words on a picture, from a dot on.
func (f *faces) write(dst draw.Image, s style, words string, dot fixed.Point26_6, with color.RGBA) {
	f.mu.Lock()
	defer f.mu.Unlock()
	d := font.Drawer{Dst: dst, Src: image.NewUniform(with), Face: f.face(s), Dot: dot}
	d.DrawString(words)
}

// fitted cuts words that are wider than the room there is.
func (f *faces) fitted(s style, words string, room int) string {
	if f.width(s, words) <= room {
		return words
	}
	runes := []rune(strings.TrimSpace(words))
	for len(runes) > 0 && f.width(s, string(runes)+"…") > room {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "…"
}
