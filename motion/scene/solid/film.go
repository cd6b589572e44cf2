package solid

import "holdfast/motion/scene"

// expose writes tones to film, chroma in the middle of its four pixels.
func expose(film *scene.Film, tones []tone) {
	w := film.Width
	level := func(v float32) uint16 { return uint16(max(0, min(255, v))*scene.LevelSteps + 0.5) }
	for i, t := range tones {
		film.Y[i] = level(t.y)
	}
	for y := 0; y < film.Height; y += 2 {
		for x := 0; x < w; x += 2 {
			a, b, c, d := tones[y*w+x], tones[y*w+x+1], tones[(y+1)*w+x], tones[(y+1)*w+x+1]
			i := y/2*(w/2) + x/2
			film.Cb[i], film.Cr[i] = level((a.cb+b.cb+c.cb+d.cb)/4), level((a.cr+b.cr+c.cr+d.cr)/4)
		}
	}
}
