package atomicfile

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"runtime"
	"syscall"
)

// File is what Write needs of the temporary file.
type File interface {
	io.WriteCloser
	// Chmod sets the mode bits.
	Chmod(fs.FileMode) error
	// Chown sets owner and group by their numbers; -1 leaves the one or the other.
	Chown(owner, group int) error
	// Sync flushes the content to the disk.
	Sync() error
}

// Ops are the operations on the disk. Tests replace some of them to make a save fail at a chosen step.
type Ops struct {
	// Create makes a new file for writing and refuses with fs.ErrExist when there is one.
	Create func(path string) (File, error)
	// Rename puts the file at from in the place of the one at to.
	Rename func(from, to string) error
	// Remove deletes a file.
	Remove func(path string) error
	// SyncFolder flushes the names in a folder to the disk.
	SyncFolder func(path string) error
	// Tell hears what of the old file a save that stands could not keep, a sentence each time; nil for nobody.
	Tell func(sentence string)
}

// System returns the operating system's operations.
func System() Ops {
	return Ops{Create: create, Rename: os.Rename, Remove: os.Remove, SyncFolder: syncFolder}
}

func create(path string) (File, error) {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return nil, err // not the nil *os.File, which would be a non-nil File
	}
	return file, nil
}

// syncFolder does nothing where folders cannot be flushed: Windows, and file systems that say so.
func syncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	folder, err := os.Open(path)
	if err != nil {
		return err
	}
	err = folder.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		err = nil
	}
	return errors.Join(err, folder.Close())
}
