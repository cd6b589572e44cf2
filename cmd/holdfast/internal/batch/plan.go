package batch

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"holdfast/cmd/holdfast/internal/whole"
)

// Names below the folder of a batch.
const (
	planFile      = "batch.json"
	failureFolder = "failures"
	shareFolder   = "shares"
	// gatheredFolder is where gathered shares are while they are removed.
	gatheredFolder = ".shares-gathered"
	OverviewPage   = "overview.html"
	OverviewTable  = "overview.csv"
)

// Format and Version name the JSON of a plan.
const (
	format        = "holdfast-batch"
	formatVersion = 1
)

// A Plan says what a batch is: which clips, and how each is measured.
type Plan struct {
	Format  string   `json:"format"`
	Version int      `json:"format_version"`
	Tool    string   `json:"tool"`    // the program with its version
	Options []string `json:"options"` // of the sheet command, for each clip
	Stamp   string   `json:"stamp"`   // of all that decides about results beside the clip
	Clips   []Clip   `json:"clips"`
}

// NewPlan is the plan to measure clips with options of the sheet command. What else
// decides about results goes into the stamp: the program's own checksum, the
// content of files that options name.
func NewPlan(tool string, clips []Clip, options, decides []string) *Plan {
	return &Plan{
		Format: format, Version: formatVersion, Tool: tool, Clips: clips,
		Options: append([]string{}, options...), Stamp: long(append(append([]string{}, options...), decides...)...),
	}
}

// bytes is the plan as it is written.
func (p *Plan) bytes() []byte {
	b, err := json.MarshalIndent(p, "", "  ")
	if err != nil {
		panic(err) // text and lists of text have no value that JSON has not
	}
	return append(b, '\n')
}

// write puts the plan into the folder of the batch.
func (p *Plan) write(folder string) error {
	return whole.WriteFile(filepath.Join(folder, planFile), p.bytes())
}

// readPlan reads that of a folder; nil where there is none.
func readPlan(folder string) (*Plan, error) {
	path := filepath.Join(folder, planFile)
	text, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	p := &Plan{}
	if err := json.Unmarshal(text, p); err != nil {
		return nil, fmt.Errorf("%s is no plan of a batch: %w", path, err)
	}
	if p.Format != format || p.Version != formatVersion {
		return nil, fmt.Errorf("%s is no plan of a batch that this program knows", path)
	}
	for _, c := range p.Clips {
		if whole.Stem(c.Name+".") != c.Name {
			return nil, fmt.Errorf("%s names a folder that no batch makes: %q", path, c.Name)
		}
	}
	return p, nil
}

func (p *Plan) equal(o *Plan) bool { return bytes.Equal(p.bytes(), o.bytes()) }

// work are the clips to be measured: those that are not the same as another.
func (p *Plan) work() (list []Clip) {
	for _, c := range p.Clips {
		if c.Same == "" {
			list = append(list, c)
		}
	}
	return list
}

// long is the checksum of some texts, whole; short its first digits, to tell names
// apart.
func long(parts ...string) string {
	h := sha256.New()
	for _, p := range parts {
		fmt.Fprintf(h, "%d:%s", len(p), p)
	}
	return hex.EncodeToString(h.Sum(nil))
}

func short(text string) string { return long(text)[:8] }
