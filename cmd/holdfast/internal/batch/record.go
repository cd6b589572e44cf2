package batch

import (
	"context"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/extract"
	"holdfast/sheet"
)

const (
	// RecordFlag is the option by which a batch has a file put among the results of
	// a clip that says how they were made. It comes to its place with them, so that
	// no instant has the one without the other.
	RecordFlag = "batch-record"
	// RecordSuffix and PosterSuffix end the names of that file and of the picture
	// that shows the clip at a glance.
	RecordSuffix = ".record"
	PosterSuffix = ".poster.jpg"
)

// A Failure says why a clip has no results.
type Failure struct {
	Path   string `json:"path"`
	Stamp  string `json:"stamp"`
	SHA256 string `json:"sha256,omitempty"` // of the clip; empty where it cannot be read
	Exit   int    `json:"exit"`             // of the sheet command; -1: a signal ended it
	Error  string `json:"error"`
	Hint   string `json:"hint,omitempty"`
}

// lasting reports whether the clip itself is at fault, so that it is of no use to
// try it again: exit codes 3 and 5 of the sheet command. The machine may do better
// next time.
func (f *Failure) lasting() bool { return f.Exit == 3 || f.Exit == 5 }

// done reports whether the results of a clip, or its lasting failure, are in the
// folder and belong to what the clip holds now.
func (p *Plan) done(ctx context.Context, folder string, c Clip) (failed *Failure, ok bool) {
	sum, err := extract.SHA256(ctx, c.Path)
	if err != nil {
		sum = ""
	}
	record, err := os.ReadFile(filepath.Join(folder, c.Name, c.Name+RecordSuffix))
	if err == nil && strings.TrimSpace(string(record)) == p.Stamp {
		s, err := ReadSheet(folder, c.Name)
		if err == nil && s.Clip.SHA256 == sum {
			return nil, true
		}
	}
	f, err := readFailure(folder, c.Name)
	if err == nil && f.Path == c.Path && f.Stamp == p.Stamp && f.SHA256 == sum && f.lasting() {
		return f, true
	}
	return nil, false
}

// ReadSheet reads the sheet of a clip of a batch.
func ReadSheet(folder, name string) (*sheet.Sheet, error) {
	f, err := os.Open(filepath.Join(folder, name, name+".json"))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return sheet.Read(f)
}

func readFailure(folder, name string) (*Failure, error) {
	text, err := os.ReadFile(filepath.Join(folder, failureFolder, name+".json"))
	if err != nil {
		return nil, err
	}
	f := &Failure{}
	return f, json.Unmarshal(text, f)
}

// write keeps a failure.
func (f *Failure) write(folder, name string) error {
	text, err := json.MarshalIndent(f, "", "  ")
	if err != nil {
		return err
	}
	return whole.WriteFile(filepath.Join(folder, failureFolder, name+".json"), append(text, '\n'))
}

// forgetFailure removes the failure of a clip that has results now.
func forgetFailure(folder, name string) error {
	err := os.Remove(filepath.Join(folder, failureFolder, name+".json"))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	os.Remove(filepath.Join(folder, failureFolder)) // stays while others are in it
	return err
}
