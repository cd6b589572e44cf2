package batch

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
)

// A Share is one of the parts into which a batch is cut: every Of-th clip from the
// Index-th on, counted from 1. The zero Share is the whole batch.
type Share struct{ Index, Of int }

// mostShares bounds into how many a batch is cut: workload managers take arrays of
// some thousand tasks (Slurm's MaxArraySize is 1001 unless set otherwise; from
// memory).
const mostShares = 100_000

// ParseShare understands I/N.
func ParseShare(text string) (Share, error) {
	index, of, ok := strings.Cut(text, "/")
	i, errI := strconv.Atoi(index)
	n, errN := strconv.Atoi(of)
	if !ok || errI != nil || errN != nil || n < 1 || n > mostShares || i < 1 || i > n {
		return Share{}, fmt.Errorf("%q is no share: write 3/40 for the third of forty", text)
	}
	return Share{i, n}, nil
}

// ArrayShare is the share of a task of a Slurm job array, by the variables that
// Slurm sets (sbatch(1), "output environment variables"): the array must be one
// whole range with no step.
func ArrayShare(getenv func(string) string) (Share, error) {
	var v [4]int
	for i, name := range []string{"SLURM_ARRAY_TASK_ID", "SLURM_ARRAY_TASK_MIN", "SLURM_ARRAY_TASK_MAX", "SLURM_ARRAY_TASK_COUNT"} {
		n, err := strconv.Atoi(getenv(name))
		if err != nil {
			return Share{}, fmt.Errorf("%s is not set to a number: this is no task of a job array", name)
		}
		v[i] = n
	}
	id, lowest, highest, count := v[0], v[1], v[2], v[3]
	if count != highest-lowest+1 {
		return Share{}, fmt.Errorf("the job array holds %d of the indices %d to %d: it must hold them all", count, lowest, highest)
	}
	return ParseShare(fmt.Sprintf("%d/%d", id-lowest+1, count))
}

// IndexShare is the share of a task whose workload manager sets only its index, from
// 0 on, as Kubernetes does for a pod of an indexed job (JOB_COMPLETION_INDEX,
// batch/v1 Job; from memory), or of one of a Slurm job array. Into how many
// the batch is cut must be said.
func IndexShare(getenv func(string) string, of string) (Share, error) {
	for _, name := range []string{"SLURM_ARRAY_TASK_ID", "JOB_COMPLETION_INDEX"} {
		text := getenv(name)
		if text == "" {
			continue
		}
		n, err := strconv.Atoi(text)
		if err != nil {
			return Share{}, fmt.Errorf("%s is %q, no index", name, text)
		}
		return ParseShare(fmt.Sprintf("%d/%s", n+1, of))
	}
	return Share{}, fmt.Errorf("neither SLURM_ARRAY_TASK_ID nor JOB_COMPLETION_INDEX is set: this is no task of a job array")
}

// Whole reports whether it is all of the batch.
func (s Share) Whole() bool { return s.Of == 0 }

// folder is where its results go below that of the batch.
func (s Share) folder(batch string) string {
	if s.Whole() {
		return batch
	}
	return filepath.Join(batch, shareFolder, fmt.Sprintf("%d-of-%d", s.Index, s.Of))
}

// of returns the clips of the share.
func (s Share) of(clips []Clip) []Clip {
	if s.Whole() {
		return clips
	}
	var list []Clip
	for i := s.Index - 1; i < len(clips); i += s.Of {
		list = append(list, clips[i])
	}
	return list
}
