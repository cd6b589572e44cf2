package main

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"github.com/urfave/cli/v2"

	"holdfast/extract"
)

// limitOptions are the options that move a limit, by the field of
// extract.Limits.
var limitOptions = map[string]string{
	"Bytes": "--max-size", "Pixels": "--max-pixels", "Frames": "--max-frames",
	"Duration": "--max-duration", "WallClock": "--max-time",
}

// limitFlags are for every command that reads clips. Zero, in all of them,
// is the default; none is switched off but by a number large enough.
func limitFlags() []cli.Flag {
	normal := extract.DefaultLimits()
	whole := func(n int64) string { return strconv.FormatInt(n, 10) }
	hours := func(d time.Duration) string { return fmt.Sprintf("%gh", d.Hours()) }
	return []cli.Flag{
		&cli.Int64Flag{Name: "max-size", DefaultText: whole(normal.Bytes / megabyte), Usage: "refuse a file of more than `MB` megabytes"},
		&cli.Int64Flag{Name: "max-pixels", DefaultText: whole(normal.Pixels), Usage: "refuse pictures of more than `N` pixels"},
		&cli.Int64Flag{Name: "max-frames", DefaultText: whole(normal.Frames), Usage: "refuse a clip of more than `N` frames"},
		&cli.DurationFlag{Name: "max-duration", DefaultText: hours(normal.Duration), Usage: "refuse a clip longer than `TIME`, such as 90m or 3h"},
		&cli.DurationFlag{Name: "max-time", DefaultText: hours(normal.WallClock), Usage: "give up on a clip after `TIME`, such as 30s or 10m"},
	}
}

// megabyte is the unit of --max-size, in bytes.
const megabyte = 1_000_000

// readLimits reads the options of limitFlags.
func readLimits(c *cli.Context) (extract.Limits, error) {
	for _, name := range []string{"max-size", "max-pixels", "max-frames"} {
		if n := c.Int64(name); c.IsSet(name) && (n < 1 || n > math.MaxInt64/megabyte) {
			return extract.Limits{}, usage(fmt.Sprintf("--%s %d is out of range", name, n), "write a whole number, 1 or more")
		}
	}
	for _, name := range []string{"max-duration", "max-time"} {
		if c.IsSet(name) && c.Duration(name) < time.Millisecond {
			return extract.Limits{}, usage(fmt.Sprintf("--%s %v is out of range", name, c.Duration(name)), "write a time, such as 30s, 10m or 3h")
		}
	}
	return extract.Limits{
		Bytes: c.Int64("max-size") * megabyte, Pixels: c.Int64("max-pixels"), Frames: c.Int64("max-frames"),
		Duration: c.Duration("max-duration"), WallClock: c.Duration("max-time"),
	}, nil
}

// limitHint names the option that moves a limit beside what else helps.
func limitHint(e *extract.LimitError) string {
	option, ok := limitOptions[e.Limit]
	if !ok {
		return e.Hint()
	}
	return e.Hint() + "; " + option + " moves the limit"
}
