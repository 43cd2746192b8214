package atomicfile

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"time"
)

const (
	suffix     = ".saving"
	mostTries  = 100
	mostLinks  = 40
	longAgo    = time.Hour
	bufferSize = 1 << 16
)

// Write replaces the file at path with what write writes; ops may be nil for the operating system's own.
//
// An error of write itself comes back wrapped as it is; one of the disk is a *Failure. Either way the old file
// stands as it did and the temporary file is gone, unless the program was killed: then the next Write to the
// same path removes it once it is an hour old.
func Write(path string, write func(io.Writer) error, ops *Ops) error {
	if ops == nil {
		system := System()
		ops = &system
	}
	s := saving{path: path, ops: ops}
	if err := s.find(); err != nil {
		return err
	}
	if err := s.begin(); err != nil {
		return err
	}
	err := s.fill(write)
	if err == nil {
		err = s.failed("put the new file in the old one's place", ops.Rename(s.temporary, s.target))
	}
	if err != nil {
		_ = ops.Remove(s.temporary) // the first error is the one to tell
		return err
	}
	s.tell()
	s.sweep()
	if err := ops.SyncFolder(filepath.Dir(s.target)); err != nil {
		return &Failure{Path: path, Step: "flush the folder to the disk", Replaced: true, Err: err}
	}
	return nil
}

// saving is one Write under way.
type saving struct {
	path, target, temporary string
	old                     fs.FileInfo
	file                    File
	ops                     *Ops
	lost                    []string
}

func (s *saving) failed(step string, err error) error {
	if err == nil {
		return nil
	}
	return &Failure{Path: s.path, Step: step, Err: err}
}

// find follows links to the target and looks at what is there.
func (s *saving) find() error {
	target, err := Resolve(s.path)
	if err != nil {
		return s.failed("find the file", err)
	}
	s.target = target
	s.old, err = os.Stat(target)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return s.failed("look at the file", err)
	case !s.old.Mode().IsRegular():
		return s.failed("replace it", ErrNotRegular)
	case s.old.Mode()&0o200 == 0:
		return s.failed("replace it", ErrProtected)
	}
	return nil
}

// Resolve follows links to the file that a save to path would replace, which need not exist.
func Resolve(path string) (string, error) {
	for range mostLinks {
		real, err := filepath.EvalSymlinks(path)
		if err == nil || !errors.Is(err, fs.ErrNotExist) {
			return real, err
		}
		folder, err := filepath.EvalSymlinks(filepath.Dir(path))
		if err != nil {
			return "", err
		}
		path = filepath.Join(folder, filepath.Base(path))
		next, err := os.Readlink(path)
		if err != nil {
			return path, nil // no file and no link: a new file
		}
		if !filepath.IsAbs(next) {
			next = filepath.Join(folder, next)
		}
		path = next
	}
	return "", fmt.Errorf("%s leads through too many links", path)
}

func (s *saving) begin() error {
	folder, name := filepath.Split(s.target)
	for range mostTries {
		s.temporary = filepath.Join(folder, fmt.Sprintf(".%s.%08x%s", name, rand.Uint32(), suffix))
		file, err := s.ops.Create(s.temporary)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		s.file = file
		return s.failed("make the temporary file", err)
	}
	return s.failed("make the temporary file", fs.ErrExist)
}

// fill writes, flushes and closes the temporary file. Closing also reports what a network disk kept back.
func (s *saving) fill(write func(io.Writer) error) (err error) {
	defer func() {
		if closing := s.file.Close(); err == nil {
			err = s.failed("close the new file", closing)
		}
	}()
	if s.old != nil {
		err := s.file.Chmod(s.keepOwner(s.old.Mode().Perm()))
		if err != nil && !errors.Is(err, errors.ErrUnsupported) {
			return s.failed("keep the file's mode", err)
		}
	}
	buffer := bufio.NewWriterSize(diskWriter{s}, bufferSize)
	if err := errors.Join(write(buffer), buffer.Flush()); err != nil {
		return s.blame(err)
	}
	return s.failed("flush the new file to the disk", s.file.Sync())
}

// blame tells an error of the disk from one of the caller's write.
func (s *saving) blame(err error) error {
	var failure *Failure
	if errors.As(err, &failure) {
		return failure
	}
	return fmt.Errorf("write %s: %w", filepath.Base(s.path), err)
}

// diskWriter marks errors of the disk, so that they can be told from those of the caller's write.
type diskWriter struct{ s *saving }

func (w diskWriter) Write(data []byte) (int, error) {
	n, err := w.s.file.Write(data)
	return n, w.s.failed("write the new file", err)
}

// sweep removes what killed saves of the same file left. The new file's own time is the clock, since the
// disk's may differ from ours.
func (s *saving) sweep() {
	folder, name := filepath.Split(s.target)
	entries, err := os.ReadDir(filepath.Clean(folder + "."))
	now, errNow := os.Stat(s.target)
	if err != nil || errNow != nil {
		return
	}
	for _, entry := range entries {
		if !leftover(entry.Name(), name) {
			continue
		}
		info, err := entry.Info()
		if err == nil && info.Mode().IsRegular() && now.ModTime().Sub(info.ModTime()) > longAgo {
			_ = s.ops.Remove(filepath.Join(folder, entry.Name())) // best effort: it harms nobody
		}
	}
}

func leftover(entry, name string) bool {
	middle, found := strings.CutPrefix(entry, "."+name+".")
	if !found {
		return false
	}
	number, found := strings.CutSuffix(middle, suffix)
	return found && len(number) == 8 && strings.Trim(number, "0123456789abcdef") == ""
}
