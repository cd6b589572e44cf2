package flow

import (
	"fmt"
	"image"
)

// CalcLed is Calc for pictures that are known to have shifted by about lead,
// farther than Calc can see: flow is looked for between what both show. The
// displacement of pixels that leave the picture is the lead.
func (d *DIS) CalcLed(dst *Field, from, to *image.Gray, lead image.Point) error {
	if from.Rect != to.Rect {
		return fmt.Errorf("dense flow: pictures differ in place: %v and %v", from.Rect, to.Rect)
	}
	there := to.Rect.Intersect(from.Rect.Add(lead))
	here := there.Sub(lead)
	var rest Field
	if err := d.Calc(&rest, crop(from, here), crop(to, there)); err != nil {
		return err
	}
	dst.Reset(from.Rect.Dx(), from.Rect.Dy())
	for i := 0; i < len(dst.UV); i += 2 {
		dst.UV[i], dst.UV[i+1] = float32(lead.X), float32(lead.Y)
	}
	corner := here.Min.Sub(from.Rect.Min)
	for y := range rest.H {
		row := dst.UV[2*((corner.Y+y)*dst.W+corner.X):]
		for i, v := range rest.UV[2*y*rest.W : 2*(y+1)*rest.W] {
			row[i] += v
		}
	}
	return nil
}

// crop returns a copy of part of a picture, since flow takes no strided one.
func crop(p *image.Gray, r image.Rectangle) *image.Gray {
	part := image.NewGray(image.Rectangle{Max: r.Size()})
	for y := range r.Dy() {
		copy(part.Pix[y*part.Stride:(y+1)*part.Stride], p.Pix[p.PixOffset(r.Min.X, r.Min.Y+y):])
	}
	return part
}
