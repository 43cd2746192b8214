package atomicfile

import (
	"io"
	"io/fs"
	"os"
)

// OpenRegular opens a file for reading, following links, and gives what it is. A folder, pipe, socket or device is refused
// with ErrNotRegular and what it is, without being opened: opening a pipe that nobody writes to would wait for ever.
func OpenRegular(path string) (*os.File, fs.FileInfo, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, info, &fs.PathError{Op: "open", Path: path, Err: ErrNotRegular}
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, nil, err
	}
	if info, err = file.Stat(); err != nil {
		_ = file.Close() // it was only opened
		return nil, nil, err
	}
	return file, info, nil
}

// ReadRegular reads the whole of a regular file, as OpenRegular opens it.
func ReadRegular(path string) ([]byte, error) {
	file, _, err := OpenRegular(path)
	if err != nil {
		return nil, err
	}
	defer file.Close() // nothing was written
	return io.ReadAll(file)
}
