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
	p, stamp, _, err := OpenMended(path)
	return p, stamp, err
}

// OpenMended is Open that also tells what was taken out of the file's texts, for a notice: the plan then differs from its
// file. The mends are at most the first 100.
func OpenMended(path string) (*plan.Plan, Stamp, []Mend, error) {
	data, info, err := load(path)
	if err != nil {
		return nil, Stamp{}, nil, err
	}
	p, version, mends, err := decodeMended(data, current)
	if err != nil {
		return nil, Stamp{}, nil, named(err, filepath.Base(path))
	}
	return p, stampOf(data, info, version), mends, nil
}

func load(path string) ([]byte, fs.FileInfo, error) {
	if info, err := os.Stat(path); err == nil {
		if err := noFile(path, info); err != nil {
			return nil, nil, err // opening a pipe would wait for whoever writes it
		}
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, nil, opening(path, err)
	}
	defer file.Close() // nothing was written
	info, err := file.Stat()
	if err != nil {
		return nil, nil, opening(path, err)
	}
	data, err := readAll(file)
	if err != nil {
		return nil, nil, opening(path, err)
	}
	return data, info, nil
}

// noFile says why what stands at path cannot be a plan, nil when it can.
func noFile(path string, info fs.FileInfo) error {
	what := "a pipe or a device"
	switch {
	case info.Mode().IsRegular():
		return nil
	case info.IsDir():
		what = "a folder"
	}
	return fmt.Errorf("%s is %s, not a plan: choose a file whose name ends in %s", filepath.Base(path), what, Extension)
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

// Changed reports whether the file at path is another than when it was stamped. It is cheap while size and time
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
	// Found is the stamp of what stands there: a Save with it writes over that, and over nothing newer.
	Found Stamp
}

// Error says what stands there and what to do.
func (o *Overwrite) Error() string {
	name, when := filepath.Base(o.Path), o.Written.Format("2006-01-02 15:04")
	if o.New {
		return fmt.Sprintf("%s was not saved: a file of this name is there already, written %s; choose another name, or say that it shall be replaced", name, when)
	}
	return fmt.Sprintf("%s was not saved: something else has changed it since it was opened here, last at %s; save under another name and compare, or say that it shall be replaced", name, when)
}

// Gone is the error of a Save to a file that was there and is not any more. A Save with the zero Stamp makes it anew.
type Gone struct{ Path string }

// Error says what may have become of the file and what to do.
func (g *Gone) Error() string {
	return fmt.Sprintf("%s was not saved: it lies in its folder no more; something else has deleted it, moved it or given it another name; save it here again, or under another name", filepath.Base(g.Path))
}

// Save writes the plan to path, whole or not at all, and returns the new stamp. It refuses with *Overwrite when
// the file there is not the one that was stamped and with *Gone when it is there no more; errors of the disk are
// *atomicfile.Failure. With one whose Replaced is true the new stamp comes too, since the plan stands there. The first
// save over a file of an older version keeps that file beside it. ops may be nil.
func Save(path string, p *plan.Plan, was Stamp, ops *atomicfile.Ops) (Stamp, error) {
	old, info, err := load(path)
	switch {
	case errors.Is(err, fs.ErrNotExist) && was != Stamp{} && folderThere(path):
		return Stamp{}, &Gone{Path: path}
	case errors.Is(err, fs.ErrNotExist):
		return write(path, p, ops)
	case err != nil:
		return Stamp{}, err
	case was == Stamp{} || sha256.Sum256(old) != was.Sum:
		return Stamp{}, &Overwrite{Path: path, Written: info.ModTime(), New: was == Stamp{}, Found: stampOf(old, info, Version)}
	}
	if was.Version < Version {
		if err := keep(path, old, was.Version, ops); err != nil {
			return Stamp{}, err
		}
	}
	return write(path, p, ops)
}

// folderThere reports whether a file could lie at path: where its folder is gone too, the save itself says what to do.
func folderThere(path string) bool {
	info, err := os.Stat(filepath.Dir(path))
	return err == nil && info.IsDir()
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
	saving := put(path, data, ops)
	if saving != nil && !stands(saving) {
		return Stamp{}, saving
	}
	info, err := os.Stat(path)
	if err != nil {
		return Stamp{}, errors.Join(saving, opening(path, err))
	}
	return stampOf(data, info, Version), saving
}

// stands reports whether a save that failed has put the new content in its place.
func stands(err error) bool {
	var failure *atomicfile.Failure
	return errors.As(err, &failure) && failure.Replaced
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
		there, err := atomicfile.ReadRegular(beside)
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
