package planfile_test

import (
	"encoding/json"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stageloom/model/atomicfile"
	"stageloom/model/planfile"
)

var mixer = planfile.Holder{Host: "mixing-desk", Process: 4711, Since: time.Date(2031, 6, 14, 14, 2, 0, 0, time.UTC)}

func TestOneWindowEditsAndTheNextLearnsWho(t *testing.T) {
	path, p, stamp := onDisk(t)
	beside := filepath.Join(filepath.Dir(path), ".barley.stageloom.lock")

	lock, err := planfile.Acquire(path, mixer)
	require.NoError(t, err)
	require.FileExists(t, beside)

	_, err = planfile.Acquire(path, mixer)
	var held *planfile.Held
	require.ErrorAs(t, err, &held)
	require.Equal(t, mixer, held.By)
	require.EqualError(t, err, "barley.stageloom is being edited in another window on mixing-desk (process 4711, since 2031-06-14 14:02), so it is read-only here; close it there to edit it here")

	t.Run("a save, which replaces the plan, leaves it locked", func(t *testing.T) {
		_, err := planfile.Save(path, p, stamp, nil)
		require.NoError(t, err)
		_, err = planfile.Acquire(path, mixer)
		require.ErrorAs(t, err, &held)
	})
	t.Run("by whatever link it is reached", func(t *testing.T) {
		link := filepath.Join(t.TempDir(), "other.stageloom")
		require.NoError(t, os.Symlink(path, link))
		_, err := planfile.Acquire(link, mixer)
		require.ErrorAs(t, err, &held)
	})
	t.Run("a lock that does not tell who", func(t *testing.T) {
		require.NoError(t, os.WriteFile(beside, []byte("?"), 0o644))
		_, err := planfile.Acquire(path, mixer)
		require.EqualError(t, err, "barley.stageloom is being edited in another window, so it is read-only here; close it there to edit it here")
	})

	require.NoError(t, lock.Release())
	require.NoFileExists(t, beside)
	lock, err = planfile.Acquire(path, mixer)
	require.NoError(t, err)
	require.NoError(t, lock.Release())
}

func TestALockLeftByAProgramThatDiedIsTaken(t *testing.T) {
	const locks = "PLANFILE_TEST_LOCKS"
	if path := os.Getenv(locks); path != "" {
		_, err := planfile.Acquire(path, planfile.ThisProcess(time.Now()))
		require.NoError(t, err)
		os.Exit(7) // without a release
	}
	path, _, _ := onDisk(t)
	child := exec.Command(os.Args[0], "-test.run", t.Name())
	child.Env = append(os.Environ(), locks+"="+path)
	require.Error(t, child.Run())
	require.Equal(t, 7, child.ProcessState.ExitCode())
	beside, err := planfile.LockPath(path)
	require.NoError(t, err)
	require.FileExists(t, beside)

	lock, err := planfile.Acquire(path, planfile.ThisProcess(time.Now()))
	require.NoError(t, err)
	require.NoError(t, lock.Release())
}

func TestAPlanThatCannotBeLockedIsReadOnlyAndSaysWhy(t *testing.T) {
	t.Run("its folder is not there", func(t *testing.T) {
		_, err := planfile.Acquire(filepath.Join(t.TempDir(), "gone", "x.stageloom"), mixer)
		var unlockable *planfile.Unlockable
		require.ErrorAs(t, err, &unlockable)
		require.ErrorIs(t, err, fs.ErrNotExist)
		require.ErrorContains(t, err, "x.stageloom is read-only here: no lock can be made beside it (")
		require.ErrorContains(t, err, "; save it to another folder to edit it")
	})
	t.Run("something else stands where the lock goes", func(t *testing.T) {
		path, _, _ := onDisk(t)
		beside, err := planfile.LockPath(path)
		require.NoError(t, err)
		require.NoError(t, os.Symlink(beside, beside))
		_, err = planfile.Acquire(path, mixer)
		var unlockable *planfile.Unlockable
		require.ErrorAs(t, err, &unlockable)
	})
	t.Run("the file is marked read-only", func(t *testing.T) {
		path, _, _ := onDisk(t)
		require.NoError(t, os.Chmod(path, 0o444))
		_, err := planfile.Acquire(path, mixer)
		require.ErrorIs(t, err, atomicfile.ErrProtected)
		require.EqualError(t, err, "barley.stageloom is read-only here: its file mode lets nobody write (the file is marked read-only); save it to another folder to edit it")
	})
	t.Run("the folder may not be written", func(t *testing.T) {
		path, _, _ := onDisk(t)
		require.NoError(t, os.Chmod(filepath.Dir(path), 0o555))
		defer os.Chmod(filepath.Dir(path), 0o755) //nolint:errcheck // the folder is the test's own
		lock, err := planfile.Acquire(path, mixer)
		if err == nil {
			require.NoError(t, lock.Release())
			t.Skip("this user may write everywhere")
		}
		require.ErrorContains(t, err, "barley.stageloom is read-only here: its folder does not let you write in it")
	})
}

func TestALockThatIsALinkNeverWritesWhatItLeadsTo(t *testing.T) {
	for name, make := range map[string]func(victim, beside string) error{
		"a link":              func(victim, beside string) error { return os.Symlink(victim, beside) },
		"a link to nothing":   func(victim, beside string) error { return os.Symlink(victim+"-none", beside) },
		"a second name of it": os.Link,
		"a folder":            func(_, beside string) error { return os.Mkdir(beside, 0o755) },
	} {
		t.Run(name, func(t *testing.T) {
			path, _, _ := onDisk(t)
			victim := filepath.Join(t.TempDir(), "victim")
			require.NoError(t, os.WriteFile(victim, []byte("precious"), 0o600))
			beside, err := planfile.LockPath(path)
			require.NoError(t, err)
			require.NoError(t, make(victim, beside))
			for _, take := range []func(string, planfile.Holder) (*planfile.Lock, error){planfile.Acquire, planfile.TakeOver} {
				_, err = take(path, mixer)
				require.EqualError(t, err, "barley.stageloom is read-only here: .barley.stageloom.lock beside it is a link, a folder or a device, or one file with another one, and nothing of the kind is locked or written; remove it if it is not yours, or save to another folder")
			}
			held, err := os.ReadFile(victim)
			require.NoError(t, err)
			require.Equal(t, "precious", string(held))
			require.NoFileExists(t, victim+"-none")
		})
	}
}

func TestTheLockOfAnotherComputerIsNotTakenUnsaid(t *testing.T) {
	path, _, _ := onDisk(t)
	beside, err := planfile.LockPath(path)
	require.NoError(t, err)
	text, err := json.Marshal(mixer)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(beside, text, 0o644))
	here := planfile.Holder{Host: "office", Process: 1, Since: mixer.Since}

	_, err = planfile.Acquire(path, here)
	var held *planfile.Held
	require.ErrorAs(t, err, &held)
	require.True(t, held.Stale)
	require.EqualError(t, err, "barley.stageloom may be in use on another computer: mixing-desk (process 4711) took it on 2031-06-14 14:02 and has not given it back, so it is read-only here; if nobody edits it there, take it over, or delete .barley.stageloom.lock")
	left, err := os.ReadFile(beside)
	require.NoError(t, err)
	require.Equal(t, string(text), string(left), "it still tells who")

	lock, err := planfile.TakeOver(path, here)
	require.NoError(t, err)
	_, err = planfile.TakeOver(path, mixer)
	require.ErrorAs(t, err, &held, "nobody takes what a living window holds")
	require.False(t, held.Stale)
	require.Equal(t, here, held.By)
	require.NoError(t, lock.Release())

	t.Run("one that this computer left is taken", func(t *testing.T) {
		require.NoError(t, os.WriteFile(beside, text, 0o644))
		lock, err := planfile.Acquire(path, mixer)
		require.NoError(t, err)
		require.NoError(t, lock.Release())
	})
	t.Run("a name that floods is clipped and printed plainly", func(t *testing.T) {
		text, err := json.Marshal(planfile.Holder{Host: "\x1b[2J" + strings.Repeat("x", 2000), Process: 1})
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(beside, text, 0o644))
		_, err = planfile.Acquire(path, here)
		require.Less(t, len(err.Error()), 400)
		require.NotContains(t, err.Error(), "\x1b")
	})
}

func TestALockKnowsItsPlanByEveryName(t *testing.T) {
	path, _, _ := onDisk(t)
	lock, err := planfile.Acquire(path, mixer)
	require.NoError(t, err)
	link := filepath.Join(t.TempDir(), "other.stageloom")
	require.NoError(t, os.Symlink(path, link))
	require.True(t, lock.Covers(path))
	require.True(t, lock.Covers(link))
	require.False(t, lock.Covers(filepath.Join(filepath.Dir(path), "another.stageloom")))
	require.NoError(t, lock.Release())
}

func TestManyWindowsThatOpenAndCloseNeverHoldOnePlanTwice(t *testing.T) {
	path, _, _ := onDisk(t)
	inside := make(chan struct{}, 1)
	done := make(chan int)
	for range 8 {
		go func() {
			taken := 0
			for range 400 {
				lock, err := planfile.Acquire(path, mixer)
				if err != nil {
					continue
				}
				select {
				case inside <- struct{}{}:
					runtime.Gosched()
					<-inside
				default:
					t.Error("two windows hold the lock")
				}
				taken++
				if err := lock.Release(); err != nil {
					t.Error(err)
				}
			}
			done <- taken
		}()
	}
	sum := 0
	for range 8 {
		sum += <-done
	}
	require.Positive(t, sum)
}
