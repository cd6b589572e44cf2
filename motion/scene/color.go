package scene

// A tone is a colour as the pictures carry it: luma and chroma of BT.601 in
// limited range, in levels (luma 16..235, chroma 16..240 about 128).
type tone struct{ y, cb, cr float64 }

// rgb converts 8-bit full-range R'G'B' by the matrix of Rec. ITU-R BT.601-7,
// 2.5.1 and 2.5.3.
func rgb(r, g, b float64) tone {
	r, g, b = r/255, g/255, b/255
	y := 0.299*r + 0.587*g + 0.114*b
	return tone{16 + 219*y, 128 + 224*(b-y)/1.772, 128 + 224*(r-y)/1.402}
}

// grey is a tone without colour, of luma level y.
func grey(y float64) tone { return tone{y, 128, 128} }

// lit returns the tone under k times the light: chroma goes along with luma.
func (t tone) lit(k float64) tone {
	return tone{16 + (t.y-16)*k, 128 + (t.cb-128)*k, 128 + (t.cr-128)*k}
}

// toward returns the tone u of the way to o.
func (t tone) toward(o tone, u float64) tone {
	return tone{lerp(t.y, o.y, u), lerp(t.cb, o.cb, u), lerp(t.cr, o.cr, u)}
}
