package figure

import (
	"fmt"
	"image"
	"image/png"
	"os"
)

var dbgN int

func dbg(m *Mask, name string) {
	if os.Getenv("DBGMASK") == "" {
		return
	}
	g := image.NewGray(image.Rect(0, 0, m.W, m.H))
	copy(g.Pix, m.Pix)
	f, _ := os.Create(fmt.Sprintf("%s/%s%d.png", os.Getenv("DBGMASK"), name, dbgN))
	png.Encode(f, g)
	f.Close()
	dbgN++
}
