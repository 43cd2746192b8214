package journal

import (
	"io"
	"io/fs"
	"os"
	"time"

	"stageloom/model/atomicfile"
)

// File is what a journal needs of the file that it appends to.
type File interface {
	io.WriteCloser
	// Truncate cuts the file to a length.
	Truncate(length int64) error
	// Sync flushes the content to the disk.
	Sync() error
	// Stat tells which file it is.
	Stat() (fs.FileInfo, error)
}

// Ops are the operations of the system. Tests replace some of them.
type Ops struct {
	// Files write a journal as a whole.
	Files atomicfile.Ops
	// Append opens one to write behind what it holds.
	Append func(path string) (File, error)
	// After calls a function once a time has passed.
	After func(wait time.Duration, do func())
}

// System returns the operating system's operations.
func System() Ops {
	return Ops{Files: atomicfile.System(), Append: openToAppend, After: func(wait time.Duration, do func()) { time.AfterFunc(wait, do) }}
}

func openToAppend(path string) (File, error) {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_APPEND, 0)
	if err != nil {
		return nil, err // not the nil *os.File, which would be a non-nil File
	}
	return file, nil
}

// private are the operations that make files which nobody else may read.
func (o Ops) private() *atomicfile.Ops {
	files := o.Files
	create := files.Create
	files.Create = func(path string) (atomicfile.File, error) {
		file, err := create(path)
		if err != nil {
			return nil, err
		}
		if err := file.Chmod(0o600); err != nil {
			_ = file.Close() // the first error is the one to tell
			return nil, err
		}
		return file, nil
	}
	return &files
}
