package extract

import (
	"cmp"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"sync"
)

// version is a release of ffmpeg.
type version struct{ Major, Minor int }

func (v version) String() string { return fmt.Sprintf("%d.%d", v.Major, v.Minor) }

func (v version) before(w version) bool {
	return v.Major < w.Major || v.Major == w.Major && v.Minor < w.Minor
}

// oldestVersion is the first release with -fps_mode, which hands out the
// frames that exist and no others.
var oldestVersion = version{5, 1}

// tools are the absolute paths of the programs.
type tools struct{ ffmpeg, ffprobe string }

// CheckTools finds ffmpeg and ffprobe in PATH and checks the version. Its
// error is a *ToolError.
func CheckTools(ctx context.Context) error {
	_, err := findTools(ctx)
	return err
}

func findTools(ctx context.Context) (tools, error) {
	ffmpeg, err := lookPath("ffmpeg")
	if err != nil {
		return tools{}, err
	}
	ffprobe, err := lookPath("ffprobe")
	if err != nil {
		return tools{}, err
	}
	// Each takes a while to start, so both do at once; of two errors the first is
	// the one told.
	other := make(chan error, 1)
	go func() { other <- checkVersion(ctx, ffprobe) }()
	first, second := checkVersion(ctx, ffmpeg), <-other
	if err := cmp.Or(first, second); err != nil {
		return tools{}, err
	}
	return tools{ffmpeg, ffprobe}, nil
}

// lookPath searches the absolute folders of PATH only: an entry such as "."
// would run whatever lies beside the clip.
func lookPath(name string) (string, error) {
	for _, dir := range filepath.SplitList(os.Getenv("PATH")) {
		if !filepath.IsAbs(dir) {
			continue
		}
		path := filepath.Join(dir, name)
		if info, err := os.Stat(path); err == nil && info.Mode().IsRegular() && info.Mode()&0o111 != 0 {
			return path, nil
		}
	}
	return "", &ToolError{Tool: name, What: "was not found"}
}

// checked remembers programs that passed, by path, size and time of change,
// so that a batch asks each only once.
var checked sync.Map

func checkVersion(ctx context.Context, path string) error {
	tool := filepath.Base(path)
	info, err := os.Stat(path)
	if err != nil {
		return &ToolError{Tool: tool, What: "was not found", Err: err}
	}
	key := fmt.Sprint(path, info.Size(), info.ModTime().UnixNano())
	if _, ok := checked.Load(key); ok {
		return nil
	}
	out, _, err := output(ctx, path, "-version")
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	if err != nil {
		return &ToolError{Tool: tool, What: "does not run", Err: err}
	}
	if err := judgeVersion(tool, out); err != nil {
		return err
	}
	checked.Store(key, true)
	return nil
}

var versionLine = regexp.MustCompile(`^(ffmpeg|ffprobe) version (\S+)`)
var releaseNumber = regexp.MustCompile(`^n?(\d{1,4})\.(\d{1,4})`)

// judgeVersion reads the first line of "ffmpeg -version". Builds from a
// source tree carry no release number ("N-109000-g...", a date) and pass.
func judgeVersion(tool string, out []byte) error {
	line := versionLine.FindSubmatch(out)
	if line == nil || string(line[1]) != tool {
		return &ToolError{Tool: tool, What: "in PATH is some other program"}
	}
	number := releaseNumber.FindSubmatch(line[2])
	if number == nil {
		return nil
	}
	major, _ := strconv.Atoi(string(number[1]))
	minor, _ := strconv.Atoi(string(number[2]))
	if v := (version{major, minor}); v.before(oldestVersion) {
		return &ToolError{Tool: tool, What: fmt.Sprintf("is too old: version %s, need %s", v, oldestVersion)}
	}
	return nil
}
