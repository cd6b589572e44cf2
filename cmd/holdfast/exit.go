package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"syscall"

	"holdfast/cmd/holdfast/internal/batch"
	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/extract"
	"holdfast/sheet"
)

// Exit codes, as --help lists them.
const (
	exitDone        = 0
	exitUsage       = 2
	exitInput       = 3
	exitFfmpeg      = 4
	exitDecode      = 5
	exitOutput      = 6
	exitBatch       = 7
	exitInterrupted = 128 // plus the number of the signal
)

// finish reports what went wrong, if anything, and returns the exit code.
func finish(ctx context.Context, err error, stderr io.Writer) int {
	if err == nil {
		return exitDone
	}
	var interrupt interruptError
	if errors.As(context.Cause(ctx), &interrupt) {
		// Whatever failed after the signal failed because of it.
		complain(stderr, interrupt, "")
		return exitInterrupted + int(interrupt.signal)
	}
	code, hint := judge(err)
	complain(stderr, err, hint)
	return code
}

// complain writes one line that says what is wrong and one that says what to
// do.
func complain(w io.Writer, err error, hint string) {
	fmt.Fprintf(w, "holdfast: %s\n", sheet.Visible(strings.ReplaceAll(err.Error(), "\n", "; ")))
	if hint != "" {
		fmt.Fprintf(w, "hint: %s\n", sheet.Visible(hint))
	}
}

// judge returns the exit code of an error and what to do about it. What no
// room has a family for went wrong while measuring: exit 5, as decoding.
func judge(err error) (code int, hint string) {
	var (
		found  *foundError
		wrong  *usageError
		input  *extract.InputError
		tool   *extract.ToolError
		output *outputError
		folder *whole.Error
		video  *extract.OutputError
		made   *sheetFileError
		field  *sheet.FieldError
		many   *batchError
		shares *batch.GatherError
		limit  *extract.LimitError
	)
	hint = extract.HintOf(err)
	switch {
	case errors.As(err, &found):
		return exitFound, ""
	case errors.As(err, &wrong):
		return exitUsage, hint
	case errors.As(err, &input):
		return exitInput, hint
	case errors.As(err, &made):
		return exitInput, sheetFileHint
	case errors.As(err, &many):
		return exitBatch, hint
	case errors.As(err, &shares):
		return exitInput, hint
	case errors.Is(err, batch.ErrRunning):
		return exitOutput, "wait for it, or choose another folder with --out"
	case errors.As(err, &tool):
		return exitFfmpeg, hint
	case errors.As(err, &video):
		return exitOutput, hint
	case errors.As(err, &folder), errors.As(err, &output):
		return exitOutput, outputHint(err)
	case errors.As(err, &limit):
		return exitDecode, limitHint(limit)
	case errors.As(err, &field):
		hint = "the clip gave numbers that make no sheet; please report it"
	}
	return exitDecode, hint
}

// outputHint says what to do when results cannot be written.
func outputHint(err error) string {
	switch {
	case errors.Is(err, whole.ErrForeign):
		return "choose another folder with --out; --overwrite replaces results only"
	case errors.Is(err, fs.ErrExist):
		return "choose another place, or say --overwrite"
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return "choose a folder you may write to"
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return "make room on the disk, or choose another"
	case errors.Is(err, syscall.EFBIG):
		return "the limit on file sizes is too low here"
	}
	return "choose another place for the output"
}
