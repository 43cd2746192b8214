package journal

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"github.com/gofrs/flock"

	"stageloom/model/atomicfile"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// Step is one state that a journal leads to.
type Step struct {
	Name string
	Plan *plan.Plan
}

// Left is a journal that a program left behind when it ended without saving.
type Left struct {
	Info
	// Base is the plan it begins with; Steps are the edits after it, the last one the state to recover.
	Base  *plan.Plan
	Steps []Step
	// Last is when the journal was written last.
	Last time.Time
	// Fault says what could not be read behind the last step; nil where all could.
	Fault error

	path  string
	claim *flock.Flock
	unfit error
}

// Plan is the state that was lost.
func (l *Left) Plan() *plan.Plan {
	if len(l.Steps) == 0 {
		return l.Base
	}
	return l.Steps[len(l.Steps)-1].Plan
}

// Edits counts the edits that are held, with those that are part of the base.
func (l *Left) Edits() int { return l.Before + len(l.Steps) }

// ErrTaken is the error of a journal that another window has recovered or discarded, or is recovering now.
var ErrTaken = errors.New("another window has recovered or discarded this work already, or is about to; look there")

// Claim keeps other windows from a journal until it is released or removed. It gives ErrTaken where one was first.
func (l *Left) Claim() error {
	if l.claim != nil {
		return nil
	}
	lock, err := planfile.Guard(l.path+lockExtension, 0o600)
	if errors.Is(err, planfile.ErrGuarded) || errors.Is(err, fs.ErrNotExist) {
		return ErrTaken
	}
	if err != nil {
		return fmt.Errorf("the journal of unsaved work cannot be locked: %w", err)
	}
	if _, err := os.Lstat(l.path); err != nil {
		letGuard(lock)
		return ErrTaken
	}
	l.claim = lock
	return nil
}

// Release lets other windows have a journal that was claimed.
func (l *Left) Release() {
	if l.claim != nil {
		letGuard(l.claim)
		l.claim = nil
	}
}

// letGuard gives a lock back and leaves no file of it.
func letGuard(lock *flock.Flock) {
	_ = os.Remove(lock.Path()) // while it is locked, so that nobody's new lock is removed; some systems refuse
	_ = lock.Unlock()
}

// Remove deletes the journal: it was recovered, or is not wanted.
func (l *Left) Remove() error {
	if err := l.Claim(); err != nil {
		return err
	}
	err := os.Remove(l.path)
	l.Release()
	return err
}

// File is the journal itself.
func (l *Left) File() string { return l.path }

// Open reads a journal up to its first fault. The error of one whose beginning cannot be read is *Unread.
func Open(path string) (*Left, error) {
	file, info, err := atomicfile.OpenRegular(path) // a pipe would be waited for
	if err != nil {
		return nil, &Unread{path: path, Err: err}
	}
	defer file.Close() // nothing was written
	l := &Left{path: path, Last: info.ModTime()}
	number, refused := 0, error(nil)
	l.Fault = each(file, func(content []byte) bool {
		number++
		switch {
		case number == 1:
			refused = l.about(content)
		case number == 2:
			refused = l.begin(content)
		default:
			return l.replay(content)
		}
		return refused == nil
	})
	l.Fault = errors.Join(l.Fault, l.unfit)
	switch {
	case refused != nil:
		return nil, refused
	case number < 2:
		return nil, l.unread(false, "its beginning is damaged or missing")
	case l.Edits() == 0 && l.Fault != nil:
		return nil, l.unread(false, "its first edit is damaged: %w", l.Fault)
	}
	return l, nil
}

func (l *Left) unread(newer bool, reason string, values ...any) error {
	return &Unread{Path: l.Path, Last: l.Last, Newer: newer, path: l.path, Err: fmt.Errorf(reason, values...)}
}

// about reads what the journal is about.
func (l *Left) about(content []byte) error {
	err := json.Unmarshal(content, &l.Info)
	switch {
	case err != nil || l.Journal == 0:
		return l.unread(false, "it is no journal of unsaved work")
	case l.Journal > version:
		return l.unread(true, "it was written by a newer Stageloom; open it with that one")
	}
	return nil
}

// begin reads the plan that the journal begins with.
func (l *Left) begin(content []byte) error {
	base, err := planfile.DecodeDelta(content, l.Rows)
	if err == nil {
		l.Base, err = plan.Apply(&plan.Plan{}, base)
	}
	if err != nil {
		return l.unread(l.Rows > planfile.Version, "the plan that it begins with cannot be read: %w", err)
	}
	return nil
}

// replay applies a line; one that does not fit ends the steps, what stands before it is good.
func (l *Left) replay(content []byte) (more bool) {
	next, name, err := l.step(l.Plan(), content)
	if err != nil {
		l.unfit = err
		return false
	}
	l.Steps = append(l.Steps, Step{name, next})
	return true
}

func (l *Left) step(now *plan.Plan, content []byte) (*plan.Plan, string, error) {
	var s step
	if err := json.Unmarshal(content, &s); err != nil {
		return nil, "", fmt.Errorf("an edit cannot be read: %s", plan.ClippedTo(err.Error(), 120))
	}
	delta, err := planfile.DecodeDelta(s.Delta, l.Rows)
	if err != nil {
		return nil, "", fmt.Errorf("the edit %q cannot be read: %w", plan.Clipped(s.Name), err)
	}
	next, err := plan.Apply(now, delta)
	if err != nil {
		return nil, "", fmt.Errorf("the edit %q does not fit: %w", plan.Clipped(s.Name), err)
	}
	return next, s.Name, nil
}
