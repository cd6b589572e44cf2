package sheet

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// maxBytes bounds a sheet that is read back: half an hour at 120 frames per
// second writes about 10 MB.
const maxBytes = 256 << 20

// Read reads a sheet as WriteJSON writes it. Members it does not know are
// passed over, as later versions may add some. Errors about the content are
// *FieldError.
func Read(r io.Reader) (*Sheet, error) {
	limited := &io.LimitedReader{R: r, N: maxBytes + 1}
	d := json.NewDecoder(limited)
	var s Sheet
	if err := d.Decode(&s); err != nil {
		if limited.N <= 0 {
			return nil, &FieldError{"file", fmt.Sprintf("is larger than %d MB", maxBytes>>20)}
		}
		return nil, decodeError(err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return nil, &FieldError{"file", "goes on after the sheet"}
	}
	if err := s.checkPresent(); err != nil {
		return nil, err
	}
	if err := s.Check(); err != nil {
		return nil, err
	}
	s.Complete()
	return &s, nil
}

// checkPresent reports a list or object that a sheet must have and this one
// lacks.
func (s *Sheet) checkPresent() error {
	for _, m := range []struct {
		path string
		lack bool
	}{
		{"settings", s.Settings == nil}, {"shots", s.Shots == nil}, {"figures", s.Figures == nil},
		{"beats", s.Beats == nil}, {"contacts", s.Contacts == nil}, {"flights", s.Flights == nil},
		{"impacts", s.Impacts == nil}, {"notes", s.Notes == nil},
		{"curve.motion", s.Curve.Motion == nil}, {"curve.camera", s.Curve.Camera == nil},
	} {
		if m.lack {
			return bad(m.path, "is missing")
		}
	}
	return nil
}

// decodeError puts a decoder's complaint into the words of a FieldError where
// the decoder knows the member.
func decodeError(err error) error {
	var wrongType *json.UnmarshalTypeError
	if errors.As(err, &wrongType) {
		path := wrongType.Field
		if path == "" {
			path = "file"
		}
		return &FieldError{path, fmt.Sprintf("is a %s", wrongType.Value)}
	}
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return &FieldError{"file", "ends too early"}
	}
	return &FieldError{"file", fmt.Sprintf("is no beat sheet: %s", Visible(err.Error()))}
}
