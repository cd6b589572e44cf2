// Package sheet is the beat sheet: the numbers measured in one clip, their
// writers (JSON, CSV, WebVTT, a readable table) and the reader of the JSON.
//
// Only numbers and words come in, never pictures or files. Frame numbers are
// those a reviewer reads: whole frames counted from Clip.FirstFrame, ranges
// with both ends. Pixels are pixels of the clip as displayed, x to the right
// and y down.
package sheet

// Format and Version name the JSON this package writes and reads.
const (
	Format  = "holdfast-beat-sheet"
	Version = 1
)

// A Sheet holds everything measured in one clip. Fill in what was measured,
// then call Complete, which derives the rest.
type Sheet struct {
	Format     string         `json:"format"`
	Version    int            `json:"format_version"`
	Tool       Tool           `json:"tool"`
	Clip       Clip           `json:"clip"`
	Settings   map[string]any `json:"settings"` // every threshold in force, so that the sheet can be made again
	Shots      []Shot         `json:"shots"`
	Figures    []Figure       `json:"figures"`
	Beats      []Beat         `json:"beats"`
	Exposure   []Exposure     `json:"exposure"`
	Timing     []Timing       `json:"timing"` // given by Review
	Pops       []Pop          `json:"pops"`
	Repeats    *Repeats       `json:"repeats,omitempty"` // nil unless the clip was conformed by repeating frames
	Contacts   []Contact      `json:"contacts"`
	Steps      []Step         `json:"steps"`
	Flights    []Flight       `json:"flights"`
	Impacts    []Impact       `json:"impacts"`
	FeetOut    []FeetOut      `json:"feet_out_of_frame"`
	Framing    []Framing      `json:"framing"`              // shot by shot, hold by hold
	Poses      []Pose         `json:"poses,omitempty"`      // hold by hold, where they are known
	Parts      []Part         `json:"parts,omitempty"`      // what was shown by hand and followed, shot by shot
	Twins      []Twin         `json:"twins,omitempty"`      // parts that do the same
	Reactions  []Reaction     `json:"reactions,omitempty"`  // of one figure to another, given by Review
	Together   []Together     `json:"together,omitempty"`   // moves of figures that set off on one frame, given by Review
	Lively     []Lively       `json:"lively,omitempty"`     // where a shot or figure turns lively or quiet
	Approaches []Approach     `json:"approaches,omitempty"` // of two figures, shot by shot
	Sound      *Sound         `json:"sound,omitempty"`      // nil where there is none
	Notes      []Note         `json:"notes"`
	Remarks    []Remark       `json:"remarks"` // a reviewer's own words
	Curve      Curve          `json:"curve"`
}

// A Tool is the program that measured.
type Tool struct {
	Name    string `json:"name"`
	Version string `json:"version"`
}

// A Clip says what was measured.
type Clip struct {
	Name       string  `json:"name"` // base name of the file or the sequence pattern, never a folder
	Width      int     `json:"width"`
	Height     int     `json:"height"` // pixels as displayed, rotation and pixel aspect applied
	FPS        Rate    `json:"fps"`    // the rate the frame numbers count in
	Frames     int     `json:"frames"` // frames measured
	Seconds    float64 `json:"seconds"`
	Bars       *Bars   `json:"bars,omitempty"` // nil: the picture fills its frame
	FirstFrame int     `json:"first_frame"`    // number of the first frame measured
	SHA256     string  `json:"sha256"`         // 64 lower-case hexadecimal digits

	// Skipped is how many frames of the clip come before FirstFrame because
	// the measuring started later: timecode and cue times count them.
	Skipped      int      `json:"skipped_frames,omitempty"`
	SourceFPS    *Rate    `json:"source_fps,omitempty"` // rate the file was made at, when frames were conformed to another
	VariableRate bool     `json:"variable_rate"`        // frames of the file came at uneven times
	Warnings     []string `json:"warnings"`             // what the reader should know about the clip
}

// Bars are the black rows of a frame above and below its picture.
type Bars struct {
	Above int `json:"above"`
	Below int `json:"below"`
}

// Shown returns the first row of the picture and how many rows it has.
func (c Clip) Shown() (top, rows float64) {
	if c.Bars == nil {
		return 0, float64(c.Height)
	}
	return float64(c.Bars.Above), float64(c.Height - c.Bars.Above - c.Bars.Below)
}

// Last returns the number of the last frame measured.
func (c Clip) Last() int { return c.FirstFrame + c.Frames - 1 }

// index returns the place of a frame in the whole clip, from 0.
func (c Clip) index(frame int) int64 { return int64(frame) - int64(c.FirstFrame) + int64(c.Skipped) }

// Timecode returns the time label of a frame; the clip's own first frame has
// 00:00:00:00.
func (c Clip) Timecode(frame int) string { return c.FPS.Timecode(c.index(frame)) }

// A Curve holds one value a frame.
type Curve struct {
	// Motion is the change from the frame before in figure heights, camera
	// taken out; 0 at a shot's first frame.
	Motion []float64 `json:"motion"`
	// Camera is the camera's travel from the frame before: dx and dy in
	// pixels, roll in degrees, zoom factor.
	Camera [][4]float64 `json:"camera"`
	// Bands are the curves of the figure's bands; empty where they were not measured.
	Bands Bands `json:"bands,omitzero"`
}
