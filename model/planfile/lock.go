package planfile

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"

	"stageloom/model/atomicfile"
)

// Holder says who edits a plan.
type Holder struct {
	Host    string    `json:"host"`
	Process int       `json:"process"`
	Since   time.Time `json:"since"`
}

// ThisProcess is the holder that this program is, from now on.
func ThisProcess(now time.Time) Holder {
	host, err := os.Hostname()
	if err != nil {
		host = "this computer"
	}
	return Holder{Host: host, Process: os.Getpid(), Since: now}
}

// Held is the error of a plan that is being edited elsewhere.
type Held struct {
	Path string
	// By is zero where the lock does not tell.
	By Holder
}

// Error says who holds the plan and what to do.
func (h *Held) Error() string {
	who := "another window"
	if h.By.Host != "" {
		who = fmt.Sprintf("another window on %s (process %d, since %s)", h.By.Host, h.By.Process, h.By.Since.Format("2006-01-02 15:04"))
	}
	return fmt.Sprintf("%s is being edited in %s, so it is read-only here; close it there to edit it here", filepath.Base(h.Path), who)
}

// Unlockable is the error of a plan whose lock cannot be made, e.g. in a folder without the right to write.
type Unlockable struct {
	Path string
	Err  error
}

// Error gives the reason and what to do.
func (u *Unlockable) Error() string {
	reason := "no lock can be made beside it"
	switch {
	case errors.Is(u.Err, atomicfile.ErrProtected):
		reason = "its file mode lets nobody write"
	case errors.Is(u.Err, fs.ErrPermission):
		reason = "its folder does not let you write in it"
	}
	return fmt.Sprintf("%s is read-only here: %s (%v); save it to another folder to edit it", filepath.Base(u.Path), reason, u.Err)
}

// Unwrap gives the cause.
func (u *Unlockable) Unwrap() error { return u.Err }

// Lock is the right to edit a plan. The plan file itself is never locked, since a save replaces it; the lock is
// a file beside it, which the operating system frees when the program ends, however it ends.
type Lock struct {
	path string
	lock *flock.Flock
}

// mostAttempts is how often a lock is tried that vanishes while it is taken.
const mostAttempts = 10

// Acquire takes the lock of the plan at path, which need not exist yet. *Held and *Unlockable mean read-only,
// and say why.
func Acquire(path string, who Holder) (*Lock, error) {
	beside, err := LockPath(path)
	if err != nil {
		return nil, &Unlockable{path, err}
	}
	if info, err := os.Stat(path); err == nil && info.Mode()&0o200 == 0 {
		return nil, &Unlockable{path, atomicfile.ErrProtected} // a save would be refused
	}
	for range mostAttempts {
		lock := flock.New(beside, flock.SetPermissions(0o666)) // the user's mask narrows it
		taken, err := lock.TryLock()
		switch {
		case err != nil:
			return nil, &Unlockable{path, err}
		case !taken:
			return nil, &Held{path, holder(beside)}
		case !stillThere(lock):
			_ = lock.Unlock() // its holder removed the file while we took the lock on it
			continue
		}
		l := &Lock{beside, lock}
		return l, l.tell(who)
	}
	return nil, &Unlockable{path, errors.New("the lock changes hands too fast")}
}

// LockPath is the lock beside the plan at path: .NAME.stageloom.lock in the folder where the plan really lies.
func LockPath(path string) (string, error) {
	target, err := atomicfile.Resolve(path)
	if err != nil {
		return "", err
	}
	folder, name := filepath.Split(target)
	return filepath.Join(folder, "."+name+".lock"), nil
}

// stillThere tells whether the locked file is the one that others would lock.
func stillThere(lock *flock.Flock) bool {
	mine, errMine := lock.Stat()
	there, errThere := os.Stat(lock.Path())
	return errMine == nil && errThere == nil && os.SameFile(mine, there)
}

// tell writes the holder into the lock. Where the system keeps others from reading a locked file, the second
// window only knows that somebody holds it.
func (l *Lock) tell(who Holder) error {
	text, err := json.Marshal(who)
	if err != nil {
		return fmt.Errorf("write the lock: %w", err)
	}
	_ = os.WriteFile(l.path, append(text, '\n'), 0o666) // the lock holds without it
	return nil
}

func holder(path string) Holder {
	var who Holder
	text, err := os.ReadFile(path)
	if err != nil || json.Unmarshal(text, &who) != nil {
		return Holder{}
	}
	return who
}

// Release gives the lock back and removes its file.
func (l *Lock) Release() error {
	_ = os.Remove(l.path) // before it is free, so that nobody's new lock is removed; some systems refuse
	if err := l.lock.Unlock(); err != nil {
		return fmt.Errorf("give the lock back: %w", err)
	}
	return nil
}
