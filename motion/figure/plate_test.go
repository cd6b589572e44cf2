package figure

import (
	"image"
	"testing"

	"holdfast/motion/picture"
)

// plateOf makes the plate of a shot, ghosts lifted.
func plateOf(t *testing.T, s shot) *Plate {
	t.Helper()
	p, err := NewPlate(s.layers, s.path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.Close)
	f, err := newFinder(s.layers[0].W, s.layers[0].H)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(f.close)
	if err := p.lift(s.layers, f); err != nil {
		t.Fatal(err)
	}
	return p
}

// offGround counts the pixels of the plate, as a frame sees it, that differ from
// the bare ground of that frame by over 8 levels; unknown ones are no fault.
func offGround(t *testing.T, c clip, s shot, frame int) (off, known int) {
	t.Helper()
	p := plateOf(t, s)
	bare := c
	bare.blocks = func(int) []block { return nil }
	bare.grain = 0
	f := image.NewYCbCr(image.Rect(0, 0, viewW, viewH), image.YCbCrSubsampleRatio420)
	bare.draw(f, frame)
	pic, err := picture.New(viewW, viewH)
	if err != nil {
		t.Fatal(err)
	}
	defer pic.Close()
	if err := pic.Set(f); err != nil {
		t.Fatal(err)
	}
	want, err := NewLayer(pic.CW(), pic.CH())
	if err != nil {
		t.Fatal(err)
	}
	defer want.Close()
	if err := want.Set(pic); err != nil {
		t.Fatal(err)
	}
	p.world.fromCanvas(p.view, p.canvas, frame)
	for i := 0; i < len(want.Pix); i += channels {
		if p.view.Pix[i+channelSeen] != 255 {
			continue
		}
		known++
		for c := range channelSeen {
			if d := int(want.Pix[i+c]) - int(p.view.Pix[i+c]); d > 8 || d < -8 {
				off++
				break
			}
		}
	}
	return off, known
}

// TestPlateIsTheBareGround: a figure that crosses, one that stands for two
// thirds of the clip and then leaves, under a camera that stands or pans.
func TestPlateIsTheBareGround(t *testing.T) {
	leaves := func(t int) []block { return []block{red(60+max(0, 6*(t-40)), 40, 24, 84)} }
	arrives := func(t int) []block { return []block{red(120-max(0, 6*(22-t)), 40, 24, 84)} }
	pan := func(t int) float64 { return 0.8 * float64(t) }
	for _, k := range []struct {
		name  string
		c     clip
		frame int
	}{
		{"crossing", clip{60, meadow, nil, crossing, 0}, 30},
		{"crossing, in grain", clip{60, meadow, nil, crossing, 4}, 30},
		{"crossing under a pan", clip{60, meadow, pan, crossing, 0}, 30},
		{"leaves in the end", clip{62, meadow, nil, leaves, 0}, 10},
		{"leaves in the end, in grain", clip{62, meadow, nil, leaves, 4}, 10},
		{"leaves in the end, before plain ground", clip{62, plain, nil, leaves, 0}, 10},
		{"arrives in the beginning", clip{62, meadow, nil, arrives, 0}, 50},
	} {
		off, known := offGround(t, k.c, k.c.film(t), k.frame)
		if total := viewW * viewH / 4; known < total*9/10 {
			t.Errorf("%s: only %d of %d pixels known", k.name, known, total)
		}
		// A rim one layer pixel wide around a figure of 12 by 42 is let pass.
		if off > 2*(12+42) {
			t.Errorf("%s: %d pixels of the plate are not the ground", k.name, off)
		}
	}
}

// TestPlateOfMedianAlone makes sure that the ghost above is there to be lifted.
func TestPlateOfMedianAlone(t *testing.T) {
	c := clip{62, meadow, nil, func(t int) []block { return []block{red(60+max(0, 6*(t-40)), 40, 24, 84)} }, 0}
	s := c.film(t)
	p, err := NewPlate(s.layers, s.path)
	if err != nil {
		t.Fatal(err)
	}
	defer p.Close()
	if i := (40*p.canvas.W + 36) * channels; p.canvas.Pix[i+channelCr] != 170 {
		t.Errorf("the median holds %d where the figure stands for most frames, want its 170", p.canvas.Pix[i+channelCr])
	}
}

func TestPlateOfNothing(t *testing.T) {
	if p, err := NewPlate(nil, nil); err == nil {
		p.Close()
		t.Error("a plate is made of no frames")
	}
	l, err := NewLayer(4, 4)
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	if p, err := NewPlate([]*Layer{l}, nil); err == nil {
		p.Close()
		t.Error("a plate is made without a camera path")
	}
}
