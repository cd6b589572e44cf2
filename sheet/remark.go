package sheet

// A Remark is a reviewer's own words about a stretch of the clip. They stand
// beside the measured notes and rest on nothing but the reviewer's eye.
type Remark struct {
	Start int    `json:"start"`
	End   int    `json:"end"`
	Text  string `json:"text"`
}

// AddRemarks puts remarks beside those that are there, in the order of their
// frames. One whose frames the clip does not have is a *RemarkError, and none is
// added.
func (s *Sheet) AddRemarks(list []PlacedRemark) error {
	var remarks []Remark
	for _, p := range list {
		r, err := p.place(s.Clip)
		if err != nil {
			return err
		}
		remarks = append(remarks, r)
	}
	s.Remarks = append(s.Remarks, remarks...)
	s.Complete()
	return nil
}

func (s *Sheet) checkRemarks() error {
	for i, r := range s.Remarks {
		if err := within("remarks", i, r.Start, r.End, s.Clip.FirstFrame, s.Clip.Last()); err != nil {
			return err
		}
		if r.Text == "" {
			return bad(at("remarks", i, "text"), "is empty")
		}
	}
	return nil
}
