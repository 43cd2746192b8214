package journal

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"stageloom/model/planfile"
)

// Unread is a journal that holds something which cannot be read.
type Unread struct {
	// Path is the plan's file where that much is known; Last is when the journal was written last.
	Path string
	Last time.Time
	// Newer is true when a newer Stageloom wrote it; nothing is wrong with it.
	Newer bool
	// Err is the reason.
	Err error

	path string
}

// Error says what is lost and where the journal lies.
func (u *Unread) Error() string {
	of := "a plan"
	if u.Path != "" {
		of = filepath.Base(u.Path)
	}
	when := ""
	if !u.Last.IsZero() {
		when = " of " + u.Last.Format("2006-01-02 15:04")
	}
	return fmt.Sprintf("unsaved work on %s%s cannot be recovered: %v; its journal is %s", of, when, u.Err, u.path)
}

// Unwrap gives the reason.
func (u *Unread) Unwrap() error { return u.Err }

// aside ends the name of a journal that was told of and is kept for whoever can read it.
const aside = ".damaged"

// SetAside gives a damaged journal a name under which it is not looked at again. It is never deleted.
func (u *Unread) SetAside() error {
	if u.Newer {
		return nil
	}
	lock, err := planfile.Guard(u.path+lockExtension, 0o600)
	if err != nil {
		return err
	}
	defer letGuard(lock)
	if err := os.Rename(u.path, u.path+aside); err != nil {
		return err
	}
	u.path += aside
	return nil
}

// LeftBehind is Look for those that want what can be recovered alone.
func LeftBehind(folder string) []*Left {
	left, _ := Look(folder)
	return left
}

// Look lists the journals in a folder whose programs live no more and that hold an edit, the latest first, and
// those that cannot be read. It clears away what is surely over: journals that hold no edit, locks without a journal, and
// what was being written when a program died. Files that are no journal stay.
func Look(folder string) (left []*Left, unread []*Unread) {
	names, err := filepath.Glob(filepath.Join(folder, "*"+extension))
	if err != nil {
		return nil, nil
	}
	for _, name := range names {
		lock, err := planfile.Guard(name+lockExtension, 0o600)
		if err != nil {
			continue // its program lives
		}
		l, err := Open(name)
		var fault *Unread
		switch {
		case errors.As(err, &fault):
			unread = append(unread, fault)
		case err == nil && l.Edits() == 0:
			_ = os.Remove(name) // it is offered to nobody, so a next start may try again
		case err == nil:
			left = append(left, l)
		}
		letGuard(lock)
	}
	sweep(folder)
	slices.SortStableFunc(left, func(a, b *Left) int { return b.Last.Compare(a.Last) })
	return left, unread
}

// sweep removes locks without a journal, and halves of journals whose program died while it wrote them.
func sweep(folder string) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return
	}
	for _, entry := range entries {
		name := entry.Name()
		journal, isLock := strings.CutSuffix(name, extension+lockExtension)
		_, half := strings.CutSuffix(name, ".saving")
		if half {
			journal, _, half = strings.Cut(strings.TrimPrefix(name, "."), extension+".")
		}
		if !isLock && !half || !entry.Type().IsRegular() {
			continue
		}
		path := filepath.Join(folder, journal+extension)
		lock, err := planfile.Guard(path+lockExtension, 0o600)
		if err != nil {
			continue // its program lives
		}
		if half {
			_ = os.Remove(filepath.Join(folder, name)) // a next start may try again
		}
		letGuard(lock)
	}
}
