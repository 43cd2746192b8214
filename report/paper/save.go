package paper

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Save writes the chapters into the file at path. The file is whole or as it
// was before: a temporary file beside it is written, flushed to the disk and
// renamed. The mode of a file that was there is kept, and a link is followed.
func Save(ctx context.Context, path string, setup Setup, chapters ...Chapter) (Print, error) {
	var print Print
	err := replace(path, disk{}, func(w io.Writer) (err error) {
		print, err = Write(ctx, w, setup, chapters...)
		return err
	})
	if err != nil {
		return Print{}, err
	}
	return print, nil
}

// disk is what can go wrong in replace, so that tests can make it; a nil
// function is the real one.
type disk struct {
	writer func(io.Writer) io.Writer
	sync   func(*os.File) error
	rename func(from, to string) error
}

// replace writes a file whole or not at all.
func replace(path string, on disk, write func(io.Writer) error) error {
	target, mode, err := resolve(path)
	if err != nil {
		return err
	}
	if on.sync == nil {
		on.sync = (*os.File).Sync
	}
	if on.rename == nil {
		on.rename = os.Rename
	}
	file, err := create(target)
	if err != nil {
		return fmt.Errorf("save %s: no file can be made in its folder: %w", path, err)
	}
	if err := fill(file, mode, on, write); err != nil {
		return errors.Join(fmt.Errorf("save %s: %w", path, err), discard(file))
	}
	if err := on.rename(file.Name(), target); err != nil {
		return errors.Join(fmt.Errorf("save %s: put the new file in place: %w", path, err), discard(file))
	}
	syncFolder(filepath.Dir(target), on)
	return nil
}

// create makes a file of a free name beside the target, with the mode that new
// files have.
func create(target string) (file *os.File, err error) {
	const tries = 100
	for i := range tries {
		name := fmt.Sprintf(".%s.%d-%d", filepath.Base(target), os.Getpid(), i)
		file, err = os.OpenFile(filepath.Join(filepath.Dir(target), name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) {
			return file, err
		}
	}
	return nil, err
}

// resolve returns where the file really is, and the mode to keep; 0 when it is
// new.
func resolve(path string) (target string, mode fs.FileMode, err error) {
	if path == "" {
		return "", 0, errors.New("save: the name of the file is missing")
	}
	target, err = filepath.EvalSymlinks(path)
	if errors.Is(err, fs.ErrNotExist) {
		return path, 0, nil
	}
	if err != nil {
		return "", 0, fmt.Errorf("save %s: %w", path, err)
	}
	info, err := os.Stat(target)
	if err != nil {
		return "", 0, fmt.Errorf("save %s: %w", path, err)
	}
	if !info.Mode().IsRegular() {
		return "", 0, fmt.Errorf("save %s: it is not a file: choose another name", path)
	}
	return target, info.Mode().Perm(), nil
}

// fill writes the temporary file through to the disk and closes it.
func fill(file *os.File, mode fs.FileMode, on disk, write func(io.Writer) error) (err error) {
	defer func() { err = errors.Join(err, file.Close()) }()
	var w io.Writer = file
	if on.writer != nil {
		w = on.writer(file)
	}
	if err := write(w); err != nil {
		return err
	}
	if mode != 0 {
		if err := file.Chmod(mode); err != nil {
			return fmt.Errorf("keep the mode: %w", err)
		}
	}
	if err := on.sync(file); err != nil {
		return fmt.Errorf("flush to the disk: %w", err)
	}
	return nil
}

// discard removes the temporary file.
func discard(file *os.File) error {
	if err := os.Remove(file.Name()); err != nil {
		return fmt.Errorf("the unfinished file stays behind: %w", err)
	}
	return nil
}

// syncFolder makes the new name last through a power cut where the system can.
// A system that can't flush a folder has saved the file all the same.
func syncFolder(path string, on disk) {
	if folder, err := os.Open(path); err == nil {
		_ = on.sync(folder)
		_ = folder.Close()
	}
}
