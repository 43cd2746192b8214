package journal

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"sync"
	"time"

	"github.com/gofrs/flock"

	"stageloom/model/atomicfile"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// version is that of the journal's own lines; rows in it are of planfile.Version.
const version = 1

// extension ends the name of a journal, lockExtension that of its lock.
const (
	extension     = ".journal"
	lockExtension = ".lock"
)

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
	// Before is how many edits are part of the plan it begins with: the oldest, which a journal that outgrows its plan
	// lets go.
	Before int `json:"before,omitempty"`
}

// Journal is one being written. A nil journal takes no line. It is used by one goroutine; only the flush to the disk runs
// in another.
type Journal struct {
	folder, path string
	info         Info
	ops          Ops
	lock         *flock.Flock
	history
	// good is the length of what the file holds in whole lines, waiting are lines that the disk has refused so far.
	good    int64
	waiting []byte
	renewed bool

	mutex     sync.Mutex // of what the flush shares
	file      File
	due       bool
	unflushed error
}

// Begin returns a journal in a folder with the plan as it stands. Nothing is on the disk before the first edit. ops may be
// nil for the operating system's own.
func Begin(folder string, info Info, base *plan.Plan, ops *Ops) *Journal {
	if ops == nil {
		system := System()
		ops = &system
	}
	info.Journal, info.Rows = version, planfile.Version
	return &Journal{folder: folder, info: info, ops: *ops, history: history{base: base, last: base}}
}

// Create is Begin that also makes folder and file at once.
func Create(folder string, info Info, base *plan.Plan) (*Journal, error) {
	j := Begin(folder, info, base, nil)
	if err := j.renew(); err != nil {
		return nil, errors.Join(err, j.Remove())
	}
	return j, nil
}

// Append writes one edit: the name of its step and the plan that it led to. What cannot be written waits in memory and is
// tried again with the next edit, together with all before it.
func (j *Journal) Append(name string, to *plan.Plan) error {
	if j == nil {
		return nil
	}
	line, err := lineOf(name, j.last, to)
	if err != nil {
		return err
	}
	j.add(state{name, to, int64(len(line))})
	vanished := j.file != nil && !j.stillThere()
	if j.file == nil || vanished || j.outgrown() || j.Trouble() != nil {
		if err := j.renew(); err != nil {
			return err
		}
		j.renewed = j.renewed || vanished
		return nil
	}
	return j.write(line)
}

// Resume takes steps that were recovered, all at once.
func (j *Journal) Resume(steps []Step) error {
	for _, s := range steps {
		line, err := lineOf(s.Name, j.last, s.Plan)
		if err != nil {
			return err
		}
		j.add(state{s.Name, s.Plan, int64(len(line))})
	}
	return j.renew()
}

func (j *Journal) write(line []byte) error {
	j.waiting = append(j.waiting, line...)
	if _, err := j.file.Write(j.waiting); err != nil {
		if cut := j.file.Truncate(j.good); cut != nil {
			_ = j.letFile() // half a line stands there: the next edit writes the journal anew
		}
		return notKept(err)
	}
	j.good += int64(len(j.waiting))
	j.waiting = nil
	j.flushSoon()
	return nil
}

func notKept(err error) error {
	cause := err
	if failure := (*atomicfile.Failure)(nil); errors.As(err, &failure) {
		cause = failure.Err // its sentence is about a plan that is saved
	}
	return fmt.Errorf("the journal of unsaved work cannot be kept, since %s (%w)", atomicfile.Reason(cause), cause)
}

// flushSoon hands what was written to the disk a second from now at the latest, whether or not another edit comes.
func (j *Journal) flushSoon() {
	j.mutex.Lock()
	defer j.mutex.Unlock()
	if !j.due {
		j.due = true
		j.ops.After(syncEvery, j.flush)
	}
}

func (j *Journal) flush() {
	j.mutex.Lock()
	file := j.file
	j.due = false
	j.mutex.Unlock()
	if file == nil {
		return
	}
	if err := file.Sync(); err != nil && !errors.Is(err, os.ErrClosed) {
		j.mutex.Lock()
		j.unflushed = err
		j.mutex.Unlock()
	}
}

// Trouble is why the disk did not confirm what was written; the next edit writes the journal anew.
func (j *Journal) Trouble() error {
	if j == nil {
		return nil
	}
	j.mutex.Lock()
	defer j.mutex.Unlock()
	if j.unflushed == nil {
		return nil
	}
	return notKept(j.unflushed)
}

// Renewed tells once that the journal had been deleted while it was written and was made again, with all its edits.
func (j *Journal) Renewed() bool {
	if j == nil || !j.renewed {
		return false
	}
	j.renewed = false
	return true
}

// stillThere reports whether the file that is written is the one that a next start would find.
func (j *Journal) stillThere() bool {
	mine, errMine := j.file.Stat()
	there, errThere := os.Lstat(j.path)
	return errMine == nil && errThere == nil && os.SameFile(mine, there)
}

// renew writes the whole journal anew, at once or not at all: at the first edit, when it has outgrown its plan, when it was
// deleted, and when the disk had failed.
func (j *Journal) renew() error {
	j.info.Before += j.trim()
	if j.file != nil && !j.stillThere() {
		j.letLock()
	}
	if err := j.letFile(); err != nil {
		return notKept(err)
	}
	if err := j.claim(); err != nil {
		return notKept(err)
	}
	text, err := j.text()
	if err != nil {
		return notKept(err)
	}
	err = atomicfile.Write(j.path, func(w io.Writer) error { _, err := w.Write(text); return err }, j.ops.private())
	if err != nil {
		return notKept(err)
	}
	file, err := j.ops.Append(j.path)
	if err != nil {
		return notKept(err)
	}
	j.mutex.Lock()
	j.file, j.unflushed = file, nil
	j.mutex.Unlock()
	j.good, j.waiting = int64(len(text)), nil
	return nil
}

// text is the whole journal.
func (j *Journal) text() ([]byte, error) {
	head, err := json.Marshal(j.info)
	if err != nil {
		return nil, err
	}
	lines, err := j.lines()
	return append(written(head), lines...), err
}

// mostNames is how many names are tried for a journal.
const mostNames = 100

// claim makes the folder and takes a name in it; the lock stands before the journal, so that none is ever seen without.
func (j *Journal) claim() error {
	if j.lock != nil {
		return nil
	}
	if err := os.MkdirAll(j.folder, 0o700); err != nil {
		return err
	}
	for range mostNames {
		path := filepath.Join(j.folder, fmt.Sprintf("unsaved-%08x%s", rand.Uint32(), extension))
		lock, err := planfile.Guard(path+lockExtension, 0o600)
		if errors.Is(err, planfile.ErrGuarded) {
			continue
		}
		if err != nil {
			return err
		}
		if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
			j.path, j.lock = path, lock
			return nil
		}
		_ = lock.Unlock() // somebody left a journal of this name
	}
	return errors.New("its folder has no name left")
}

func (j *Journal) letFile() error {
	if j.file == nil {
		return nil
	}
	j.mutex.Lock()
	file := j.file
	j.file = nil
	j.mutex.Unlock()
	return file.Close()
}

func (j *Journal) letLock() {
	_ = os.Remove(j.lock.Path()) // gone with its folder as a rule
	_ = j.lock.Unlock()
	j.lock = nil
}

// Remove ends the journal: its edits are saved, or given up.
func (j *Journal) Remove() error {
	if j == nil || j.lock == nil {
		return nil
	}
	err := errors.Join(j.letFile(), gone(os.Remove(j.path)), gone(os.Remove(j.lock.Path())), j.lock.Unlock())
	j.lock = nil
	return err
}

// gone takes a file that is not there for a removed one.
func gone(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// File is the journal itself, blank before the first edit.
func (j *Journal) File() string { return j.path }
