package atomicfile

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"syscall"
)

// Failure says in words why a file could not be saved, what became of the old one, and what to do.
type Failure struct {
	// Path is the file as the caller named it.
	Path string
	// Step is what was being done: "make the temporary file", "write", "flush to the disk", ….
	Step string
	// Replaced is true when the new content stands at Path already and only the last flush failed.
	Replaced bool
	// Err is the cause.
	Err error
}

// Error is the whole sentence.
func (f *Failure) Error() string {
	name := filepath.Base(f.Path)
	if f.Replaced {
		return fmt.Sprintf("%s was saved, but the disk did not confirm it (%v): save again, or save to another disk too", name, f.Err)
	}
	reason, remedy := f.words()
	return fmt.Sprintf("%s was not saved: %s; %s (could not %s: %v). What was saved before is untouched", name, reason, remedy, f.Step, f.Err)
}

// Unwrap gives the cause.
func (f *Failure) Unwrap() error { return f.Err }

// ErrProtected is the cause when the file itself is marked read-only.
var ErrProtected = errors.New("the file is marked read-only")

// ErrNotRegular is the cause when the target is a folder or a device.
var ErrNotRegular = errors.New("it is a folder or a device")

var causes = []struct {
	err            error
	reason, remedy string
}{
	{ErrProtected, "the file is marked read-only", "take the mark off or save under another name"},
	{ErrNotRegular, "a folder or a device has this name", "choose another name"},
	{syscall.ENOSPC, "the disk is full", "make room or save to another disk"},
	{syscall.EDQUOT, "your share of the disk is used up", "make room or save to another disk"},
	{syscall.EFBIG, "a file may not grow that large here", "save to another disk"},
	{syscall.EROFS, "the disk is read-only", "save to another disk"},
	{fs.ErrPermission, "the folder does not let you write in it", "save to another folder"},
	{fs.ErrNotExist, "its folder is not there", "make the folder, plug the disk in again, or save to another folder"},
	{syscall.ENAMETOOLONG, "the name is too long", "choose a shorter name"},
	{syscall.EIO, "the disk failed", "save to another disk and check this one"},
}

// Reason says what is wrong with a disk in a few words: "the disk is full".
func Reason(err error) string {
	reason, _ := words(err)
	return reason
}

func (f *Failure) words() (reason, remedy string) { return words(f.Err) }

func words(err error) (reason, remedy string) {
	for _, cause := range causes {
		if errors.Is(err, cause.err) {
			return cause.reason, cause.remedy
		}
	}
	return "something went wrong on the disk", "try again or save to another disk"
}
