package main

import (
	"context"
	"errors"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"holdfast/extract"
	"holdfast/motion/scene"
)

func TestMain(m *testing.M) {
	if os.Getenv(cacheVariable) == "" {
		os.Setenv(cacheVariable, os.DevNull) // no folder can be there: nothing is kept
	}
	testscript.Main(m, map[string]func(){"holdfast": main})
}

// TestScripts runs the scripts in testdata with the real program and the real
// ffmpeg.
func TestScripts(t *testing.T) {
	if _, err := exec.LookPath("ffmpeg"); err != nil {
		t.Skip("ffmpeg is not installed")
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata",
		RequireExplicitExec: true,
		Setup: func(env *testscript.Env) error {
			path, err := exec.LookPath("holdfast")
			if err != nil {
				return err
			}
			env.Setenv("BIN", filepath.Dir(path))
			schema, err := filepath.Abs("../../testdata/beat-sheet.schema.json")
			env.Setenv("SCHEMA", schema)
			return err
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"draws":       draws,
			"exits":       exits,
			"twolines":    twoLineErrors,
			"interrupted": interrupted,
			"killed":      killed,
			"truncate":    truncate,
			"entries":     onlyEntries,
			"obeys":       obeysSchema,
			"spoil":       spoil,
		},
	})
}

// draws SCENE FILE: a scene of the catalogue becomes a clip.
func draws(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: draws SCENE FILE")
	}
	scenes, err := scene.Catalogue(image.Pt(640, 360))
	ts.Check(err)
	i := slices.IndexFunc(scenes, func(sc *scene.Scene) bool { return sc.Name == args[0] })
	if i < 0 {
		ts.Fatalf("no scene is called %q", args[0])
	}
	sc := scenes[i]
	ts.Check(extract.WriteVideo(context.Background(), ts.MkAbs(args[1]), extract.VideoOptions{
		Width: sc.Width, Height: sc.Height, Rate: extract.Rate(sc.Rate),
	}, drawAll(sc, &progress{})))
}

// exits CODE COMMAND...: the command ends with this code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND...")
	}
	code := 0
	var exit *exec.ExitError
	if err := ts.Exec(args[1], args[2:]...); errors.As(err, &exit) {
		code = exit.ExitCode()
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if strconv.Itoa(code) != args[0] {
		ts.Fatalf("exit %d, want %s; said %s", code, args[0], ts.ReadFile("stderr"))
	}
}

// twolines: the last command printed nothing and said one error line and one
// hint.
func twoLineErrors(ts *testscript.TestScript, neg bool, args []string) {
	if out := ts.ReadFile("stdout"); out != "" {
		ts.Fatalf("printed %q", out)
	}
	if said := ts.ReadFile("stderr"); twoLines(said) == neg {
		ts.Fatalf("said %q", said)
	}
}

// truncate FILE SHARE: cuts a file to a share of its length, 0 to 1.
func truncate(ts *testscript.TestScript, neg bool, args []string) {
	path := ts.MkAbs(args[0])
	info, err := os.Stat(path)
	ts.Check(err)
	share, err := strconv.ParseFloat(args[1], 64)
	ts.Check(err)
	ts.Check(os.Truncate(path, int64(share*float64(info.Size()))))
}

// entries DIR NAME...: the folder holds these and nothing else.
func onlyEntries(ts *testscript.TestScript, neg bool, args []string) {
	found, err := os.ReadDir(ts.MkAbs(args[0]))
	ts.Check(err)
	var names []string
	for _, e := range found {
		names = append(names, e.Name())
	}
	want := slices.Sorted(slices.Values(args[1:]))
	if slices.Equal(names, want) == neg {
		ts.Fatalf("%s holds %q", args[0], names)
	}
}

// obeys FILE...: each is a beat sheet as the schema has it.
func obeysSchema(ts *testscript.TestScript, neg bool, args []string) {
	schema, err := jsonschema.NewCompiler().Compile(ts.Getenv("SCHEMA"))
	ts.Check(err)
	for _, arg := range args {
		value, err := jsonschema.UnmarshalJSON(strings.NewReader(ts.ReadFile(arg)))
		ts.Check(err)
		if err := schema.Validate(value); (err == nil) == neg {
			ts.Fatalf("%s: %v", arg, err)
		}
	}
}

// interrupted SIGNAL CODE COMMAND...: the command gets the signal once its
// child runs, ends with the code, and leaves no child.
func interrupted(ts *testscript.TestScript, neg bool, args []string) {
	signals := map[string]syscall.Signal{"INT": syscall.SIGINT, "TERM": syscall.SIGTERM, "HUP": syscall.SIGHUP}
	cmd := exec.Command(args[2], args[3:]...)
	cmd.Dir = ts.MkAbs(".")
	out, said := new(strings.Builder), new(strings.Builder)
	cmd.Stdout, cmd.Stderr = out, said
	ts.Check(cmd.Start())
	children := waitForChild(cmd.Process.Pid)
	ts.Check(cmd.Process.Signal(signals[args[0]]))
	var exit *exec.ExitError
	if err := cmd.Wait(); !errors.As(err, &exit) || strconv.Itoa(exit.ExitCode()) != args[1] {
		ts.Fatalf("ended with %v, want exit %s; said %s", err, args[1], said)
	}
	if len(children) == 0 {
		ts.Fatalf("no child was seen to run: the signal came too early to tell anything")
	}
	if out.Len() > 0 {
		ts.Fatalf("printed %q", out)
	}
	for _, pid := range children {
		if alive(pid) {
			ts.Fatalf("its child %d still runs", pid)
		}
	}
}

// waitForChild returns the ffmpeg children of a process, as soon as there are
// any and at most after ten seconds.
func waitForChild(parent int) (children []int) {
	for range 1000 {
		stats, _ := filepath.Glob("/proc/[0-9]*/stat")
		for _, stat := range stats {
			text, err := os.ReadFile(stat)
			if err != nil {
				continue
			}
			// pid (name) state parent ...; see proc(5).
			name, rest, _ := strings.Cut(string(text), ") ")
			fields := strings.Fields(rest)
			if len(fields) > 1 && fields[1] == strconv.Itoa(parent) && strings.HasSuffix(name, "(ffmpeg") {
				pid, _, _ := strings.Cut(name, " ")
				n, _ := strconv.Atoi(pid)
				children = append(children, n)
			}
		}
		if len(children) > 0 {
			return children
		}
		time.Sleep(10 * time.Millisecond)
	}
	return nil
}

// alive reports whether a process runs; one that has ended but was not waited
// for does not.
func alive(pid int) bool {
	text, err := os.ReadFile("/proc/" + strconv.Itoa(pid) + "/stat")
	if err != nil {
		return false
	}
	_, rest, _ := strings.Cut(string(text), ") ")
	return !strings.HasPrefix(rest, "Z") && strings.Contains(string(text), "(ffmpeg)")
}

// spoil DIR: every file in a folder is damaged in its middle.
func spoil(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: spoil DIR")
	}
	files, err := filepath.Glob(filepath.Join(ts.MkAbs(args[0]), "*.measured"))
	ts.Check(err)
	if len(files) == 0 {
		ts.Fatalf("%s holds nothing to spoil", args[0])
	}
	for _, f := range files {
		content, err := os.ReadFile(f)
		ts.Check(err)
		content[len(content)/2] ^= 1
		ts.Check(os.WriteFile(f, content, 0o600))
	}
}
