package planfile

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"stageloom/model/atomicfile"
	"stageloom/model/plan"
)

// Extension ends the name of a plan file.
const Extension = ".stageloom"

// Stamp tells one content of a file from another, so that a change by something else is noticed before it is
// written over. The zero Stamp stands for "no file yet".
type Stamp struct {
	Size    int64
	ModTime time.Time
	Sum     [sha256.Size]byte
	// Version is the version the file was written in.
	Version int
}

// Open reads the plan at path. The error of an unreadable file is *Unreadable with the file's name.
func Open(path string) (*plan.Plan, Stamp, error) {
	data, info, err := load(path)
	if err != nil {
		return nil, Stamp{}, err
	}
	p, version, err := decode(data, current)
	if err != nil {
		return nil, Stamp{}, named(err, filepath.Base(path))
	}
	return p, stampOf(data, info, version), nil
}

func load(path string) ([]byte, fs.FileInfo, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, nil, opening(path, err)
	}
	defer file.Close() // nothing was written
	info, err := file.Stat()
	if err != nil {
		return nil, nil, opening(path, err)
	}
	if info.IsDir() {
		return nil, nil, fmt.Errorf("%s is a folder, not a plan: choose a file whose name ends in %s", filepath.Base(path), Extension)
	}
	data, err := readAll(file)
	if err != nil {
		return nil, nil, opening(path, err)
	}
	return data, info, nil
}

func opening(path string, err error) error {
	name := filepath.Base(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s cannot be opened: there is no such file; check the name and the folder: %w", name, err)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s cannot be opened: you may not read it; ask its owner, or change its permissions: %w", name, err)
	}
	return fmt.Errorf("%s cannot be opened: %w", name, err)
}

func stampOf(data []byte, info fs.FileInfo, version int) Stamp {
	return Stamp{Size: int64(len(data)), ModTime: info.ModTime(), Sum: sha256.Sum256(data), Version: version}
}

// Changed tells whether the file at path is another than when it was stamped. It is cheap while size and time
// are the same; Save looks at the content whatever they say. A file that is gone counts as changed.
func (s Stamp) Changed(path string) (bool, error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return s != Stamp{}, nil
	}
	if err != nil {
		return false, opening(path, err)
	}
	if info.Size() == s.Size && info.ModTime().Equal(s.ModTime) {
		return false, nil
	}
	data, _, err := load(path)
	return err == nil && sha256.Sum256(data) != s.Sum, err
}

// Overwrite is the error of a Save that would destroy what something else wrote.
type Overwrite struct {
	// Path is the file.
	Path string
	// Written is when it was written last.
	Written time.Time
	// New is true when no file was expected at all.
	New bool
}

// Error says what stands there and what to do.
func (o *Overwrite) Error() string {
	name, when := filepath.Base(o.Path), o.Written.Format("2006-01-02 15:04")
	if o.New {
		return fmt.Sprintf("%s was not saved: a file of this name is there already, written %s; choose another name, or say that it shall be replaced", name, when)
	}
	return fmt.Sprintf("%s was not saved: something else has changed it since it was opened here, last at %s; save under another name and compare, or say that it shall be replaced", name, when)
}

// Save writes the plan to path, whole or not at all, and returns the new stamp. It refuses with *Overwrite when
// the file there is not the one that was stamped; errors of the disk are *atomicfile.Failure. The first save
// over a file of an older version keeps that file beside it. ops may be nil.
func Save(path string, p *plan.Plan, was Stamp, ops *atomicfile.Ops) (Stamp, error) {
	old, info, err := load(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return write(path, p, ops)
	case err != nil:
		return Stamp{}, err
	case was == Stamp{} || sha256.Sum256(old) != was.Sum:
		return Stamp{}, &Overwrite{Path: path, Written: info.ModTime(), New: was == Stamp{}}
	}
	if was.Version < Version {
		if err := keep(path, old, was.Version, ops); err != nil {
			return Stamp{}, err
		}
	}
	return write(path, p, ops)
}

// Replace writes the plan to path whatever stands there. ops may be nil.
func Replace(path string, p *plan.Plan, ops *atomicfile.Ops) (Stamp, error) {
	return write(path, p, ops)
}

func write(path string, p *plan.Plan, ops *atomicfile.Ops) (Stamp, error) {
	data, err := encode(p)
	if err != nil {
		return Stamp{}, fmt.Errorf("%s was not saved: %w", filepath.Base(path), err)
	}
	if err := put(path, data, ops); err != nil {
		return Stamp{}, err
	}
	info, err := os.Stat(path)
	if err != nil {
		return Stamp{}, opening(path, err)
	}
	return stampOf(data, info, Version), nil
}

func put(path string, data []byte, ops *atomicfile.Ops) error {
	return atomicfile.Write(path, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}, ops)
}

const mostKeptFiles = 1000

// keep puts the old file beside the new one as NAME.v1.stageloom, or NAME.v1-2.stageloom where that is taken by
// another content.
func keep(path string, old []byte, version int, ops *atomicfile.Ops) error {
	stem := strings.TrimSuffix(path, Extension)
	beside := fmt.Sprintf("%s.v%d%s", stem, version, Extension)
	for n := 2; n < mostKeptFiles; n++ {
		there, err := os.ReadFile(beside)
		if errors.Is(err, fs.ErrNotExist) {
			return put(beside, old, ops)
		}
		if err == nil && bytes.Equal(there, old) {
			return nil
		}
		beside = fmt.Sprintf("%s.v%d-%d%s", stem, version, n, Extension)
	}
	return fmt.Errorf("%s was not saved: too many old versions lie beside it; move them away", filepath.Base(path))
}
