package solid

// A tone is a colour as pictures carry it: luma and chroma of BT.601 in limited
// range, in levels.
type tone struct{ y, cb, cr float32 }

// lit returns the tone under k times the light.
func (t tone) lit(k float32) tone {
	return tone{16 + (t.y-16)*k, 128 + (t.cb-128)*k, 128 + (t.cr-128)*k}
}

func (t tone) toward(o tone, u float32) tone {
	return tone{t.y + (o.y-t.y)*u, t.cb + (o.cb-t.cb)*u, t.cr + (o.cr-t.cr)*u}
}

// A cloth is a tone with a texture of so many levels.
type cloth struct {
	tone  tone
	weave float32
}

type costume struct{ coat, legs, shoes, skin, hair cloth }

// A Look is how a figure is dressed.
type Look int

// The looks. Camouflage is within some levels of the backdrop, with hardly any
// texture of its own.
const (
	Warm Look = iota
	Cold
	Dark
	Camouflage
)

var costumes = [...]costume{
	Warm: {cloth{tone{150, 96, 166}, 30}, cloth{tone{84, 134, 126}, 24}, cloth{tone{176, 112, 138}, 26}, cloth{tone{178, 110, 152}, 8}, cloth{tone{56, 122, 138}, 12}},
	Cold: {cloth{tone{120, 150, 104}, 30}, cloth{tone{172, 118, 134}, 26}, cloth{tone{70, 122, 146}, 22}, cloth{tone{150, 112, 150}, 8}, cloth{tone{140, 104, 142}, 14}},
	Dark: {cloth{tone{48, 132, 128}, 14}, cloth{tone{40, 132, 126}, 10}, cloth{tone{34, 128, 130}, 8}, cloth{tone{130, 114, 150}, 8}, cloth{tone{30, 126, 130}, 8}},
	Camouflage: {cloth{tone{wallLuma + 10, 132, 124}, 10}, cloth{tone{wallLuma - 6, 130, 125}, 10}, cloth{tone{groundLuma - 12, 126, 130}, 10},
		cloth{tone{wallLuma + 16, 126, 132}, 6}, cloth{tone{wallLuma - 14, 128, 128}, 8}},
}
