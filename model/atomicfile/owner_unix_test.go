//go:build unix

package atomicfile_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/atomicfile"
)

// crew and lender are numbers of a group and a user that no system gives by itself.
const crew, lender = 54321, 54322

// shared is a file of another group and owner, and the operations that tell what they lose.
func shared(t *testing.T) (path string, ops atomicfile.Ops, told *[]string) {
	t.Helper()
	if os.Getuid() != 0 {
		t.Skip("only root gives files away")
	}
	path = folderWith(t)
	require.NoError(t, os.Chmod(path, 0o664))
	require.NoError(t, os.Chown(path, lender, crew))
	told, ops = &[]string{}, atomicfile.System()
	ops.Tell = func(sentence string) { *told = append(*told, sentence) }
	return path, ops, told
}

func stat(t *testing.T, path string) (owner, group uint32, mode fs.FileMode) {
	t.Helper()
	info, err := os.Stat(path)
	require.NoError(t, err)
	held, is := info.Sys().(*syscall.Stat_t)
	require.True(t, is)
	return held.Uid, held.Gid, info.Mode().Perm()
}

func TestGroupAndOwnerStayWhereThatIsPermitted(t *testing.T) {
	path, ops, told := shared(t)
	require.NoError(t, atomicfile.Write(path, text("new"), &ops))
	owner, group, mode := stat(t, path)
	require.EqualValues(t, lender, owner)
	require.EqualValues(t, crew, group)
	require.Equal(t, fs.FileMode(0o664), mode)
	require.Empty(t, *told)
}

func TestAGroupThatCannotStayIsToldAndTheOneInsteadMayNotWrite(t *testing.T) {
	path, ops, told := shared(t)
	breakFile(&ops, func(f *brokenFile) { f.chown = syscall.EPERM })
	require.NoError(t, atomicfile.Write(path, text("new"), &ops))
	require.Equal(t, []string{
		"plan.stageloom could not keep its group (54321), whose members may not write it any more: give it back with chgrp, or let its owner save",
		"plan.stageloom belongs to you now, no longer to user 54322",
	}, *told)
	_, _, mode := stat(t, path)
	require.Equal(t, fs.FileMode(0o644), mode)
	require.Equal(t, "new", content(t, path))

	t.Run("nothing is said of a save that failed", func(t *testing.T) {
		path, ops, told := shared(t)
		breakFile(&ops, func(f *brokenFile) { f.chown, f.sync = syscall.EPERM, syscall.EIO })
		require.Error(t, atomicfile.Write(path, text("new"), &ops))
		require.Empty(t, *told)
	})
}

func TestAFileOfSeveralNamesIsSplitAndThatIsSaidOnce(t *testing.T) {
	path := folderWith(t)
	other := filepath.Join(t.TempDir(), "other.stageloom")
	if err := os.Link(path, other); err != nil {
		t.Skipf("no second name can be made here: %v", err)
	}
	var told []string
	ops := atomicfile.System()
	ops.Tell = func(sentence string) { told = append(told, sentence) }
	require.NoError(t, atomicfile.Write(path, text("new"), &ops))
	require.Equal(t, []string{"plan.stageloom was one of 2 names of one file; it is a file of its own now, and the other names keep what was saved before"}, told)
	require.Equal(t, "old", content(t, other))
	require.NoError(t, atomicfile.Write(path, text("newer"), &ops))
	require.Len(t, told, 1)
}
