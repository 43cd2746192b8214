package planfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"github.com/gofrs/flock"
)

// ErrGuarded is the error of a Guard that somebody else holds.
var ErrGuarded = errors.New("it is locked by another program")

// errNoLockFile is the error of a lock in whose place something else stands.
var errNoLockFile = errors.New("it is no file of its own")

// mostAttempts is how often a lock is tried that vanishes while it is taken.
const mostAttempts = 10

// Guard makes the file at path and locks it, or gives ErrGuarded. The file serves as a lock alone: it is never written
// through a link, and what is no file of its own is refused. Whoever gives it back may remove it first, while it is locked.
func Guard(path string, mode fs.FileMode) (*flock.Flock, error) {
	for range mostAttempts {
		if info, err := os.Lstat(path); err == nil && !ownFile(info) {
			return nil, errNoLockFile
		}
		lock := flock.New(path, flock.SetFlag(guardFlags), flock.SetPermissions(mode))
		taken, err := lock.TryLock()
		switch {
		case err != nil && isLink(path):
			return nil, errNoLockFile
		case err != nil:
			return nil, err
		case !taken:
			return nil, ErrGuarded
		case stillThere(lock):
			return lock, nil
		}
		_ = lock.Unlock() // its holder removed the file while we took the lock on it
	}
	return nil, errors.New("the lock changes hands too fast")
}

// ownFile reports whether a file is a plain one of a single name.
func ownFile(info fs.FileInfo) bool { return info.Mode().IsRegular() && names(info) <= 1 }

func isLink(path string) bool {
	info, err := os.Lstat(path)
	return err == nil && !info.Mode().IsRegular()
}

// stillThere reports whether the locked file is the one that others would lock, and no link to another.
func stillThere(lock *flock.Flock) bool {
	mine, errMine := lock.Stat()
	there, errThere := os.Lstat(lock.Path())
	return errMine == nil && errThere == nil && os.SameFile(mine, there) && ownFile(mine)
}

// rewrite replaces what a locked file holds. The second handle is on the very file that is locked, whatever has come to
// stand at its path; nothing is cut before that is sure.
func rewrite(lock *flock.Flock, text []byte) error {
	file, err := os.OpenFile(lock.Path(), os.O_WRONLY|guardFlags&^os.O_CREATE, 0)
	if err != nil {
		return err
	}
	mine, errMine := lock.Stat()
	opened, errOpened := file.Stat()
	if errMine != nil || errOpened != nil || !os.SameFile(mine, opened) || !ownFile(opened) {
		return errors.Join(fmt.Errorf("write the lock: %w", errNoLockFile), file.Close())
	}
	err = file.Truncate(0)
	if err == nil {
		_, err = file.Write(text)
	}
	return errors.Join(err, file.Close())
}

// mostTelling is how much of a lock is read.
const mostTelling = 4 << 10

// readGuard reads what a lock tells.
func readGuard(path string) ([]byte, error) {
	if isLink(path) {
		return nil, errNoLockFile
	}
	file, err := os.OpenFile(path, os.O_RDONLY|guardFlags&^os.O_CREATE, 0)
	if err != nil {
		return nil, err
	}
	text, err := io.ReadAll(io.LimitReader(file, mostTelling))
	return text, errors.Join(err, file.Close())
}
