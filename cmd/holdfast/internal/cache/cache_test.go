package cache

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"
)

// noise is content that does not compress.
func noise(seed uint64, n int) []byte {
	r := rand.New(rand.NewPCG(seed, 1))
	b := make([]byte, n)
	for i := range b {
		b[i] = byte(r.Uint32())
	}
	return b
}

func TestGivesBackWhatWasPut(t *testing.T) {
	c := Cache{Dir: filepath.Join(t.TempDir(), "a", "b"), Bytes: 1 << 20}
	for _, content := range [][]byte{{}, []byte("x"), noise(1, 100_000)} {
		key := Key("clip", fmt.Sprint(len(content)))
		if _, ok := c.Get(key); ok {
			t.Error("there before it was put")
		}
		if err := c.Put(key, content); err != nil {
			t.Fatal(err)
		}
		if got, ok := c.Get(key); !ok || !bytes.Equal(got, content) {
			t.Errorf("%d bytes became %d (%v)", len(content), len(got), ok)
		}
	}
	info, err := os.Stat(c.Dir)
	if err != nil || info.Mode().Perm() != 0o700 {
		t.Errorf("the folder is open to others: %v, %v", info.Mode(), err)
	}
}

func TestKeys(t *testing.T) {
	seen := map[string]bool{}
	for _, parts := range [][]string{{}, {""}, {"", ""}, {"ab"}, {"a", "b"}, {"b", "a"}, {"a", "b", ""}} {
		k := Key(parts...)
		if seen[k] {
			t.Errorf("%q has the key of others", parts)
		}
		seen[k] = true
	}
}

// Each single byte of an entry changed, and each shorter entry, is no entry.
func TestDamagedIsAbsent(t *testing.T) {
	c := Cache{Dir: t.TempDir(), Bytes: 1 << 20}
	key := Key("clip")
	damage := func(what string, content []byte) {
		t.Helper()
		if err := os.WriteFile(c.path(key), content, 0o600); err != nil {
			t.Fatal(err)
		}
		if got, ok := c.Get(key); ok {
			t.Errorf("%s: gave %q", what, got)
		}
		if _, err := os.Lstat(c.path(key)); err == nil {
			t.Errorf("%s: stays", what)
		}
	}
	if err := c.Put(key, []byte("what was measured")); err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(c.path(key))
	if err != nil {
		t.Fatal(err)
	}
	for i := range whole {
		damage(fmt.Sprintf("cut to %d", i), whole[:i])
		changed := bytes.Clone(whole)
		changed[i] ^= 0x40
		damage(fmt.Sprintf("byte %d", i), changed)
	}
	damage("too long", append(bytes.Clone(whole), 0))
	if err := os.WriteFile(c.path(Key("other")), whole, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, ok := c.Get(Key("other")); ok {
		t.Error("an entry that was moved to another key is given")
	}
}

func TestOddThingsInTheWay(t *testing.T) {
	c := Cache{Dir: t.TempDir(), Bytes: 1 << 20}
	if err := os.Mkdir(c.path(Key("folder")), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("/dev/zero", c.path(Key("link"))); err != nil {
		t.Fatal(err)
	}
	for _, k := range []string{"folder", "link"} {
		if _, ok := c.Get(Key(k)); ok {
			t.Errorf("%s is an entry", k)
		}
	}
	file := filepath.Join(c.Dir, "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	blocked := Cache{Dir: filepath.Join(file, "cache"), Bytes: 1 << 20}
	if err := blocked.Put(Key("x"), []byte("x")); err == nil {
		t.Error("kept where no folder can be")
	}
	if _, ok := blocked.Get(Key("x")); ok {
		t.Error("given where no folder can be")
	}
	if err := (Cache{}).Put(Key("x"), nil); err != nil {
		t.Error(err)
	}
}

func size(t *testing.T, c Cache) (sum int64) {
	t.Helper()
	list, err := c.entries()
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range list {
		sum += e.Size()
	}
	return sum
}

// The entry that was used longest ago goes first; one larger than all is not kept.
func TestBounded(t *testing.T) {
	c := Cache{Dir: t.TempDir(), Bytes: 35_000}
	put := func(i int) {
		t.Helper()
		if err := c.Put(Key(fmt.Sprint(i)), noise(uint64(i), 10_000)); err != nil {
			t.Fatal(err)
		}
	}
	for i := range 3 {
		put(i)
		past := time.Now().Add(time.Duration(i-10) * time.Minute)
		if err := os.Chtimes(c.path(Key(fmt.Sprint(i))), past, past); err != nil {
			t.Fatal(err)
		}
	}
	c.Get(Key("0"))
	put(3)
	for i, want := range []bool{true, false, true, true} {
		if _, err := os.Stat(c.path(Key(fmt.Sprint(i)))); (err == nil) != want {
			t.Errorf("entry %d: kept is %v, want %v", i, err == nil, want)
		}
	}
	if n := size(t, c); n > c.Bytes {
		t.Errorf("%d bytes of %d", n, c.Bytes)
	}
	if err := c.Put(Key("big"), noise(9, 40_000)); err == nil {
		t.Error("kept what is larger than all may be")
	}
	if _, ok := c.Get(Key("3")); !ok {
		t.Error("what did not fit drove out another")
	}
}

func TestLeftoversGo(t *testing.T) {
	c := Cache{Dir: t.TempDir(), Bytes: 1 << 20}
	old, young := filepath.Join(c.Dir, unfinished+"1"), filepath.Join(c.Dir, unfinished+"2")
	for _, f := range []string{old, young} {
		if err := os.WriteFile(f, []byte("half"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	past := time.Now().Add(-2 * abandoned)
	if err := os.Chtimes(old, past, past); err != nil {
		t.Fatal(err)
	}
	if err := c.Put(Key("x"), nil); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(old); err == nil {
		t.Error("an abandoned entry stays")
	}
	if _, err := os.Stat(young); err != nil {
		t.Error("an entry that may be in work is gone")
	}
}

// Many runs at once read and write few keys under a tight bound: what is given is
// always whole.
func TestManyAtOnce(t *testing.T) {
	c := Cache{Dir: t.TempDir(), Bytes: 25_000}
	var g sync.WaitGroup
	for w := range 8 {
		g.Add(1)
		go func() {
			defer g.Done()
			for i := range 40 {
				k := uint64((w + i) % 4)
				key := Key(fmt.Sprint(k))
				if got, ok := c.Get(key); ok && !bytes.Equal(got, noise(k, 10_000)) {
					t.Error("a mixture was given")
				}
				if err := c.Put(key, noise(k, 10_000)); err != nil {
					t.Error(err)
				}
			}
		}()
	}
	g.Wait()
	if n := size(t, c); n > c.Bytes {
		t.Errorf("%d bytes of %d", n, c.Bytes)
	}
}
