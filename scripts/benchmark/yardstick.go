package main

import (
	"context"
	"fmt"
	"image"
	"io"
	"math"
	"time"

	"github.com/jedib0t/go-pretty/v6/table"
	"gocv.io/x/gocv"

	"holdfast/motion/flow"
	"holdfast/motion/scene"
)

// A method finds where every pixel of one picture is in the next.
type method struct {
	name string
	calc func(dst *flow.Field, from, to *image.Gray) error
}

// A pair is two pictures of a drawn street whose every point's way is known:
// nothing in it moves but the camera.
type pair struct {
	name     string
	from, to *image.Gray
	truth    scene.CameraStep
}

// flowRuns is how often each method looks at each pair for its median time.
const flowRuns = 5

// reportFlow prints what each method of dense flow takes and how far it is
// from the truth, one thread each.
func reportFlow(ctx context.Context, w io.Writer) error {
	pairs, err := flowPairs()
	if err != nil {
		return err
	}
	flow.SetThreads(1)
	out := newTable("FLOW at "+sizeName(mainSize)+", one thread: end-point error, pixels", 2, "method", "pair", "ms", "mean", "95 of 100\nbelow")
	for i, p := range pairs {
		if i > 0 {
			out.AppendSeparator()
		}
		methods, closeAll, err := flowMethods()
		if err != nil {
			return err
		}
		for _, m := range methods {
			if err := context.Cause(ctx); err != nil {
				closeAll()
				return err
			}
			ms, errors, err := m.try(&p)
			if err != nil {
				closeAll()
				return fmt.Errorf("%s: %w", m.name, err)
			}
			out.AppendRow(table.Row{m.name, p.name, fmt.Sprintf("%.1f", ms), pixels(errors.mean), pixels(errors.most)})
		}
		closeAll()
	}
	return render(w, out)
}

// flowPairs draws a slow and a fast step of a camera that also turns and
// comes nearer.
func flowPairs() ([]pair, error) {
	var list []pair
	for _, c := range []struct {
		name  string
		move  scene.CameraMove
		noise float64
	}{
		{"slow step", scene.CameraMove{To: 1, DX: 1.3, DY: 0.6, Roll: 0.1, Zoom: 1.004, Ease: scene.Linear}, 0},
		{"slow step, grain", scene.CameraMove{To: 1, DX: 1.3, DY: 0.6, Roll: 0.1, Zoom: 1.004, Ease: scene.Linear}, 4},
		{"fast step", scene.CameraMove{To: 1, DX: 9, DY: -4, Roll: 0.8, Zoom: 1.02, Ease: scene.Linear}, 0},
	} {
		sc, err := scene.New(scene.Spec{Name: c.name, Width: mainSize.X, Height: mainSize.Y, Seed: 1,
			Condition: scene.Condition{Noise: c.noise}, Shots: []scene.Shot{{Frames: 2, Camera: scene.Camera{Moves: []scene.CameraMove{c.move}}}}})
		if err != nil {
			return nil, err
		}
		p := pair{name: c.name, truth: sc.Truth().Camera[1]}
		for i, dst := range []**image.Gray{&p.from, &p.to} {
			f := sc.NewFrame()
			if err := sc.Draw(f, i); err != nil {
				return nil, err
			}
			*dst = &image.Gray{Pix: f.Y, Stride: f.YStride, Rect: f.Rect}
		}
		list = append(list, p)
	}
	return list, nil
}

// flowMethods are dense inverse search at each preset, and Farnebäck's method
// by gocv as a yardstick.
func flowMethods() (list []method, closeAll func(), err error) {
	var open []*flow.DIS
	closeAll = func() {
		for _, d := range open {
			d.Close()
		}
	}
	for _, c := range []struct {
		name   string
		preset flow.Preset
	}{{"inverse search, ultrafast", flow.Ultrafast}, {"inverse search, fast", flow.Fast}, {"inverse search, medium", flow.Medium}} {
		d, err := flow.NewDIS(c.preset)
		if err != nil {
			closeAll()
			return nil, nil, err
		}
		open = append(open, d)
		list = append(list, method{c.name, d.Calc})
	}
	return append(list, method{"Farnebäck", farneback}), closeAll, nil
}

// farneback is G. Farnebäck, "Two-Frame Motion Estimation Based on Polynomial
// Expansion", 2003, with the settings of OpenCV's own example: three levels,
// window of 15, three iterations, neighbourhood of 5 at 1.2.
func farneback(dst *flow.Field, from, to *image.Gray) error {
	w, h := from.Rect.Dx(), from.Rect.Dy()
	a, err := gocv.NewMatFromBytes(h, w, gocv.MatTypeCV8U, from.Pix)
	if err != nil {
		return err
	}
	defer a.Close()
	b, err := gocv.NewMatFromBytes(h, w, gocv.MatTypeCV8U, to.Pix)
	if err != nil {
		return err
	}
	defer b.Close()
	m := gocv.NewMat()
	defer m.Close()
	gocv.CalcOpticalFlowFarneback(a, b, &m, 0.5, 3, 15, 3, 5, 1.2, 0)
	uv, err := m.DataPtrFloat32()
	if err != nil {
		return err
	}
	dst.Reset(w, h)
	copy(dst.UV, uv)
	return nil
}

// try returns a method's median time in milliseconds and its error on a pair.
func (m *method) try(p *pair) (ms float64, e endPoint, err error) {
	var field flow.Field
	var times []float64
	for range flowRuns {
		start := time.Now()
		if err := m.calc(&field, p.from, p.to); err != nil {
			return 0, e, err
		}
		times = append(times, time.Since(start).Seconds()*1000)
	}
	return median(times), endPointError(&field, p.truth), nil
}

// An endPoint is the distance between found and true ends of the displacements
// of a picture, pixels.
type endPoint struct{ mean, most float64 } // most: what 95 of 100 stay under

// endPointError looks at all pixels that the step leaves within the picture.
func endPointError(f *flow.Field, c scene.CameraStep) endPoint {
	cx, cy := float64(f.W)/2, float64(f.H)/2
	sin, cos := math.Sincos(c.Roll * math.Pi / 180)
	var m Mean
	var list []float64
	for y := range f.H {
		for x := range f.W {
			// The middle of pixel (x, y) is half a pixel from its corner.
			dx, dy := float64(x)+0.5-cx, float64(y)+0.5-cy
			u := c.Zoom*(cos*dx-sin*dy) - c.DX - dx
			v := c.Zoom*(sin*dx+cos*dy) - c.DY - dy
			if math.Abs(dx+u) > cx || math.Abs(dy+v) > cy {
				continue
			}
			fu, fv := f.At(x, y)
			d := math.Hypot(float64(fu)-u, float64(fv)-v)
			m.include(d)
			list = append(list, d)
		}
	}
	return endPoint{m.Value(), quantile(list, 0.95)}
}
