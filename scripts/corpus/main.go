//go:build linux

// Command corpus runs holdfast on every file of a corpus of awkward and
// hostile clips and holds what it does to the corpus's manifest. It watches
// the port and the files that hostile lists point to.
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"golang.org/x/sys/unix"
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "corpus:", err)
		os.Exit(1)
	}
}

// options are what the command line says.
type options struct {
	program, generator, made, only, port string
	clips                                string
	limit                                time.Duration
	memory                               int64
	mutate                               time.Duration
	seed                                 uint64
}

func parse() (options, error) {
	var o options
	flag.StringVar(&o.program, "program", "bin/holdfast", "the `program` to try")
	flag.StringVar(&o.generator, "generator", "../shared/hostile/gen.sh", "the `script` that makes the corpus")
	flag.StringVar(&o.made, "made", "", "a corpus made before, in `DIR`")
	flag.StringVar(&o.only, "only", "", "only inputs whose path holds `TEXT`")
	flag.StringVar(&o.port, "port", "18765", "the loopback `port` that the lists point to")
	flag.DurationVar(&o.limit, "limit", 10*time.Minute, "how long one input may take")
	flag.Int64Var(&o.memory, "memory", 400, "the largest process an input may cause, in `MB`")
	flag.DurationVar(&o.mutate, "mutate", 0, "damage the clips named after the options for so long instead; without names, excerpts of --clips")
	flag.StringVar(&o.clips, "clips", "../shared/clips", "the `folder` of real clips that excerpts are made of")
	flag.Uint64Var(&o.seed, "seed", 1, "begin the damage of --mutate from this number")
	flag.Parse()
	var err error
	if o.program, err = filepath.Abs(o.program); err != nil {
		return o, err
	}
	if o.made != "" {
		o.made, err = filepath.Abs(o.made)
	}
	return o, err
}

var errWrong = errors.New("not every input got what the manifest says")

func run() error {
	o, err := parse()
	if err != nil {
		return err
	}
	scratch, err := os.MkdirTemp("", "corpus-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(scratch)
	// Processes that holdfast leaves behind become ours, and are seen.
	if err := unix.Prctl(unix.PR_SET_CHILD_SUBREAPER, 1, 0, 0, 0); err != nil {
		return err
	}
	if o.mutate > 0 {
		return mutateAll(o, scratch)
	}
	if o.made == "" {
		if _, err := os.Stat(o.generator); err != nil {
			fmt.Printf("skipped: there is no generator of hostile clips at %s\n", o.generator)
			return nil
		}
		o.made = filepath.Join(scratch, "corpus")
		if out, err := exec.Command("bash", o.generator, o.made).CombinedOutput(); err != nil {
			return fmt.Errorf("make the corpus: %w\n%s", err, out)
		}
	}
	inputs, err := readManifest(o.made)
	if err != nil {
		return err
	}
	watch, err := newWatch(o)
	if err != nil {
		return err
	}
	defer watch.close()
	return tryAll(o, inputs, watch, filepath.Join(scratch, "at"))
}

// mutateAll damages the clips that were named, or excerpts of real ones.
func mutateAll(o options, scratch string) error {
	clips, err := flag.Args(), error(nil)
	if len(clips) == 0 {
		if clips, err = makeExcerpts(o.clips, scratch); errors.Is(err, errNoClips) {
			fmt.Printf("skipped: there are no real clips in %s\n", o.clips)
			return nil
		}
		if err != nil {
			return err
		}
	}
	return tryMutants(o, clips, scratch)
}

// tryAll tries one input after the other and counts.
func tryAll(o options, inputs []input, watch *watch, place string) error {
	started, right, tried := time.Now(), 0, 0
	var longest time.Duration
	var largest int64
	for _, in := range inputs {
		if !strings.Contains(in.name, o.only) {
			continue
		}
		tried++
		got, err := try(o, in, place)
		if err != nil {
			return err
		}
		faults := append(judge(in, got, o), watch.seen(in)...)
		if len(faults) == 0 {
			right++
		}
		for _, f := range faults {
			fmt.Printf("%s (%s): %s\n", in.name, in.expect, f)
		}
		longest, largest = max(longest, got.took), max(largest, got.memory)
	}
	fmt.Printf("%d of %d inputs right, %d connections, %d forbidden files opened; %v, the longest %v; the largest process %d MB\n",
		right, tried, watch.connections, watch.opened, time.Since(started).Round(time.Second), longest.Round(time.Second/10), largest)
	if right < tried {
		return errWrong
	}
	return nil
}
