// Command holdfast measures a filmed reference or a preview render and writes
// its beat sheet: the frame numbers of shots, holds, moves and their peaks.
package main

import (
	"context"
	"io"
	"os"

	"holdfast/cmd/holdfast/internal/heap"
)

// version names the program in sheets and in what `holdfast version` prints.
const version = "0.1.0"

func main() {
	heap.Tighten()
	os.Exit(run(os.Args, os.Stdout, os.Stderr))
}

// run does what args ask for and returns the exit code. Results go to stdout,
// everything else to stderr.
func run(args []string, stdout, stderr io.Writer) int {
	ctx, stop := untilSignal(context.Background())
	defer stop()
	app := newApp(stdout, stderr)
	err := app.RunContext(ctx, optionsFirst(app, args))
	return finish(ctx, inOurWords(err), stderr)
}
