package planfile_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stageloom/model/atomicfile"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// onDisk puts the file of every field on the disk and opens it.
func onDisk(t *testing.T) (path string, p *plan.Plan, stamp planfile.Stamp) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "barley.stageloom")
	require.NoError(t, os.WriteFile(path, []byte(everyField(t)), 0o644))
	p, stamp, err := planfile.Open(path)
	require.NoError(t, err)
	return path, p, stamp
}

func renamed(t *testing.T, p *plan.Plan, name string) *plan.Plan {
	t.Helper()
	return edited(t, p, func(e *plan.Edit) {
		settings := p.Settings
		settings.Name = name
		e.SetSettings(settings)
	})
}

func TestSavedIsOpened(t *testing.T) {
	path, p, stamp := onDisk(t)
	next := renamed(t, p, "Second try")
	saved, err := planfile.Save(path, next, stamp, nil)
	require.NoError(t, err)

	opened, again, err := planfile.Open(path)
	require.NoError(t, err)
	require.True(t, plan.Equal(next, opened))
	require.Equal(t, saved, again)
	require.Equal(t, planfile.Version, again.Version)

	t.Run("and saved again, over its own last save", func(t *testing.T) {
		_, err := planfile.Save(path, p, saved, nil)
		require.NoError(t, err)
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, everyField(t), string(text))
	})
	t.Run("a new plan, where no file is", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "new.stageloom")
		stamp, err := planfile.Save(path, p, planfile.Stamp{}, nil)
		require.NoError(t, err)
		changed, err := stamp.Changed(path)
		require.NoError(t, err)
		require.False(t, changed)
	})
}

func TestAFileThatIsGoneIsNotMadeAgainUnasked(t *testing.T) {
	path, p, stamp := onDisk(t)
	require.NoError(t, os.Rename(path, filepath.Join(filepath.Dir(path), "kept.stageloom")))
	_, err := planfile.Save(path, p, stamp, nil)
	var gone *planfile.Gone
	require.ErrorAs(t, err, &gone)
	require.EqualError(t, err, "barley.stageloom was not saved: it lies in its folder no more; something else has deleted it, moved it or given it another name; save it here again, or under another name")
	require.NoFileExists(t, path)
	_, err = planfile.Save(path, p, planfile.Stamp{}, nil)
	require.NoError(t, err, "when the user says so")
	require.FileExists(t, path)

	t.Run("where its folder is gone too, that is what is told", func(t *testing.T) {
		path, p, stamp := onDisk(t)
		require.NoError(t, os.RemoveAll(filepath.Dir(path)))
		_, err := planfile.Save(path, p, stamp, nil)
		require.ErrorContains(t, err, "its folder is not there; make the folder, plug the disk in again")
	})
}

func TestASaveThatTheDiskDidNotConfirmIsNotTakenForSomebodyElses(t *testing.T) {
	path, p, stamp := onDisk(t)
	ops := atomicfile.System()
	ops.SyncFolder = func(string) error { return syscall.EIO }
	next := renamed(t, p, "Second try")
	stamp, err := planfile.Save(path, next, stamp, &ops)
	require.ErrorContains(t, err, "save again")
	again, err := planfile.Save(path, next, stamp, nil)
	require.NoError(t, err, "saved again, as the message says")
	_, opened, err := planfile.Open(path)
	require.NoError(t, err)
	require.Equal(t, again, opened)
}

func TestWhatTheUserGaveUpIsWrittenOverAndNothingNewer(t *testing.T) {
	path, p, stamp := onDisk(t)
	require.NoError(t, os.WriteFile(path, []byte("theirs"), 0o644))
	_, err := planfile.Save(path, p, stamp, nil)
	var overwrite *planfile.Overwrite
	require.ErrorAs(t, err, &overwrite)
	require.NoError(t, os.WriteFile(path, []byte("newer"), 0o644))
	_, err = planfile.Save(path, p, overwrite.Found, nil)
	require.ErrorAs(t, err, &overwrite, "what came after the question is asked about anew")
	_, err = planfile.Save(path, p, overwrite.Found, nil)
	require.NoError(t, err)
	_, _, err = planfile.Open(path)
	require.NoError(t, err)
}

func TestAFileThatSomethingElseChangedIsNotOverwritten(t *testing.T) {
	path, p, stamp := onDisk(t)
	theirs := strings.Replace(everyField(t), "Barley", "Barloy", 1) // of the same length
	require.NoError(t, os.WriteFile(path, []byte(theirs), 0o644))
	written := time.Date(2031, 6, 1, 14, 3, 0, 0, time.Local)
	require.NoError(t, os.Chtimes(path, written, written))

	changed, err := stamp.Changed(path)
	require.NoError(t, err)
	require.True(t, changed)

	_, err = planfile.Save(path, p, stamp, nil)
	var overwrite *planfile.Overwrite
	require.ErrorAs(t, err, &overwrite)
	require.False(t, overwrite.New)
	require.EqualError(t, err, "barley.stageloom was not saved: something else has changed it since it was opened here, last at 2031-06-01 14:03; save under another name and compare, or say that it shall be replaced")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, theirs, string(text))

	t.Run("even when size and time are the same", func(t *testing.T) {
		path, p, stamp := onDisk(t)
		require.NoError(t, os.WriteFile(path, []byte(theirs), 0o644))
		require.NoError(t, os.Chtimes(path, stamp.ModTime, stamp.ModTime))
		_, err := planfile.Save(path, p, stamp, nil)
		require.ErrorAs(t, err, &overwrite)
	})
	t.Run("a file that was touched but not changed is the same", func(t *testing.T) {
		path, p, stamp := onDisk(t)
		require.NoError(t, os.Chtimes(path, written, written))
		changed, err := stamp.Changed(path)
		require.NoError(t, err)
		require.False(t, changed)
		_, err = planfile.Save(path, p, stamp, nil)
		require.NoError(t, err)
	})
	t.Run("a file that is gone has changed", func(t *testing.T) {
		path, _, stamp := onDisk(t)
		require.NoError(t, os.Remove(path))
		changed, err := stamp.Changed(path)
		require.NoError(t, err)
		require.True(t, changed)
	})
	t.Run("a new plan does not fall on a file that is there", func(t *testing.T) {
		_, err := planfile.Save(path, p, planfile.Stamp{}, nil)
		require.ErrorAs(t, err, &overwrite)
		require.True(t, overwrite.New)
		require.EqualError(t, err, "barley.stageloom was not saved: a file of this name is there already, written 2031-06-01 14:03; choose another name, or say that it shall be replaced")
	})
	t.Run("unless it shall be replaced", func(t *testing.T) {
		stamp, err := planfile.Replace(path, p, nil)
		require.NoError(t, err)
		_, again, err := planfile.Open(path)
		require.NoError(t, err)
		require.Equal(t, stamp, again)
	})
}

func TestAFailedSaveLeavesThePlanOnTheDisk(t *testing.T) {
	path, p, stamp := onDisk(t)
	ops := atomicfile.System()
	ops.Rename = func(string, string) error { return syscall.ENOSPC }
	_, err := planfile.Save(path, renamed(t, p, "Second try"), stamp, &ops)
	var failure *atomicfile.Failure
	require.ErrorAs(t, err, &failure)
	opened, again, err := planfile.Open(path)
	require.NoError(t, err)
	require.True(t, plan.Equal(p, opened))
	require.Equal(t, stamp, again)

	t.Run("and one that could not be read back is refused before", func(t *testing.T) {
		_, err := planfile.Save(path, plan.New(""), stamp, nil)
		require.ErrorContains(t, err, "barley.stageloom was not saved: the plan could not be read back, since plan")
	})
}

func TestTheFirstSaveOverAnOlderVersionKeepsItsFile(t *testing.T) {
	path, p, stamp := onDisk(t)
	stamp.Version = 0 // as if the file had been of a version before this one
	beside := filepath.Join(filepath.Dir(path), "barley.v0.stageloom")

	saved, err := planfile.Save(path, renamed(t, p, "Second try"), stamp, nil)
	require.NoError(t, err)
	text, err := os.ReadFile(beside)
	require.NoError(t, err)
	require.Equal(t, everyField(t), string(text))

	t.Run("the second save does not", func(t *testing.T) {
		_, err := planfile.Save(path, p, saved, nil)
		require.NoError(t, err)
		files, err := filepath.Glob(filepath.Join(filepath.Dir(path), "*"))
		require.NoError(t, err)
		require.Equal(t, []string{path, beside}, files)
	})
	t.Run("the same file is kept once, another one beside it", func(t *testing.T) {
		_, stamp, err := planfile.Open(path)
		require.NoError(t, err)
		stamp.Version = 0
		again, err := planfile.Save(path, renamed(t, p, "Third try"), stamp, nil)
		require.NoError(t, err)
		require.NoFileExists(t, filepath.Join(filepath.Dir(path), "barley.v0-2.stageloom"))
		again.Version = 0
		_, err = planfile.Save(path, p, again, nil)
		require.NoError(t, err)
		third, _, err := planfile.Open(filepath.Join(filepath.Dir(path), "barley.v0-2.stageloom"))
		require.NoError(t, err)
		require.Equal(t, "Third try", third.Settings.Name)
	})
	t.Run("where it cannot be kept, nothing is saved", func(t *testing.T) {
		path, p, stamp := onDisk(t)
		stamp.Version = 0
		ops := atomicfile.System()
		ops.Create = func(string) (atomicfile.File, error) { return nil, syscall.ENOSPC }
		_, err := planfile.Save(path, p, stamp, &ops)
		require.ErrorContains(t, err, "barley.v0.stageloom was not saved: the disk is full")
	})
}

func TestWhatCannotBeOpenedIsToldInWords(t *testing.T) {
	folder := t.TempDir()
	for name, c := range map[string]struct{ path, message string }{
		"no file":  {filepath.Join(folder, "none.stageloom"), "none.stageloom cannot be opened: there is no such file; check the name and the folder: "},
		"a pipe":   {pipe(t), "pipe.stageloom is a pipe or a device, not a plan: choose a file whose name ends in .stageloom"},
		"a folder": {folder, filepath.Base(folder) + " is a folder, not a plan: choose a file whose name ends in .stageloom"},
	} {
		t.Run(name, func(t *testing.T) {
			_, _, err := planfile.Open(c.path)
			require.ErrorContains(t, err, c.message)
		})
	}
	t.Run("a file that may not be read", func(t *testing.T) {
		path := filepath.Join(folder, "secret.stageloom")
		require.NoError(t, os.WriteFile(path, []byte(everyField(t)), 0o000))
		if file, err := os.Open(path); err == nil {
			require.NoError(t, file.Close())
			t.Skip("this user may read everything")
		}
		_, _, err := planfile.Open(path)
		require.ErrorIs(t, err, fs.ErrPermission)
		require.ErrorContains(t, err, "secret.stageloom cannot be opened: you may not read it; ask its owner, or change its permissions")
	})
	t.Run("an unreadable plan by its name", func(t *testing.T) {
		path := filepath.Join(folder, "short.stageloom")
		require.NoError(t, os.WriteFile(path, nil, 0o644))
		_, _, err := planfile.Open(path)
		require.EqualError(t, err, "short.stageloom cannot be read: the file is empty. Go back to an older copy.")
	})
}
