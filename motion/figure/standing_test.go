package figure

import (
	"math"
	"testing"
)

// nodding is a figure of which only the head moves, before ground that goes on
// to both sides.
func nodding(t int) []block {
	head := int(math.Round(3 * math.Sin(float64(t)/3)))
	return []block{red(100, 44, 24, 80), red(104+head, 26, 16, 18)}
}

// What never moves of a figure is found in the plate, below what moves.
func TestWhatStandsIsFoundInThePlate(t *testing.T) {
	s := clip{60, plain, nil, nodding, 1}.film(t)
	p, err := NewPlate(s.layers, s.path)
	if err != nil {
		t.Fatal(err)
	}
	defer p.Close()
	head := Box{50, 13, 62, 22} // all the head's ways, layer pixels
	silhouettes := make([]Silhouette, len(s.layers))
	for i := range silhouettes {
		silhouettes[i] = newSilhouette(s.layers[0].W, s.layers[0].H)
		for y := head.Y0; y < head.Y1; y++ {
			for x := head.X0; x < head.X1; x++ {
				silhouettes[i].set(y*s.layers[0].W + x)
			}
		}
	}
	m, err := p.standing(head, silhouettes)
	if err != nil {
		t.Fatal(err)
	}
	if m == nil {
		t.Fatal("nothing stands")
	}
	defer m.close()
	boxNear(t, "head and body", m.bounds(), Box{50, 13, 62, 62}, 3)
}

// What bounces on the spot has the size of itself, not of its way.
func TestBounceHasItsOwnSize(t *testing.T) {
	bounce := func(t int) []block {
		return []block{red(100, 100-int(80*math.Abs(math.Sin(float64(t)/7))), 20, 20)}
	}
	found := clip{60, plain, nil, bounce, 1}.find(t)
	if len(found.Figures) != 1 {
		t.Fatalf("%d figures, want one", len(found.Figures))
	}
	if h := found.Figures[0].HeightPx; math.Abs(h-20) > 4 {
		t.Errorf("height %.0f px, want 20", h)
	}
}
