package extract

import (
	"regexp"
	"strings"
	"sync"
)

// tailSize is how much of a child's error stream is kept, in bytes: enough
// for the last few dozen lines, and a bound however long it talks.
const tailSize = 8 << 10

// tail is a writer that keeps the last tailSize bytes.
type tail struct {
	mu    sync.Mutex
	buf   []byte
	wrote bool
}

func (t *tail) Write(p []byte) (int, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.wrote = t.wrote || len(p) > 0
	t.buf = append(t.buf, p...)
	if over := len(t.buf) - tailSize; over > 0 {
		t.buf = append(t.buf[:0], t.buf[over:]...)
	}
	return len(p), nil
}

// any tells whether anything was written.
func (t *tail) any() bool {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.wrote
}

var heapAddress = regexp.MustCompile(` @ 0x[0-9a-f]+`)

// text returns what was kept, without heap addresses (they differ from run to
// run) and escaped line by line.
func (t *tail) text() string {
	t.mu.Lock()
	raw := heapAddress.ReplaceAllString(string(t.buf), "")
	t.mu.Unlock()
	lines := strings.Split(strings.TrimRight(raw, "\n"), "\n")
	for i, l := range lines {
		lines[i] = escape(l)
	}
	return strings.Join(lines, "\n")
}
