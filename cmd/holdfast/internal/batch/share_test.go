package batch

import "testing"

func TestIndexShare(t *testing.T) {
	for name, c := range map[string]struct {
		variable, index, of string
		want                Share // zero: an error
	}{
		"the first of an indexed job": {"JOB_COMPLETION_INDEX", "0", "40", Share{1, 40}},
		"the last of a job array":     {"SLURM_ARRAY_TASK_ID", "39", "40", Share{40, 40}},
		"of a smaller one":            {"JOB_COMPLETION_INDEX", "40", "40", Share{}},
		"of one of no size":           {"JOB_COMPLETION_INDEX", "0", "", Share{}},
		"no number":                   {"JOB_COMPLETION_INDEX", "x", "40", Share{}},
		"of no job":                   {"OTHER", "0", "40", Share{}},
	} {
		got, err := IndexShare(func(name string) string {
			if name == c.variable {
				return c.index
			}
			return ""
		}, c.of)
		if got != c.want || (err != nil) != (c.want == Share{}) {
			t.Errorf("%s: %v, %v; want %v", name, got, err, c.want)
		}
	}
}
