package extract

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"
)

func TestJudgeVersion(t *testing.T) {
	for line, good := range map[string]bool{
		"ffmpeg version 5.1.9-0+deb12u1 Copyright (c) 2000-2026": true,
		"ffmpeg version n7.1 Copyright":                          true,
		"ffmpeg version 8.0 Copyright":                           true,
		"ffmpeg version 10.0 Copyright":                          true,
		"ffmpeg version N-109000-g1234abc Copyright":             true,
		"ffmpeg version 2024-03-01-git-x Copyright":              true,
		"ffmpeg version 5.0.1 Copyright":                         false,
		"ffmpeg version 4.4.2-0ubuntu0.22.04.1 Copyright":        false,
		"ffmpeg version 3.4.8 Copyright":                         false,
		"ffprobe version 5.1 Copyright":                          false,
		"hello":                                                  false,
		"":                                                       false,
	} {
		if err := judgeVersion("ffmpeg", []byte(line)); (err == nil) != good {
			t.Errorf("%q: %v", line, err)
		}
	}
}

// fakeTool puts a shell script into a folder.
func fakeTool(t *testing.T, dir, name, script string) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(dir, name), []byte("#!/bin/sh\n"+script+"\n"), 0o755); err != nil {
		t.Fatal(err)
	}
}

func TestToolProblems(t *testing.T) {
	clip := writeBars(t, "a.mp4", 2, VideoOptions{Width: 64, Height: 36})
	ran := filepath.Join(t.TempDir(), "ran")
	version := "echo $(basename $0) version 6.0 Copyright; exit 0"
	for name, scripts := range map[string][2]string{
		"missing":       {},
		"probe missing": {version, ""},
		"too old":       {"echo ffmpeg version 3.4.8 Copyright", version},
		"something else": {
			"echo 'I sort laundry'", version},
		"fails":       {"exit 1", version},
		"junk answer": {version, `case "$1" in -version) ` + version + `;; esac; echo '<junk>'`},
	} {
		dir := t.TempDir()
		for i, tool := range []string{"ffmpeg", "ffprobe"} {
			if scripts[i] != "" {
				fakeTool(t, dir, tool, scripts[i])
			}
		}
		t.Setenv("PATH", dir+":/nowhere")
		if scripts[0] != "" {
			linkTools(t, dir, "basename")
		}
		var tool *ToolError
		if err := Read(context.Background(), clip, Options{}, drain); !errors.As(err, &tool) || HintOf(err) == "" {
			t.Errorf("%s: %v", name, err)
		}
	}

	dir := t.TempDir()
	fakeTool(t, dir, "ffmpeg", "touch "+ran)
	t.Chdir(dir)
	t.Setenv("PATH", ".:")
	var tool *ToolError
	if err := CheckTools(context.Background()); !errors.As(err, &tool) {
		t.Errorf("tools of the folder we are in: %v", err)
	}
	if _, err := os.Stat(ran); err == nil {
		t.Error("a program of the folder we are in was run")
	}
}

// linkTools makes programs of the system reachable from a folder.
func linkTools(t *testing.T, dir string, names ...string) {
	t.Helper()
	for _, name := range names {
		if err := os.Symlink("/usr/bin/"+name, filepath.Join(dir, name)); err != nil {
			t.Fatal(err)
		}
	}
}

func TestChildrenGetASmallEnvironment(t *testing.T) {
	report := filepath.Join(t.TempDir(), "report.log")
	t.Setenv("FFREPORT", "file="+report)
	path := writeBars(t, "a.mp4", 2, VideoOptions{Width: 64, Height: 36})
	readAll(t, path, Options{})
	if _, err := os.Stat(report); err == nil {
		t.Error("a child wrote a report")
	}
}
