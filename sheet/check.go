package sheet

import (
	"cmp"
	"fmt"
	"regexp"
)

// A FieldError says which member of a sheet is wrong, and how. Path is written
// as in JSON: "beats[3].peak".
type FieldError struct {
	Path   string
	Reason string
}

func (e *FieldError) Error() string { return fmt.Sprintf("beat sheet: %s %s", e.Path, e.Reason) }

// Check reports the first member that a sheet may not hold: a value outside
// its range, a stretch outside its shot, a gap or an overlap between beats, a
// number that is not finite. Writers call it before the first byte. The error
// is a *FieldError.
func (s *Sheet) Check() error {
	steps := []func() error{
		s.checkFinite, s.checkHead, s.checkShots, s.checkFigures, s.checkBeats,
		s.checkTiling, s.checkExposure, s.checkTexture, s.checkGround, s.checkFraming, s.checkPoses, s.checkParts, s.checkTwins, s.checkReactions, s.checkApproaches, s.checkLively, s.checkSound, s.checkNotes, s.checkRemarks, s.checkCurve,
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// maxFrame bounds frame numbers and frame counts, so that sums of two never
// overflow: 2^30 frames are more than a year at 24 fps.
const maxFrame = 1 << 30

var (
	sha256Text = regexp.MustCompile(`^[0-9a-f]{64}$`)
	noteKind   = regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
)

// bad returns a *FieldError.
func bad(path, reason string, args ...any) error {
	return &FieldError{path, fmt.Sprintf(reason, args...)}
}

func at(list string, i int, member string) string {
	if member == "" {
		return fmt.Sprintf("%s[%d]", list, i)
	}
	return fmt.Sprintf("%s[%d].%s", list, i, member)
}

func (s *Sheet) checkHead() error {
	c := s.Clip
	switch {
	case s.Format != Format:
		return bad("format", "is %q, not %q", Visible(s.Format), Format)
	case s.Version != Version:
		return bad("format_version", "is %d; this program reads %d", s.Version, Version)
	case c.Width < 1 || c.Height < 1:
		return bad("clip", "is %d by %d pixels", c.Width, c.Height)
	case c.Bars != nil && (c.Bars.Above < 0 || c.Bars.Below < 0 || c.Bars.Above >= c.Height-c.Bars.Below):
		return bad("clip.bars", "leave no picture")
	case !c.FPS.Valid():
		return bad("clip.fps", "is no rate above zero such as 24000/1001")
	case c.SourceFPS != nil && !c.SourceFPS.Valid():
		return bad("clip.source_fps", "is no rate above zero such as 24000/1001")
	case c.Frames < 1 || c.Frames > maxFrame:
		return bad("clip.frames", "is %d", c.Frames)
	case c.FirstFrame < -maxFrame || c.FirstFrame > maxFrame:
		return bad("clip.first_frame", "is %d", c.FirstFrame)
	case c.Skipped < 0 || c.Skipped > maxFrame:
		return bad("clip.skipped_frames", "is %d", c.Skipped)
	case !(c.Seconds > 0):
		return bad("clip.seconds", "is %g", c.Seconds)
	case !sha256Text.MatchString(c.SHA256):
		return bad("clip.sha256", "is not 64 hexadecimal digits")
	case s.Repeats != nil && s.Repeats.Every < 2:
		return bad("repeats.every", "is %d", s.Repeats.Every)
	}
	return nil
}

// within reports a stretch that is no stretch of the one from first to last.
func within(list string, i, start, end, first, last int) error {
	switch {
	case end < start:
		return bad(at(list, i, "end"), "is %d, before the start %d", end, start)
	case start < first:
		return bad(at(list, i, "start"), "is %d, before %d", start, first)
	case end > last:
		return bad(at(list, i, "end"), "is %d, after %d", end, last)
	}
	return nil
}

// shotOf returns the shot with an id, or the error that there is none.
func (s *Sheet) shotOf(list string, i, id int) (Shot, error) {
	if id < 1 || id > len(s.Shots) {
		return Shot{}, bad(at(list, i, "shot"), "is %d; there are %d shots", id, len(s.Shots))
	}
	return s.Shots[id-1], nil
}

// inShot reports a stretch that leaves its shot, or a figure that is not there.
func (s *Sheet) inShot(list string, i, shot, figure, start, end int) error {
	in, err := s.shotOf(list, i, shot)
	if err != nil {
		return err
	}
	if figure < 0 || figure > len(s.Figures) {
		return bad(at(list, i, "figure"), "is %d; there are %d figures", figure, len(s.Figures))
	}
	return within(list, i, start, end, in.Start, in.End)
}

func numbered(list string, i, id int) error {
	if id != i+1 {
		return bad(at(list, i, "id"), "is %d, not %d", id, i+1)
	}
	return nil
}

// checkJoin wants a join of a known kind within the clip, and none of the first shot.
func (s *Sheet) checkJoin(i int, j *Join) error {
	switch {
	case j == nil:
		return nil
	case i == 0:
		return bad(at("shots", i, "join"), "leads to the first shot")
	case j.Kind != JoinDissolve && j.Kind != JoinFade:
		return bad(at("shots", i, "join.kind"), "is %q", Visible(j.Kind))
	}
	return within("shots", i, j.Start, j.End, s.Clip.FirstFrame, s.Clip.Last())
}

// checkShots wants shots that follow each other and cover the clip.
func (s *Sheet) checkShots() error {
	next := s.Clip.FirstFrame
	for i, shot := range s.Shots {
		if err := numbered("shots", i, shot.ID); err != nil {
			return err
		}
		if err := within("shots", i, shot.Start, shot.End, s.Clip.FirstFrame, s.Clip.Last()); err != nil {
			return err
		}
		if shot.Start != next {
			return bad(at("shots", i, "start"), "is %d, not %d", shot.Start, next)
		}
		next = shot.End + 1
		if !cameraKinds[shot.Camera.Kind] {
			return bad(at("shots", i, "camera.kind"), "is %q", Visible(shot.Camera.Kind))
		}
		if !(shot.Camera.Zoom > 0) {
			return bad(at("shots", i, "camera.zoom"), "is %g", shot.Camera.Zoom)
		}
		if err := s.checkJoin(i, shot.Join); err != nil {
			return err
		}
	}
	if next != s.Clip.Last()+1 {
		return bad("shots", "end at %d, the clip at %d", next-1, s.Clip.Last())
	}
	return nil
}

func (s *Sheet) checkFigures() error {
	for i, f := range s.Figures {
		if err := numbered("figures", i, f.ID); err != nil {
			return err
		}
		if err := s.inShot("figures", i, f.Shot, f.ID, f.Start, f.End); err != nil {
			return err
		}
		if !(f.Height > 0) {
			return bad(at("figures", i, "height_px"), "is %g", f.Height)
		}
		if err := s.checkUnknown(i, f); err != nil {
			return err
		}
		if err := cmp.Or(s.checkPassage(i, "enters", f, f.Enters), s.checkPassage(i, "leaves", f, f.Leaves)); err != nil {
			return err
		}
		if f.Method != "" && f.Method != ByHand && f.Method != ByPlate && f.Method != ByMotion {
			return bad(at("figures", i, "method"), "is %q", Visible(f.Method))
		}
	}
	return nil
}

func (s *Sheet) checkExposure() error {
	for i, e := range s.Exposure {
		if err := s.inShot("exposure", i, e.Shot, e.Figure, e.Start, e.End); err != nil {
			return err
		}
		if e.Pattern == "" {
			return bad(at("exposure", i, "pattern"), "is empty")
		}
		if !(e.FramesPerDrawing >= 1) {
			return bad(at("exposure", i, "frames_per_drawing"), "is %g", e.FramesPerDrawing)
		}
	}
	return nil
}

func (s *Sheet) checkNotes() error {
	for i, n := range s.Notes {
		if err := numbered("notes", i, n.ID); err != nil {
			return err
		}
		if err := within("notes", i, n.Start, n.End, s.Clip.FirstFrame, s.Clip.Last()); err != nil {
			return err
		}
		if !noteKind.MatchString(n.Kind) {
			return bad(at("notes", i, "kind"), "is %q", Visible(n.Kind))
		}
		if n.Weight != WeightLook && n.Weight != WeightFix {
			return bad(at("notes", i, "weight"), "is %q", Visible(n.Weight))
		}
	}
	return nil
}

func (s *Sheet) checkCurve() error {
	if n := len(s.Curve.Motion); n != s.Clip.Frames {
		return bad("curve.motion", "has %d values for %d frames", n, s.Clip.Frames)
	}
	if n := len(s.Curve.Camera); n != s.Clip.Frames {
		return bad("curve.camera", "has %d values for %d frames", n, s.Clip.Frames)
	}
	for i, v := range s.Curve.Motion {
		if v < 0 {
			return bad(at("curve.motion", i, ""), "is %g", v)
		}
	}
	return s.Curve.Bands.check(s.Clip.Frames)
}
