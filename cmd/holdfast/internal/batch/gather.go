package batch

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// A GatherError says why shares cannot be put together.
type GatherError struct{ text, hint string }

func (e *GatherError) Error() string { return e.text }

// Hint says what to do about it.
func (e *GatherError) Hint() string { return e.hint }

// Gather puts the shares below a folder together: their results come to where one
// machine would have written them. Nothing is moved unless every share is there,
// is of the same plan and holds what came of each of its clips. Stopped, it can be
// called again. Where nothing is left to gather it checks what is there.
func Gather(ctx context.Context, folder string) (*Plan, error) {
	shares, err := listShares(folder)
	if err != nil {
		return nil, err
	}
	plan, err := commonPlan(folder, shares)
	if err != nil {
		return nil, err
	}
	lock, err := hold(folder)
	if err != nil {
		return nil, err
	}
	defer lock.Close()
	moves, err := plan.moves(ctx, folder, shares)
	if err != nil {
		return nil, err
	}
	if err := plan.write(folder); err != nil {
		return nil, err
	}
	for _, m := range moves {
		if err := m.do(); err != nil {
			return nil, err
		}
	}
	return plan, clear(folder)
}

// clear removes what is left of gathered shares. It puts all of them aside at once
// first: stopped on the way, the next run would otherwise miss those that are gone.
func clear(folder string) error {
	aside := filepath.Join(folder, gatheredFolder)
	if err := os.RemoveAll(aside); err != nil { // of a run that was stopped here
		return err
	}
	err := os.Rename(filepath.Join(folder, shareFolder), aside)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	return os.RemoveAll(aside)
}

var shareName = regexp.MustCompile(`^([0-9]+)-of-([0-9]+)$`)

// listShares returns the shares that are there, which must be all of one cut.
func listShares(folder string) (list []Share, err error) {
	entries, err := os.ReadDir(filepath.Join(folder, shareFolder))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	for _, e := range entries {
		m := shareName.FindStringSubmatch(e.Name())
		if m == nil {
			continue
		}
		s, err := ParseShare(m[1] + "/" + m[2])
		if err != nil {
			continue
		}
		list = append(list, s)
	}
	slices.SortFunc(list, func(a, b Share) int { return a.Index - b.Index })
	if len(list) == 0 {
		return nil, nil
	}
	var missing []string
	seen := map[int]bool{}
	for _, s := range list {
		if s.Of != list[0].Of {
			return nil, &GatherError{
				fmt.Sprintf("%s holds shares of %d and of %d: clips would be there twice", folder, list[0].Of, s.Of),
				"remove those of the cut that is not wanted"}
		}
		seen[s.Index] = true
	}
	for i := 1; i <= list[0].Of; i++ {
		if !seen[i] {
			missing = append(missing, strconv.Itoa(i))
		}
	}
	if len(missing) > 0 {
		return nil, &GatherError{
			fmt.Sprintf("%s lacks %d of %d shares: %s", folder, len(missing), list[0].Of, some(missing)),
			"run the batch with --share for each of them"}
	}
	return list, nil
}

// commonPlan is the plan that all shares have, or that of the folder where there
// are none.
func commonPlan(folder string, shares []Share) (plan *Plan, err error) {
	for _, s := range shares {
		p, err := readPlan(s.folder(folder))
		switch {
		case err != nil:
			return nil, err
		case p == nil:
			return nil, &GatherError{fmt.Sprintf("share %d of %d has not begun", s.Index, s.Of), "run it, or wait for it"}
		case plan != nil && !p.equal(plan):
			return nil, &GatherError{
				fmt.Sprintf("share %d of %d is of another list of clips, or measured otherwise, than share 1", s.Index, s.Of),
				"run all shares with the same clips, options and program"}
		}
		plan = p
	}
	if plan != nil {
		return plan, nil
	}
	if plan, err = readPlan(folder); err == nil && plan == nil {
		err = &GatherError{fmt.Sprintf("%s is the folder of no batch", folder), "name the folder that was given to --out"}
	}
	return plan, err
}

// A move brings something to its place.
type move struct{ from, to string }

func (m move) do() error {
	if err := os.MkdirAll(filepath.Dir(m.to), 0o777); err != nil {
		return err
	}
	if err := os.RemoveAll(m.to); err != nil { // as it was before, or of another content
		return err
	}
	return os.Rename(m.from, m.to)
}

// moves says what is to be moved, if all is there that must be.
func (p *Plan) moves(ctx context.Context, folder string, shares []Share) (list []move, err error) {
	var missing []string
	check := func(at string, clips []Clip) {
		for _, c := range clips {
			failed, ok := p.outcome(at, c)
			switch {
			case !ok && at != folder:
				// It may have been moved by a run that was stopped.
				if _, moved := p.outcome(folder, c); !moved {
					missing = append(missing, c.Path)
				}
			case !ok:
				missing = append(missing, c.Path)
			case at == folder:
			case failed:
				list = append(list, move{filepath.Join(at, failureFolder, c.Name+".json"), filepath.Join(folder, failureFolder, c.Name+".json")})
			default:
				list = append(list, move{filepath.Join(at, c.Name), filepath.Join(folder, c.Name)})
			}
		}
	}
	work := p.work()
	if len(shares) == 0 {
		check(folder, work)
	}
	for _, s := range shares {
		if ctx.Err() != nil {
			return nil, context.Cause(ctx)
		}
		check(s.folder(folder), s.of(work))
	}
	if len(missing) > 0 {
		return nil, &GatherError{fmt.Sprintf("%d of %d clips are not done: %s", len(missing), len(work), some(missing)), "run their shares again: they go on where they were"}
	}
	return list, nil
}

// outcome reports whether a folder holds what came of a clip, whatever the clip
// holds by now.
func (p *Plan) outcome(folder string, c Clip) (failed, ok bool) {
	record, err := os.ReadFile(filepath.Join(folder, c.Name, c.Name+RecordSuffix))
	if err == nil && bytes.Equal(bytes.TrimSpace(record), []byte(p.Stamp)) {
		return false, true
	}
	f, err := readFailure(folder, c.Name)
	return true, err == nil && f.Path == c.Path && f.Stamp == p.Stamp
}

// Failure returns why a clip has no results; nil where it has some.
func (p *Plan) Failure(folder string, c Clip) (*Failure, error) {
	failed, ok := p.outcome(folder, c)
	switch {
	case !ok:
		return nil, &GatherError{fmt.Sprintf("%s is not done", c.Path), "run the batch again: it goes on where it was"}
	case !failed:
		return nil, nil
	}
	return readFailure(folder, c.Name)
}

// someMost is how many names one line lists.
const someMost = 5

// some lists the first few of many names.
func some(names []string) string {
	if len(names) > someMost {
		return strings.Join(names[:someMost], ", ") + fmt.Sprintf(" and %d more", len(names)-someMost)
	}
	return strings.Join(names, ", ")
}
