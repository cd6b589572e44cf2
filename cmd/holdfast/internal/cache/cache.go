// Package cache keeps what was measured between runs: bytes under a key, in a
// folder that never grows beyond a size. It is there to save time and nothing
// else, so whatever goes wrong with it is as if it were empty.
package cache

import (
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"

	"golang.org/x/sys/unix"
)

const (
	suffix     = ".measured"             // of an entry; its key comes before it
	unfinished = ".unfinished-"          // begins the name of an entry that is being written
	magic      = "holdfast measured 1\n" // begins an entry; its checksum follows
	lockName   = "lock"

	// abandoned is how old an unfinished entry is that no run goes on with:
	// writing one takes seconds.
	abandoned = time.Hour
	// largest bounds what an entry holds when it is taken apart again, bytes:
	// several times that of the longest clip that may be read.
	largest = 1 << 30
)

// A Cache is a folder of entries. The zero value holds nothing and takes
// nothing.
type Cache struct {
	Dir   string // made when the first entry is; empty: no cache
	Bytes int64  // that all entries may take on the disk
}

// Key makes a key of everything that a result depends on.
func Key(parts ...string) string {
	h := sha256.New()
	for _, p := range parts {
		sum := sha256.Sum256([]byte(p)) // so that no two lists of parts run together alike
		h.Write(sum[:])
	}
	return hex.EncodeToString(h.Sum(nil))
}

func (c Cache) path(key string) string { return filepath.Join(c.Dir, key+suffix) }

// Get returns what was put under a key. A damaged entry is removed and counts
// as none.
func (c Cache) Get(key string) ([]byte, bool) {
	if c.Dir == "" {
		return nil, false
	}
	content, err := c.read(key)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, false
	}
	if err != nil {
		os.Remove(c.path(key))
		return nil, false
	}
	now := time.Now()
	os.Chtimes(c.path(key), now, now) // the entry used last goes last
	return content, true
}

var errDamaged = errors.New("damaged")

func (c Cache) read(key string) ([]byte, error) {
	// A pipe may never speak, and a link may lead anywhere.
	f, err := os.OpenFile(c.path(key), os.O_RDONLY|syscall.O_NOFOLLOW|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err := f.Stat(); err != nil || !info.Mode().IsRegular() || info.Size() > largest {
		return nil, errDamaged
	}
	packed, err := io.ReadAll(f)
	if err != nil {
		return nil, err
	}
	packed, ok := bytes.CutPrefix(packed, []byte(magic+key))
	if !ok || len(packed) < sha256.Size {
		return nil, errDamaged
	}
	if sum := sha256.Sum256(packed[sha256.Size:]); !bytes.Equal(sum[:], packed[:sha256.Size]) {
		return nil, errDamaged
	}
	content, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(packed[sha256.Size:])), largest+1))
	if err != nil || len(content) > largest {
		return nil, errDamaged
	}
	return content, nil
}

// Put keeps content under a key, and lets go of the entries used longest ago
// until all fit. An error says why nothing is kept; nothing is lost by it but
// time.
func (c Cache) Put(key string, content []byte) error {
	if c.Dir == "" {
		return nil
	}
	var packed bytes.Buffer
	w, err := flate.NewWriter(&packed, flate.BestSpeed)
	if err != nil {
		return err
	}
	if _, err := w.Write(content); err != nil {
		return err
	}
	if err := w.Close(); err != nil {
		return err
	}
	if int64(packed.Len()) > c.Bytes {
		return errors.New("larger than the whole cache may be")
	}
	// What people film is theirs alone.
	if err := os.MkdirAll(c.Dir, 0o700); err != nil {
		return err
	}
	if err := c.write(key, packed.Bytes()); err != nil {
		return err
	}
	return c.trim()
}

// write puts an entry in its place in one step: another run sees all of it or
// none.
func (c Cache) write(key string, packed []byte) error {
	f, err := os.CreateTemp(c.Dir, unfinished)
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	sum := sha256.Sum256(packed)
	_, err = f.Write(slices.Concat([]byte(magic+key), sum[:], packed))
	if err := errors.Join(err, f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), c.path(key))
}

// trim removes entries until the rest fits. Two runs that trim at once would
// remove too much, so only one does.
func (c Cache) trim() error {
	lock, err := os.OpenFile(filepath.Join(c.Dir, lockName), os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return err
	}
	defer lock.Close()
	if err := unix.Flock(int(lock.Fd()), unix.LOCK_EX); err != nil {
		return err
	}
	list, err := c.entries()
	if err != nil {
		return err
	}
	slices.SortFunc(list, func(a, b fs.FileInfo) int { return b.ModTime().Compare(a.ModTime()) })
	sum := int64(0)
	for _, e := range list {
		if sum += e.Size(); sum > c.Bytes {
			sum -= e.Size()
			os.Remove(filepath.Join(c.Dir, e.Name()))
		}
	}
	return nil
}

// entries returns all entries, and removes what killed runs left unfinished.
func (c Cache) entries() ([]fs.FileInfo, error) {
	files, err := os.ReadDir(c.Dir)
	if err != nil {
		return nil, err
	}
	var list []fs.FileInfo
	for _, f := range files {
		info, err := f.Info()
		switch {
		case err != nil || !info.Mode().IsRegular():
		case strings.HasPrefix(f.Name(), unfinished) && time.Since(info.ModTime()) > abandoned:
			os.Remove(filepath.Join(c.Dir, f.Name()))
		case strings.HasSuffix(f.Name(), suffix):
			list = append(list, info)
		}
	}
	return list, nil
}
