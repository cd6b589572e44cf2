package assemble

// A FigureBoxes is where a figure is in the picture, frame by frame.
type FigureBoxes struct {
	Figure int          // its id in the sheet
	Start  int          // frame of Boxes[0]
	Boxes  [][4]float64 // left, top, width and height in displayed pixels; no width where it was not seen
}

// Boxes returns where each figure is. The sheet holds no boxes: they are for
// pictures of it.
func (m *Measured) Boxes() []FigureBoxes {
	var list []FigureBoxes
	for _, f := range m.result.Figures {
		start := m.number(f.Start)
		list = append(list, FigureBoxes{f.ID, start, m.boxes(f, start, start+len(f.Boxes)-1)})
	}
	return list
}
