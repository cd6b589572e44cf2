package extract

import (
	"fmt"
	"os"
)

// ToolStamp returns words that change when ffmpeg or ffprobe does: their places,
// sizes and times of change. Nothing is started for it. Its error is a
// *ToolError.
func ToolStamp() (string, error) {
	stamp := ""
	for _, name := range []string{"ffmpeg", "ffprobe"} {
		path, err := lookPath(name)
		if err != nil {
			return "", err
		}
		info, err := os.Stat(path)
		if err != nil {
			return "", &ToolError{Tool: name, What: "was not found", Err: err}
		}
		stamp += fmt.Sprintf("%s %d %d\n", path, info.Size(), info.ModTime().UnixNano())
	}
	return stamp, nil
}
