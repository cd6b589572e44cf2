package solid

import (
	"fmt"
	"io"
	"io/fs"
	"strings"
	"sync"

	"holdfast/motion/scene/capture"
)

// loops is how often motions that loop are played: three cycles make some
// seconds.
const loops = 4

// Open returns the library of the recordings in a folder: NAME.bvh, NAME.trc
// with contacts.csv, deepmimic/humanoid3d_NAME.txt. Each is read once.
func Open(folder fs.FS) Library {
	var mu sync.Mutex
	known := map[string]*capture.Recording{}
	return func(name string) (*capture.Recording, error) {
		mu.Lock()
		defer mu.Unlock()
		if known[name] == nil {
			r, err := read(folder, name)
			if err != nil {
				return nil, fmt.Errorf("recording %q: %w", name, err)
			}
			known[name] = r
		}
		return known[name], nil
	}
}

func read(folder fs.FS, name string) (*capture.Recording, error) {
	for _, way := range []struct {
		path string
		body func(io.Reader) (*capture.Recording, error)
	}{
		{name + ".bvh", readBVH},
		{name + ".trc", func(r io.Reader) (*capture.Recording, error) { return readTRC(folder, name, r) }},
		{"deepmimic/humanoid3d_" + name + ".txt", readRotations},
	} {
		f, err := folder.Open(way.path)
		if err != nil {
			continue
		}
		defer f.Close()
		return way.body(f)
	}
	return nil, fs.ErrNotExist
}

func readBVH(r io.Reader) (*capture.Recording, error) {
	h, err := capture.ReadBVH(r)
	if err != nil {
		return nil, err
	}
	return h.Body(1)
}

func readRotations(r io.Reader) (*capture.Recording, error) {
	m, err := capture.ReadRotations(r)
	if err != nil {
		return nil, err
	}
	if m.Loop {
		return m.Body(loops)
	}
	return m.Body(1)
}

// readTRC reads markers with what plates say of the walk: name.trc without its
// ending is the recording's name in the table.
func readTRC(folder fs.FS, name string, r io.Reader) (*capture.Recording, error) {
	m, err := capture.ReadTRC(r)
	if err != nil {
		return nil, err
	}
	f, err := folder.Open("contacts.csv")
	if err != nil {
		return nil, err
	}
	defer f.Close()
	plates, err := capture.ReadPlates(f)
	if err != nil {
		return nil, err
	}
	stands, ok := plates[strings.TrimSuffix(name, ".trc")]
	if !ok {
		return nil, fmt.Errorf("no plates")
	}
	return m.Body(stands)
}
