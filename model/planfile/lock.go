package planfile

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
	"unicode"

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

// Held is the error of a plan that is being edited elsewhere, or may be.
type Held struct {
	Path string
	// By is zero where the lock does not tell.
	By Holder
	// Stale is true when no window that this computer knows of holds the plan, but the lock of another computer lies
	// beside it: that one may be editing still, where its disk keeps locks to itself, or it stopped without giving the
	// lock back. TakeOver takes it all the same.
	Stale bool
}

// Error says who holds the plan and what to do.
func (h *Held) Error() string {
	name := filepath.Base(h.Path)
	if h.Stale {
		return fmt.Sprintf("%s may be in use on another computer: %s (process %d) took it on %s and has not given it back, so it is read-only here; if nobody edits it there, take it over, or delete %s",
			name, clip(h.By.Host), h.By.Process, h.By.Since.Format("2006-01-02 15:04"), lockName(name))
	}
	who := "another window"
	if h.By.Host != "" {
		who = fmt.Sprintf("another window on %s (process %d, since %s)", clip(h.By.Host), h.By.Process, h.By.Since.Format("2006-01-02 15:04"))
	}
	return fmt.Sprintf("%s is being edited in %s, so it is read-only here; close it there to edit it here", name, who)
}

// mostHost is how much of a host's name is quoted: the longest a name on the net may be.
const mostHost = 63

func clip(host string) string {
	host = strings.ToValidUTF8(strings.Map(printable, host), "")
	if signs := []rune(host); len(signs) > mostHost {
		return string(signs[:mostHost]) + "…"
	}
	return host
}

func printable(sign rune) rune {
	if !unicode.IsPrint(sign) {
		return -1
	}
	return sign
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
	case errors.Is(u.Err, errNoLockFile):
		return fmt.Sprintf("%s is read-only here: %s beside it is a link, a folder or a device, or one file with another one, and nothing of the kind is locked or written; remove it if it is not yours, or save to another folder",
			filepath.Base(u.Path), lockName(filepath.Base(u.Path)))
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

// Acquire takes the lock of the plan at path, which need not exist yet. *Held and *Unlockable mean read-only,
// and say why.
func Acquire(path string, who Holder) (*Lock, error) { return acquire(path, who, false) }

// TakeOver is Acquire that also takes what another computer has not given back: after the user has said so, or for
// files that no other computer can be at.
func TakeOver(path string, who Holder) (*Lock, error) { return acquire(path, who, true) }

func acquire(path string, who Holder, stale bool) (*Lock, error) {
	beside, err := LockPath(path)
	if err != nil {
		return nil, &Unlockable{path, err}
	}
	if info, err := os.Stat(path); err == nil && info.Mode()&0o200 == 0 {
		return nil, &Unlockable{path, atomicfile.ErrProtected} // a save would be refused
	}
	lock, err := Guard(beside, 0o666) // the user's mask narrows it
	switch {
	case errors.Is(err, ErrGuarded):
		return nil, &Held{Path: path, By: holder(beside)}
	case err != nil:
		return nil, &Unlockable{path, err}
	}
	l := &Lock{beside, lock}
	if left := holder(beside); !stale && left.Host != "" && left.Host != who.Host {
		_ = lock.Unlock() // the file stays: it is what the other computer knows of
		return nil, &Held{Path: path, By: left, Stale: true}
	}
	l.tell(who)
	return l, nil
}

// Covers reports whether the plan at path is the one that this lock is of, by whatever name.
func (l *Lock) Covers(path string) bool {
	beside, err := LockPath(path)
	if err != nil {
		return false
	}
	if beside == l.path {
		return true
	}
	mine, errMine := os.Lstat(l.path)
	there, errThere := os.Lstat(beside) // the same where the disk does not tell capitals from small letters
	return errMine == nil && errThere == nil && os.SameFile(mine, there)
}

// LockPath is the lock beside the plan at path: .NAME.stageloom.lock in the folder where the plan really lies.
func LockPath(path string) (string, error) {
	target, err := atomicfile.Resolve(path)
	if err != nil {
		return "", err
	}
	folder, name := filepath.Split(target)
	return filepath.Join(folder, lockName(name)), nil
}

func lockName(name string) string { return "." + name + ".lock" }

// tell writes the holder into the lock. Where the system keeps others from reading a locked file, or this user from
// writing it, the second window only knows that somebody holds it: the lock holds without it.
func (l *Lock) tell(who Holder) {
	text, err := json.Marshal(who)
	if err != nil {
		return
	}
	_ = rewrite(l.lock, append(text, '\n'))
}

func holder(path string) Holder {
	var who Holder
	text, err := readGuard(path)
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
