package batch

import (
	"os"
	"path/filepath"
	"slices"
	"time"
)

const (
	// stillWaits is after how many of its own longest waits between two pictures a
	// sequence is taken for finished: pictures of one shot take about as long each,
	// rarely more than twice (common practice, no source).
	stillWaits = 3
	// longestRest bounds that: a folder may also hold pictures of another day.
	longestRest = 10 * time.Minute
)

// Rested reports whether a clip has been left alone for long enough to be taken for
// finished, as far as the times of its files tell; now is the time to go by. A video
// file always has. A sequence that is being rendered gets a picture every few
// seconds or minutes: it goes by the waits between those that are there.
func Rested(path string, now time.Time) bool {
	if _, err := os.Stat(path); err == nil {
		return true
	}
	times := pictureTimes(filepath.Dir(path), filepath.Ext(path))
	if len(times) == 0 {
		return true // the clip's own line will say what is wrong
	}
	var longest time.Duration
	for i := 1; i < len(times); i++ {
		longest = max(longest, times[i].Sub(times[i-1]))
	}
	return now.Sub(times[len(times)-1]) >= min(stillWaits*longest, longestRest)
}

// pictureTimes are the times of the files in a folder that end alike, in order.
func pictureTimes(folder, suffix string) (times []time.Time) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil
	}
	for _, e := range entries {
		if filepath.Ext(e.Name()) != suffix {
			continue
		}
		if info, err := e.Info(); err == nil {
			times = append(times, info.ModTime())
		}
	}
	slices.SortFunc(times, time.Time.Compare)
	return times
}
