package main

import (
	"context"
	"fmt"
	"image"
	"io"
	"time"

	"github.com/jedib0t/go-pretty/v6/table"
	"gocv.io/x/gocv"

	"holdfast/motion/flow"
)

// A method finds where every pixel of one picture is in the next.
type method struct {
	name string
	calc func(dst *flow.Field, from, to *image.Gray) error
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
	methods, closeAll, err := flowMethods()
	if err != nil {
		return err
	}
	defer closeAll()
	flow.SetThreads(1)
	out := newTable("FLOW at "+sizeName(mainSize)+", one thread: end-point error, pixels", 2, "method", "pair", "ms", "mean", "95 of 100\nbelow")
	for i, p := range pairs {
		if i > 0 {
			out.AppendSeparator()
		}
		for _, m := range methods {
			if err := context.Cause(ctx); err != nil {
				return err
			}
			ms, e, err := m.try(&p)
			if err != nil {
				return fmt.Errorf("%s: %w", m.name, err)
			}
			out.AppendRow(table.Row{m.name, p.name, fmt.Sprintf("%.1f", ms), pixels(e.mean), pixels(e.most)})
		}
	}
	return render(w, out)
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
