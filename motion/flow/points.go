package flow

import (
	"fmt"
	"image"
	"math"
	"slices"
	"sync"

	"gocv.io/x/gocv"

	"holdfast/motion/rank"
)

// A Point is a place in a picture, pixels.
type Point struct{ X, Y float64 }

const (
	// pointSide is the side, pixels, of the square that is compared around a point,
	// and pointLevels how often the pictures are halved to find what goes far: at
	// the coarsest the square reaches 56 pixels either way.
	pointSide, pointLevels = 15, 3
	// pointSteps and pointEps end the search for one point, rounds and pixels: those
	// of J.-Y. Bouguet, "Pyramidal Implementation of the Lucas Kanade Feature
	// Tracker", 2000 (from memory), with a finer end.
	pointSteps, pointEps = 30, 0.003
	// pointTexture is the least eigenvalue of the square's gradients, as OpenCV counts
	// it, for it to be found again.
	pointTexture = 1e-4
	// useGuess is OpenCV's OPTFLOW_USE_INITIAL_FLOW.
	useGuess = 4
)

// pointCriteria are pointSteps and pointEps as OpenCV takes them: made once, because
// gocv cannot free them.
var pointCriteria = sync.OnceValue(func() gocv.TermCriteria {
	return gocv.NewTermCriteria(gocv.Count+gocv.EPS, pointSteps, pointEps)
})

// Points follows points from one picture to another of the same size, forwards
// and back again: what does not come back to where it was is lost. It returns where
// each went, and by how many pixels it missed where it came from; that is
// infinite for a point that was not found at all. Z. Kalal, K. Mikolajczyk, J.
// Matas, "Forward-Backward Error: Automatic Detection of Tracking Failures", ICPR
// 2010.
func Points(from, to *image.Gray, at []Point) (went []Point, missed []float64, err error) {
	return PointsBy(from, to, at, pointSide, Point{})
}

// PointsBy is Points with squares of another side, pixels, compared around each
// point, which are looked for first where guess, a way, takes them. What is smaller
// than the square, or goes farther than its own size, is taken for the ground.
func PointsBy(from, to *image.Gray, at []Point, side int, guess Point) (went []Point, missed []float64, err error) {
	if len(at) == 0 {
		return nil, nil, nil
	}
	if from.Rect.Size() != to.Rect.Size() {
		return nil, nil, fmt.Errorf("follow points: pictures of %v and %v", from.Rect.Size(), to.Rect.Size())
	}
	a, err := grayMat(from)
	if err != nil {
		return nil, nil, err
	}
	defer a.Close()
	b, err := grayMat(to)
	if err != nil {
		return nil, nil, err
	}
	defer b.Close()
	went, there, err := followPoints(a, b, at, side, guess)
	if err != nil {
		return nil, nil, err
	}
	back, again, err := followPoints(b, a, went, side, Point{-guess.X, -guess.Y})
	if err != nil {
		return nil, nil, err
	}
	for i, p := range at {
		d := math.Inf(1)
		if there[i] && again[i] {
			d = math.Hypot(back[i].X-p.X, back[i].Y-p.Y)
		}
		missed = append(missed, d)
	}
	return went, missed, nil
}

// followPoints follows points one way.
func followPoints(from, to gocv.Mat, at []Point, side int, guess Point) (went []Point, found []bool, err error) {
	start := gocv.NewMatWithSize(len(at), 1, gocv.MatTypeCV32FC2)
	defer start.Close()
	end, status, misfit := gocv.NewMatWithSize(len(at), 1, gocv.MatTypeCV32FC2), gocv.NewMat(), gocv.NewMat()
	defer end.Close()
	defer status.Close()
	defer misfit.Close()
	xy, err := start.DataPtrFloat32()
	if err != nil {
		return nil, nil, fmt.Errorf("follow points: %w", err)
	}
	for i, p := range at {
		xy[2*i], xy[2*i+1] = float32(p.X), float32(p.Y)
	}
	if xy, err = end.DataPtrFloat32(); err != nil {
		return nil, nil, fmt.Errorf("follow points: %w", err)
	}
	for i, p := range at {
		xy[2*i], xy[2*i+1] = float32(p.X+guess.X), float32(p.Y+guess.Y)
	}
	gocv.CalcOpticalFlowPyrLKWithParams(from, to, start, end, &status, &misfit,
		image.Pt(side, side), pointLevels, pointCriteria(), useGuess, pointTexture)
	if xy, err = end.DataPtrFloat32(); err != nil {
		return nil, nil, fmt.Errorf("follow points: %w", err)
	}
	for i := range at {
		went = append(went, Point{float64(xy[2*i]), float64(xy[2*i+1])})
		found = append(found, status.GetUCharAt(i, 0) != 0)
	}
	return went, found, nil
}

func grayMat(p *image.Gray) (gocv.Mat, error) {
	size := p.Rect.Size()
	if p.Stride != size.X {
		rows := make([]uint8, 0, size.X*size.Y)
		for y := range size.Y {
			rows = append(rows, p.Pix[y*p.Stride:y*p.Stride+size.X]...)
		}
		p = &image.Gray{Pix: rows, Stride: size.X, Rect: p.Rect}
	}
	m, err := gocv.NewMatFromBytes(size.Y, size.X, gocv.MatTypeCV8U, p.Pix)
	if err != nil {
		return m, fmt.Errorf("follow points: %w", err)
	}
	return m, nil
}

// Median follows points as Points does and returns the median way of that half of
// them that comes back best, with the median by which all missed where they came
// from, pixels (the "median flow" of the same paper).
func Median(from, to *image.Gray, at []Point) (dx, dy, missed float64, err error) {
	went, miss, err := Points(from, to, at)
	if err != nil || len(at) == 0 {
		return 0, 0, math.Inf(1), err
	}
	sorted := slices.Sorted(slices.Values(miss))
	missed = sorted[len(sorted)/2]
	var xs, ys []float64
	for i, p := range at {
		if miss[i] <= missed && !math.IsInf(miss[i], 1) {
			xs, ys = append(xs, went[i].X-p.X), append(ys, went[i].Y-p.Y)
		}
	}
	if len(xs) == 0 {
		return 0, 0, math.Inf(1), nil
	}
	return rank.Median(xs), rank.Median(ys), missed, nil
}
