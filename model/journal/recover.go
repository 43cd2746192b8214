package journal

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"time"

	"github.com/gofrs/flock"

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

	path string
}

// Plan is the state that was lost.
func (l *Left) Plan() *plan.Plan {
	if len(l.Steps) == 0 {
		return l.Base
	}
	return l.Steps[len(l.Steps)-1].Plan
}

// Remove deletes the journal: it was recovered, or is not wanted.
func (l *Left) Remove() error {
	err := os.Remove(l.path)
	if gone := os.Remove(l.path + ".lock"); gone != nil && !errors.Is(gone, fs.ErrNotExist) {
		err = errors.Join(err, gone)
	}
	return err
}

// File is the journal itself.
func (l *Left) File() string { return l.path }

// LeftBehind lists the journals in a folder whose programs live no more and that hold an edit, the latest first.
// Journals that hold nothing, and files that are none, are left where they are.
func LeftBehind(folder string) []*Left {
	names, err := filepath.Glob(filepath.Join(folder, "*"+extension))
	if err != nil {
		return nil
	}
	var left []*Left
	for _, name := range names {
		if alive(name) {
			continue
		}
		if l, err := Open(name); err == nil && len(l.Steps) > 0 {
			left = append(left, l)
		}
	}
	sort.Slice(left, func(i, j int) bool { return left[i].Last.After(left[j].Last) })
	return left
}

// alive tells whether the program that writes a journal holds its lock.
func alive(path string) bool {
	lock := flock.New(path + ".lock")
	taken, err := lock.TryLock()
	if err != nil || !taken {
		return true
	}
	_ = lock.Unlock() // nothing else can be done about it
	return false
}

// Open reads a journal up to its first fault.
func Open(path string) (*Left, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close() // nothing was written
	good, fault := lines(file)
	if len(good) < 2 {
		return nil, fmt.Errorf("%s is no journal of unsaved work, or its beginning is damaged", filepath.Base(path))
	}
	l := &Left{Fault: fault, path: path}
	if err := json.Unmarshal(good[0], &l.Info); err != nil || l.Journal == 0 {
		return nil, fmt.Errorf("%s is no journal of unsaved work", filepath.Base(path))
	}
	if l.Journal > version {
		return nil, fmt.Errorf("%s was written by a newer Stageloom; open it with that one", filepath.Base(path))
	}
	if info, err := file.Stat(); err == nil {
		l.Last = info.ModTime()
	}
	return l, l.replay(good[1:])
}

// replay applies the lines; a line that does not fit ends the steps, what stands before it is good.
func (l *Left) replay(content [][]byte) error {
	base, err := planfile.DecodeDelta(content[0], l.Rows)
	if err != nil {
		return fmt.Errorf("the plan that the journal begins with cannot be read: %w", err)
	}
	if l.Base, err = plan.Apply(&plan.Plan{}, base); err != nil {
		return fmt.Errorf("the plan that the journal begins with cannot be read: %w", err)
	}
	now := l.Base
	for _, each := range content[1:] {
		next, name, err := l.step(now, each)
		if err != nil {
			l.Fault = errors.Join(l.Fault, err)
			return nil
		}
		l.Steps = append(l.Steps, Step{name, next})
		now = next
	}
	return nil
}

func (l *Left) step(now *plan.Plan, content []byte) (*plan.Plan, string, error) {
	var s step
	if err := json.Unmarshal(content, &s); err != nil {
		return nil, "", fmt.Errorf("an edit cannot be read: %w", err)
	}
	delta, err := planfile.DecodeDelta(s.Delta, l.Rows)
	if err != nil {
		return nil, "", fmt.Errorf("the edit %q cannot be read: %w", s.Name, err)
	}
	next, err := plan.Apply(now, delta)
	if err != nil {
		return nil, "", fmt.Errorf("the edit %q does not fit: %w", s.Name, err)
	}
	return next, s.Name, nil
}
