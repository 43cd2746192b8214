package atomicfile_test

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stageloom/model/atomicfile"
)

// text writes a text.
func text(s string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, s)
		return err
	}
}

// folderWith returns the path of a file with the content "old" in a folder of its own.
func folderWith(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "plan.stageloom")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o640))
	return path
}

func content(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(data)
}

// alone holds that nothing lies in the file's folder but the file.
func alone(t *testing.T, path string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	require.Len(t, entries, 1, entries)
}

func TestASaveReplacesTheWholeFile(t *testing.T) {
	t.Run("a new file", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "new.txt")
		require.NoError(t, atomicfile.Write(path, text("first"), nil))
		require.Equal(t, "first", content(t, path))
		alone(t, path)
	})
	t.Run("an old file keeps its mode", func(t *testing.T) {
		path := folderWith(t)
		require.NoError(t, atomicfile.Write(path, text("new"), nil))
		require.Equal(t, "new", content(t, path))
		info, err := os.Stat(path)
		require.NoError(t, err)
		require.Equal(t, fs.FileMode(0o640), info.Mode().Perm())
		alone(t, path)
	})
	t.Run("in the working folder, by its bare name", func(t *testing.T) {
		t.Chdir(t.TempDir())
		require.NoError(t, atomicfile.Write("bare.txt", text("new"), nil))
		require.Equal(t, "new", content(t, "bare.txt"))
	})
	t.Run("larger than any buffer", func(t *testing.T) {
		path := folderWith(t)
		long := strings.Repeat("0123456789", 1<<17)
		require.NoError(t, atomicfile.Write(path, text(long), nil))
		require.True(t, long == content(t, path))
	})
}

func TestALinkStaysAndTheFileItLeadsToIsReplaced(t *testing.T) {
	path := folderWith(t)
	folder := t.TempDir()
	link := filepath.Join(folder, "link")
	require.NoError(t, os.Symlink(path, link))
	require.NoError(t, os.Symlink("link", filepath.Join(folder, "second")))
	require.NoError(t, atomicfile.Write(filepath.Join(folder, "second"), text("new"), nil))
	require.Equal(t, "new", content(t, path))
	alone(t, path)
	target, err := os.Readlink(link)
	require.NoError(t, err)
	require.Equal(t, path, target)

	t.Run("a link to a file that is not there yet", func(t *testing.T) {
		absent := filepath.Join(t.TempDir(), "absent")
		folder := t.TempDir()
		require.NoError(t, os.Symlink(absent, filepath.Join(folder, "link")))
		require.NoError(t, os.Symlink("link", filepath.Join(folder, "second")))
		require.NoError(t, atomicfile.Write(filepath.Join(folder, "second"), text("new"), nil))
		require.Equal(t, "new", content(t, absent))
	})
	t.Run("a link that leads to itself", func(t *testing.T) {
		loop := filepath.Join(t.TempDir(), "loop")
		require.NoError(t, os.Symlink(loop, loop))
		require.ErrorContains(t, atomicfile.Write(loop, text("new"), nil), "loop was not saved: ")
	})
}

// TestAFailedSaveLeavesTheOldFile lets each operation fail in turn.
func TestAFailedSaveLeavesTheOldFile(t *testing.T) {
	for name, c := range map[string]struct {
		broken  func(*atomicfile.Ops)
		message string
	}{
		"no temporary file can be made": {
			func(o *atomicfile.Ops) {
				o.Create = func(string) (atomicfile.File, error) { return nil, syscall.EACCES }
			},
			"plan.stageloom was not saved: the folder does not let you write in it; save to another folder (could not make the temporary file: permission denied). What was saved before is untouched",
		},
		"the disk is read-only": {
			func(o *atomicfile.Ops) {
				o.Create = func(string) (atomicfile.File, error) { return nil, syscall.EROFS }
			},
			"plan.stageloom was not saved: the disk is read-only; save to another disk (could not make the temporary file: read-only file system). What was saved before is untouched",
		},
		"all temporary names are taken": {
			func(o *atomicfile.Ops) { o.Create = func(string) (atomicfile.File, error) { return nil, fs.ErrExist } },
			"plan.stageloom was not saved: something went wrong on the disk; try again or save to another disk (could not make the temporary file: file already exists). What was saved before is untouched",
		},
		"the mode cannot be kept": {
			func(o *atomicfile.Ops) { breakFile(o, func(f *brokenFile) { f.chmod = syscall.EIO }) },
			"plan.stageloom was not saved: the disk failed; save to another disk and check this one (could not keep the file's mode: input/output error). What was saved before is untouched",
		},
		"the disk is full": {
			func(o *atomicfile.Ops) { breakFile(o, func(f *brokenFile) { f.write = syscall.ENOSPC }) },
			"plan.stageloom was not saved: the disk is full; make room or save to another disk (could not write the new file: no space left on device). What was saved before is untouched",
		},
		"the share of the disk is used up": {
			func(o *atomicfile.Ops) { breakFile(o, func(f *brokenFile) { f.write = syscall.EDQUOT }) },
			"plan.stageloom was not saved: your share of the disk is used up; make room or save to another disk (could not write the new file: disk quota exceeded). What was saved before is untouched",
		},
		"the disk takes less than it was given": {
			func(o *atomicfile.Ops) { breakFile(o, func(f *brokenFile) { f.short = true }) },
			"write plan.stageloom: short write",
		},
		"flushing fails": {
			func(o *atomicfile.Ops) { breakFile(o, func(f *brokenFile) { f.sync = syscall.EIO }) },
			"plan.stageloom was not saved: the disk failed; save to another disk and check this one (could not flush the new file to the disk: input/output error). What was saved before is untouched",
		},
		"closing fails, as on a network disk that is full": {
			func(o *atomicfile.Ops) { breakFile(o, func(f *brokenFile) { f.close = syscall.ENOSPC }) },
			"plan.stageloom was not saved: the disk is full; make room or save to another disk (could not close the new file: no space left on device). What was saved before is untouched",
		},
		"renaming fails": {
			func(o *atomicfile.Ops) { o.Rename = func(string, string) error { return syscall.EPERM } },
			"plan.stageloom was not saved: the folder does not let you write in it; save to another folder (could not put the new file in the old one's place: operation not permitted). What was saved before is untouched",
		},
	} {
		t.Run(name, func(t *testing.T) {
			path := folderWith(t)
			ops := atomicfile.System()
			c.broken(&ops)
			require.EqualError(t, atomicfile.Write(path, text("new"), &ops), c.message)
			require.Equal(t, "old", content(t, path))
			alone(t, path)
		})
	}
}

// brokenFile is a file whose operations fail with the given errors.
type brokenFile struct {
	atomicfile.File
	write, chmod, chown, sync, close error
	short                            bool
}

func breakFile(ops *atomicfile.Ops, set func(*brokenFile)) {
	create := ops.Create
	ops.Create = func(path string) (atomicfile.File, error) {
		file, err := create(path)
		broken := &brokenFile{File: file}
		set(broken)
		return broken, err
	}
}

func (f *brokenFile) Write(data []byte) (int, error) {
	if f.write != nil || f.short {
		n, err := f.File.Write(data[:len(data)/2])
		return n, errors.Join(f.write, err)
	}
	return f.File.Write(data)
}

func (f *brokenFile) Chown(owner, group int) error {
	if f.chown != nil {
		return f.chown
	}
	return f.File.Chown(owner, group)
}

func (f *brokenFile) Chmod(mode fs.FileMode) error { return errors.Join(f.chmod, f.File.Chmod(mode)) }
func (f *brokenFile) Sync() error                  { return errors.Join(f.sync, f.File.Sync()) }
func (f *brokenFile) Close() error                 { return errors.Join(f.close, f.File.Close()) }

func TestAModeThatTheDiskDoesNotKnowIsNoFailure(t *testing.T) {
	path := folderWith(t)
	ops := atomicfile.System()
	breakFile(&ops, func(f *brokenFile) { f.chmod = syscall.ENOTSUP })
	require.NoError(t, atomicfile.Write(path, text("new"), &ops))
	require.Equal(t, "new", content(t, path))
}

func TestAFolderThatCannotBeFlushedIsToldThoughTheFileStands(t *testing.T) {
	path := folderWith(t)
	ops := atomicfile.System()
	ops.SyncFolder = func(string) error { return syscall.EIO }
	err := atomicfile.Write(path, text("new"), &ops)
	var failure *atomicfile.Failure
	require.ErrorAs(t, err, &failure)
	require.True(t, failure.Replaced)
	require.EqualError(t, err, "plan.stageloom was saved, but the disk did not confirm it (input/output error): save again, or save to another disk too")
	require.Equal(t, "new", content(t, path))
}

func TestAnErrorOfTheWriterLeavesTheOldFile(t *testing.T) {
	path := folderWith(t)
	cause := errors.New("no such chapter")
	err := atomicfile.Write(path, func(w io.Writer) error {
		_, _ = io.WriteString(w, "half")
		return cause
	}, nil)
	require.ErrorIs(t, err, cause)
	require.EqualError(t, err, "write plan.stageloom: no such chapter")
	require.Equal(t, "old", content(t, path))
	alone(t, path)
}

func TestWhatMustNotBeReplacedIsNot(t *testing.T) {
	t.Run("a file marked read-only", func(t *testing.T) {
		path := folderWith(t)
		require.NoError(t, os.Chmod(path, 0o440))
		err := atomicfile.Write(path, text("new"), nil)
		require.ErrorIs(t, err, atomicfile.ErrProtected)
		require.ErrorContains(t, err, "plan.stageloom was not saved: the file is marked read-only; take the mark off or save under another name")
		require.Equal(t, "old", content(t, path))
	})
	t.Run("a folder", func(t *testing.T) {
		err := atomicfile.Write(t.TempDir(), text("new"), nil)
		require.ErrorIs(t, err, atomicfile.ErrNotRegular)
	})
	t.Run("a file in a folder that is not there", func(t *testing.T) {
		err := atomicfile.Write(filepath.Join(t.TempDir(), "gone", "x"), text("new"), nil)
		require.ErrorIs(t, err, fs.ErrNotExist)
		require.ErrorContains(t, err, "x was not saved: its folder is not there; make the folder, plug the disk in again, or save to another folder")
	})
	t.Run("a name beyond all length", func(t *testing.T) {
		err := atomicfile.Write(filepath.Join(t.TempDir(), strings.Repeat("x", 250)), text("new"), nil)
		require.ErrorContains(t, err, "the name is too long; choose a shorter name")
	})
}

const dieAt = "ATOMICFILE_TEST_DIES_AT"

// TestAProgramKilledBeforeTheRenameLeavesTheOldFile runs this test binary again as a program that is killed
// where the file is written, but not yet in its place.
func TestAProgramKilledBeforeTheRenameLeavesTheOldFile(t *testing.T) {
	if path := os.Getenv(dieAt); path != "" {
		ops := atomicfile.System()
		ops.Rename = func(string, string) error {
			self, err := os.FindProcess(os.Getpid())
			if err == nil {
				err = self.Kill()
			}
			return err
		}
		_ = atomicfile.Write(path, text("new"), &ops)
		t.Fatal("lived on")
	}
	path := folderWith(t)
	child := exec.Command(os.Args[0], "-test.run", t.Name())
	child.Env = append(os.Environ(), dieAt+"="+path)
	require.Error(t, child.Run())
	require.Equal(t, -1, child.ProcessState.ExitCode(), "killed by a signal")
	require.Equal(t, "old", content(t, path))

	left, err := filepath.Glob(filepath.Join(filepath.Dir(path), ".plan.stageloom.*.saving"))
	require.NoError(t, err)
	require.Len(t, left, 1)
	require.Equal(t, "new", content(t, left[0]))

	t.Run("a fresh leftover may belong to another program and stays", func(t *testing.T) {
		require.NoError(t, atomicfile.Write(path, text("newer"), nil))
		require.FileExists(t, left[0])
	})
	t.Run("an old leftover goes with the next save, and nothing else does", func(t *testing.T) {
		yesterday := time.Now().Add(-24 * time.Hour)
		mine := []string{".plan.stageloom.notes.saving", ".plan.stageloom.beef.saving", ".plan.stageloom.12345678.saved", ".other.stageloom.12345678.saving"}
		for i, name := range mine {
			mine[i] = filepath.Join(filepath.Dir(path), name)
			require.NoError(t, os.WriteFile(mine[i], []byte("mine"), 0o600))
			require.NoError(t, os.Chtimes(mine[i], yesterday, yesterday))
		}
		require.NoError(t, os.Chtimes(left[0], yesterday, yesterday))
		require.NoError(t, atomicfile.Write(path, text("newest"), nil))
		require.NoFileExists(t, left[0])
		for _, name := range mine {
			require.FileExists(t, name)
		}
		require.Equal(t, "newest", content(t, path))
	})
}
