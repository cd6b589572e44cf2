package motion

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"holdfast/motion/camera"
	"holdfast/motion/flow"
	"holdfast/motion/picture"
	"holdfast/motion/travel"
)

// A measurer takes frames one by one, finds the step from each to the next,
// and hands them shot by shot to be measured.
type measurer struct {
	o      Options
	now    *picture.Picture // the frame being looked at
	before *picture.Picture
	dis    *flow.DIS   // where the camera is too fast for field; nil where the pictures are too small
	field  *flow.Field // from the frame before to now
	led    flow.Field
	fitter *camera.Estimator
	seeker camera.Seeker
	meter  *travel.Meter
	cutter *camera.Cutter
	joiner *camera.Joiner
	bars   barKeeper
	shot   *shot      // the frames since the last cut or join that is certain
	ending chan error // says how measuring the shot before it went; nil: that is done
	held   int        // frames that are kept for that
	result Result
}

// Measure reads all frames of src and measures them. It keeps no more than a
// stretch of small frames at a time, so memory does not grow with the clip's
// length but for some numbers a frame.
func Measure(ctx context.Context, src Source, o Options) (*Result, error) {
	m, err := newMeasurer(o)
	if err != nil {
		return nil, err
	}
	defer m.close()
	a, err := newAhead(src, o.Size)
	if err != nil {
		return nil, err
	}
	defer a.close()
	err = a.each(ctx, func(n int, before, now *readyFrame) error {
		if err := m.add(n, before, now); err != nil {
			return fmt.Errorf("measure frame %d: %w", n, err)
		}
		if o.Progress != nil {
			o.Progress(n)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	if err := m.finish(); err != nil {
		return nil, err
	}
	return &m.result, nil
}

func newMeasurer(o Options) (*measurer, error) {
	w, h := o.Size.X, o.Size.Y
	if o.Rate <= 0 {
		return nil, fmt.Errorf("rate of %g frames a second", o.Rate)
	}
	m := &measurer{
		o: o, fitter: camera.NewEstimator(w, h), meter: travel.NewMeter(w, h),
		cutter: camera.NewCutter(o.Rate), joiner: camera.NewJoiner(o.Rate),
	}
	m.shot = newShot(o, max(m.cutter.Look(), m.joiner.Look()), 0, &m.bars)
	if w >= flow.MinSide && h >= flow.MinSide {
		var err error
		if m.dis, err = flow.NewDIS(flow.Fast); err != nil {
			m.close()
			return nil, err
		}
	}
	return m, nil
}

func (m *measurer) close() {
	if m.dis != nil {
		m.dis.Close()
	}
	m.settle() // whatever went wrong there comes second
	m.shot.close()
}

// add takes frame n.
func (m *measurer) add(n int, before, now *readyFrame) error {
	m.now, m.field = now.now, &now.field
	if before != nil {
		m.before = before.now
	}
	s := step{change: camera.Change{Thumb: camera.NewThumb(m.now)}, fit: camera.Fit{Motion: camera.Identity, Gain: 1}}
	if n > 0 {
		if err := m.step(&s); err != nil {
			return err
		}
	}
	m.result.Frames = n + 1
	if m.held+len(m.shot.layers) >= stretchFrames {
		// Two shots together keep no more frames than one may.
		if err := m.settle(); err != nil {
			return err
		}
	}
	if err := m.shot.add(m.now, s); err != nil {
		return err
	}
	if join, ok := m.joiner.Push(m.now, s.change.Amount); ok {
		if err := m.split(join.Frame, join); err != nil {
			return err
		}
	}
	if cut, ok := m.cutter.Push(s.change); ok {
		return m.cut(cut)
	}
	return nil
}

// step finds what happened between the frame before and this one.
func (m *measurer) step(s *step) error {
	var field *flow.Field
	if m.dis != nil {
		field = m.field
		seen, err := m.fit(s)
		if err != nil {
			return err
		}
		s.travel = new(travel.Map)
		m.meter.Measure(s.travel, m.before, m.now, seen, s.fit)
	}
	// By plain flow always: where only some frames of a whip pan can be led, the
	// others must not stand out as cuts.
	s.change = camera.NewChange(m.before, m.now, field)
	return nil
}

// fit finds the camera's motion to this frame and returns the flow that shows
// it: m.field, or m.led where the camera went too fast for that.
func (m *measurer) fit(s *step) (*flow.Field, error) {
	s.fit = m.fitter.Fit(m.before, m.now, m.field)
	if !s.fit.Doubtful() {
		return m.field, nil
	}
	lead, ok := m.seeker.Lead(m.before, m.now)
	if !ok {
		return m.field, nil
	}
	if err := m.dis.CalcLed(&m.led, m.before.Gray(), m.now.Gray(), lead); err != nil {
		return nil, err
	}
	led := m.fitter.Fit(m.before, m.now, &m.led)
	if !led.Mends(s.fit) {
		return m.field, nil
	}
	s.fit = led
	return &m.led, nil
}

// cut ends the shot before the given frame, and those that were joined in it.
func (m *measurer) cut(frame int) error {
	if frame <= m.shot.start {
		return nil // a join came with the cut
	}
	if err := m.joined(frame); err != nil {
		return err
	}
	return m.split(frame, camera.Join{})
}

// joined ends the shots that are joined to another before the given frame.
func (m *measurer) joined(frame int) error {
	for _, join := range m.joiner.End(frame) {
		if err := m.split(join.Frame, join); err != nil {
			return err
		}
	}
	return nil
}

// split ends the shot before the given frame; frames from there on belong to the
// next one, which join leads to.
func (m *measurer) split(frame int, join camera.Join) error {
	rest, err := m.shot.split(frame)
	if err != nil {
		return err
	}
	if err := m.end(); err != nil {
		rest.close()
		return err
	}
	rest.join = join
	m.shot = rest
	return nil
}

// end has the shot that is complete measured, beside the frames that follow it.
// Shots go into the result one after the other, so it waits for the one before.
func (m *measurer) end() error {
	if err := m.settle(); err != nil {
		return err
	}
	s, ending := m.shot, make(chan error, 1)
	m.ending, m.held = ending, len(s.layers)
	go func() {
		err := s.measure(&m.result)
		s.close()
		ending <- err
	}()
	return nil
}

// settle waits for the shot that is being measured.
func (m *measurer) settle() error {
	if m.ending == nil {
		return nil
	}
	err := <-m.ending
	m.ending, m.held = nil, 0
	return err
}

func (m *measurer) finish() error {
	for _, c := range m.cutter.Flush() {
		if err := m.cut(c); err != nil {
			return err
		}
	}
	if err := m.o.Marks.check(m.result.Frames); err != nil {
		return err
	}
	if m.result.Frames == 0 {
		return nil
	}
	if err := m.joined(m.result.Frames); err != nil {
		return err
	}
	if err := errors.Join(m.end(), m.settle()); err != nil {
		return err
	}
	m.result.Bars = m.bars.all()
	m.result.tell(m.o.Rate)
	m.result.weigh()
	m.result.stage(m.o.Size, m.o.Rate)
	m.result.settings(m.o)
	return nil
}

// weigh sets each move's size against the biggest of the clip.
func (r *Result) weigh() {
	most := 0.0
	for _, b := range r.Beats {
		most = max(most, b.Travel)
	}
	for i := range r.Beats {
		if most > 0 {
			r.Beats[i].Size = r.Beats[i].Travel / most
		}
	}
	r.Warnings = slices.Compact(r.Warnings)
}
