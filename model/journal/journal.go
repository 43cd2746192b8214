package journal

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"

	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// version is that of the journal's own lines; rows in it are of planfile.Version.
const version = 1

// extension ends the name of a journal.
const extension = ".journal"

// syncEvery is how long an edit may wait for the disk.
const syncEvery = time.Second

// Info says what a journal is about.
type Info struct {
	// Journal and Rows are the versions of lines and of rows.
	Journal int `json:"stageloom_journal"`
	Rows    int `json:"rows"`
	// Path is the plan's file, blank for a plan never saved; Stamp is that of the content it builds on.
	Path  string         `json:"path,omitempty"`
	Stamp planfile.Stamp `json:"stamp"`
	// Began is when the first edit was made.
	Began time.Time `json:"began"`
}

// Journal is one being written. A nil journal takes no line.
type Journal struct {
	file   *os.File
	lock   *flock.Flock
	synced time.Time
}

// Create begins a journal in a folder, which is made if it is not there, with the plan as it stands.
func Create(folder string, info Info, base *plan.Plan) (*Journal, error) {
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return nil, fmt.Errorf("the journal of unsaved work cannot be kept: %w", err)
	}
	file, err := os.CreateTemp(folder, "unsaved-*"+extension)
	if err != nil {
		return nil, fmt.Errorf("the journal of unsaved work cannot be kept: %w", err)
	}
	j := &Journal{file: file, lock: flock.New(file.Name() + ".lock")}
	if err := j.begin(info, base); err != nil {
		return nil, errors.Join(err, j.Remove())
	}
	return j, nil
}

func (j *Journal) begin(info Info, base *plan.Plan) error {
	if taken, err := j.lock.TryLock(); err != nil || !taken {
		return fmt.Errorf("the journal of unsaved work cannot be locked: %w", err)
	}
	info.Journal, info.Rows = version, planfile.Version
	head, err := json.Marshal(info)
	if err != nil {
		return err
	}
	whole, err := planfile.EncodeDelta(plan.Between(&plan.Plan{}, base))
	if err != nil {
		return err
	}
	return j.write(append(written(head), written(whole)...))
}

// Append writes one edit: the name of its step and what it changed.
func (j *Journal) Append(name string, d *plan.Delta) error {
	if j == nil {
		return nil
	}
	delta, err := planfile.EncodeDelta(d)
	if err != nil {
		return err
	}
	content, err := json.Marshal(step{name, delta})
	if err != nil {
		return err
	}
	return j.write(written(content))
}

func (j *Journal) write(text []byte) error {
	if _, err := j.file.Write(text); err != nil {
		return fmt.Errorf("the journal of unsaved work cannot be kept: %w", err)
	}
	if now := time.Now(); now.Sub(j.synced) > syncEvery {
		j.synced = now
		if err := j.file.Sync(); err != nil {
			return fmt.Errorf("the journal of unsaved work cannot be kept: %w", err)
		}
	}
	return nil
}

// Remove ends the journal: its edits are saved, or given up.
func (j *Journal) Remove() error {
	if j == nil {
		return nil
	}
	err := errors.Join(j.file.Close(), os.Remove(j.file.Name()), j.lock.Unlock())
	if gone := os.Remove(j.lock.Path()); gone != nil && !errors.Is(gone, fs.ErrNotExist) {
		err = errors.Join(err, gone)
	}
	return err
}

// File is the journal itself.
func (j *Journal) File() string { return filepath.Clean(j.file.Name()) }
