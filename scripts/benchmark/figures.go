package main

import (
	"fmt"
	"math"

	"holdfast/motion"
	"holdfast/motion/scene"
)

const (
	// figureOverlap is the least mean overlap of boxes, common area over
	// area of both, for a found figure to be a true one.
	figureOverlap = 0.3
	// heightListed is how far off a height may be before it is listed.
	heightListed = 0.25
)

// pairFigures pairs figures by their boxes.
func (t *trial) pairFigures() {
	truth, found := t.truth.Figures, t.result.Figures
	t.figurePair = match(len(truth), len(found), func(i, j int) bool {
		return t.boxOverlap(&truth[i], &found[j]) >= figureOverlap
	})
	t.figureOf = map[int]int{}
	for i, j := range t.figurePair {
		if j >= 0 {
			t.figureOf[found[j].ID] = i
		}
	}
}

// judgeFigures counts figures found and compares heights.
func judgeFigures(t *trial) {
	truth, found := t.truth.Figures, t.result.Figures
	t.score.Figures = Counts{True: len(truth), Found: len(found)}
	for i, j := range t.figurePair {
		f := &truth[i]
		if j < 0 {
			t.fault("figure", fmt.Sprintf("%s, %.0f px in %d-%d", f.Name, seenHeight(f, t.size.Y), f.Start, f.End), "missed")
			continue
		}
		t.score.Figures.Matched++
		want, got := seenHeight(f, t.size.Y), found[j].HeightPx*t.scale
		t.score.Height = append(t.score.Height, got/want)
		if math.Abs(got/want-1) > heightListed {
			t.fault("height", fmt.Sprintf("%s, %.0f px", f.Name, want), fmt.Sprintf("%.0f px by %s", got, found[j].Method))
		}
	}
	for _, j := range unmatched(t.figurePair, len(found)) {
		f := found[j]
		t.fault("figure", "none", fmt.Sprintf("%.0f px by %s in %d-%d", f.HeightPx*t.scale, f.Method, f.Start, f.End))
	}
}

// boxOverlap is the mean overlap over all frames on which either is there.
func (t *trial) boxOverlap(a *scene.FigureTruth, b *motion.Figure) float64 {
	var m Mean
	for f := min(a.Start, b.Start); f <= max(a.End, b.End); f++ {
		p, q := trueBox(a, f), t.foundBox(b, f)
		if p != (scene.Box{}) || q != (scene.Box{}) {
			m.include(common(p, q))
		}
	}
	return m.Value()
}

func trueBox(f *scene.FigureTruth, frame int) scene.Box {
	if frame < f.Start || frame > f.End {
		return scene.Box{}
	}
	return f.Box[frame-f.Start]
}

// foundBox is in displayed pixels.
func (t *trial) foundBox(f *motion.Figure, frame int) scene.Box {
	k := frame - f.Start
	if k < 0 || k >= len(f.Boxes) {
		return scene.Box{}
	}
	b := f.Boxes[k]
	return scene.Box{X0: float64(b.X0) * t.scale, Y0: float64(b.Y0) * t.scale, X1: float64(b.X1) * t.scale, Y1: float64(b.Y1) * t.scale}
}

// common is the area that two boxes share over the area that either covers.
func common(a, b scene.Box) float64 {
	w := math.Min(a.X1, b.X1) - math.Max(a.X0, b.X0)
	h := math.Min(a.Y1, b.Y1) - math.Max(a.Y0, b.Y0)
	if w <= 0 || h <= 0 {
		return 0
	}
	return w * h / (area(a) + area(b) - w*h)
}

func area(b scene.Box) float64 { return (b.X1 - b.X0) * (b.Y1 - b.Y0) }

// seenHeight is the median over the frames of a figure's standing height, or
// of what is within the picture of it where the picture's edge cuts it off.
func seenHeight(f *scene.FigureTruth, pictureHeight int) float64 {
	list := make([]float64, len(f.Height))
	for i, h := range f.Height {
		b := f.Box[i]
		if b.Y0 <= 0 || b.Y1 >= float64(pictureHeight) {
			h = math.Min(h, b.Y1-b.Y0)
		}
		list[i] = h
	}
	return median(list)
}
