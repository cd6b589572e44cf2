package capture

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
)

// A Markers is a TRC file: where markers on a body are, by frame and name, in
// metres. A marker that was not seen is left out of its frame.
type Markers struct {
	Rate   float64 // frames a second
	Names  []string
	Frames []map[string]Vec
}

// maxLine bounds a line of a TRC file; 28 markers make a thousand bytes.
const maxLine = 1 << 20

// ReadTRC reads a TRC file, the tab-separated text of Motion Analysis's
// software: two lines of header names and values, one of marker names, one of
// axes, then one a frame.
func ReadTRC(r io.Reader) (*Markers, error) {
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, maxLine)
	m, scale, err := trcHeader(lines)
	if err != nil {
		return nil, fmt.Errorf("trc: %w", err)
	}
	for lines.Scan() {
		if strings.TrimSpace(lines.Text()) == "" {
			continue
		}
		f, err := m.frame(lines.Text(), scale)
		if err != nil {
			return nil, fmt.Errorf("trc: frame %d: %w", len(m.Frames), err)
		}
		m.Frames = append(m.Frames, f)
	}
	if err := lines.Err(); err != nil {
		return nil, fmt.Errorf("trc: %w", err)
	}
	if len(m.Frames) == 0 {
		return nil, errors.New("trc: no frames")
	}
	return m, nil
}

// trcHeader reads all lines before the frames and returns what makes metres of
// the file's lengths.
func trcHeader(lines *bufio.Scanner) (*Markers, float64, error) {
	var head [5]string
	for i := range head {
		if !lines.Scan() {
			return nil, 0, errors.New("no whole header")
		}
		head[i] = strings.TrimRight(lines.Text(), "\r")
	}
	if !strings.HasPrefix(head[0], "PathFileType") {
		return nil, 0, errors.New("no TRC file")
	}
	values := map[string]string{}
	names, given := strings.Fields(head[1]), strings.Fields(head[2])
	for i := range min(len(names), len(given)) {
		values[names[i]] = given[i]
	}
	rate, err := number(values["DataRate"])
	if err != nil || rate <= 0 {
		return nil, 0, fmt.Errorf("data rate %q", values["DataRate"])
	}
	scale, ok := map[string]float64{"mm": 0.001, "cm": 0.01, "m": 1}[values["Units"]]
	if !ok {
		return nil, 0, fmt.Errorf("units %q", values["Units"])
	}
	m := &Markers{Rate: rate}
	for i, name := range strings.Split(head[3], "\t") {
		// Frame number, time, then each name with two empty columns after it.
		if i >= 2 && strings.TrimSpace(name) != "" {
			m.Names = append(m.Names, strings.TrimSpace(name))
		}
	}
	if len(m.Names) == 0 {
		return nil, 0, errors.New("no markers")
	}
	return m, scale, nil
}

func (m *Markers) frame(line string, scale float64) (map[string]Vec, error) {
	cells := strings.Split(strings.TrimRight(line, "\r\n"), "\t")
	f := map[string]Vec{}
	for i, name := range m.Names {
		var xyz [3]float64
		seen := true
		for k := range xyz {
			at := 2 + 3*i + k
			if at >= len(cells) {
				return nil, fmt.Errorf("%d columns", len(cells))
			}
			cell := strings.TrimSpace(cells[at])
			if cell == "" {
				seen = false
				continue
			}
			var err error
			if xyz[k], err = number(cell); err != nil {
				return nil, fmt.Errorf("marker %s: %w", name, err)
			}
		}
		if seen {
			f[name] = Vec{xyz[0], xyz[1], xyz[2]}.Times(scale)
		}
	}
	return f, nil
}
