package extract

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"
	"io"
	"os"
	"syscall"
)

// SHA256 returns the SHA-256 of a file as 64 hexadecimal digits. For a
// sequence it is that of its files' bytes, one after the other in the order of
// their numbers, without their names, as `cat` of the files would give.
func SHA256(ctx context.Context, path string) (string, error) {
	in, err := openInput(ctx, path, Rate{})
	if err != nil {
		return "", err
	}
	h := sha256.New()
	if in.sequence == nil {
		err = hashFile(ctx, h, in.path)
	} else {
		for i := range in.sequence.count {
			if err = hashFile(ctx, h, in.sequence.file(i)); err != nil {
				break
			}
		}
	}
	if err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// hashFile adds a regular file to a hash.
func hashFile(ctx context.Context, h hash.Hash, path string) error {
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return statError(path, err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return statError(path, err)
	}
	if err := checkRegular(path, info); err != nil {
		return err
	}
	if _, err := io.Copy(h, contextReader{ctx, f}); err != nil {
		return fmt.Errorf("read %s: %w", SafeName(path), err)
	}
	return nil
}

// contextReader stops reading when its context ends.
type contextReader struct {
	ctx context.Context
	r   io.Reader
}

func (c contextReader) Read(p []byte) (int, error) {
	if c.ctx.Err() != nil {
		return 0, context.Cause(c.ctx)
	}
	return c.r.Read(p)
}
