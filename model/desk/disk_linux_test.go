package desk_test

import (
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/plan"
)

// childEnv tells a copy of the test program to be the child of a test; it names the folder to work in.
const childEnv = "STAGELOOM_DISK_TEST_FOLDER"

// child runs the named test again in a process of its own, which this one sets apart, and fails when it does.
func child(t *testing.T, name, folder string, apart *syscall.SysProcAttr) {
	t.Helper()
	data, err := os.ReadFile("/proc/self/exe")
	require.NoError(t, err)
	program := filepath.Join(folder, "child") // where the go tool builds tests, another user may not look
	require.NoError(t, os.WriteFile(program, data, 0o755))
	process := exec.Command(program, "-test.run=^"+name+"$", "-test.v")
	process.Env = append(os.Environ(), childEnv+"="+folder)
	process.SysProcAttr = apart
	process.Dir = folder
	out, err := process.CombinedOutput()
	if process.Process == nil {
		t.Skipf("this system lets no process be set apart: %v", err)
	}
	require.NoError(t, err, "%s", out)
	if strings.Contains(string(out), "--- SKIP") {
		t.Skipf("%s", out)
	}
	require.Contains(t, string(out), "--- PASS: "+name)
}

// inNamespace sets a process apart with mounts of its own, which end with it.
func inNamespace() *syscall.SysProcAttr {
	return &syscall.SysProcAttr{
		Cloneflags:  syscall.CLONE_NEWNS | syscall.CLONE_NEWUSER,
		UidMappings: []syscall.SysProcIDMap{{HostID: os.Getuid(), Size: 1}},
		GidMappings: []syscall.SysProcIDMap{{HostID: os.Getgid(), Size: 1}},
	}
}

// notes makes devices with notes that fill many kilobytes of a plan file.
func notes(d *desk.Desk, count int) error {
	return d.Do("Notes", func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
		for range count {
			e.AddDevice(plan.Device{Kind: "box", Note: strings.Repeat("cable along the wall. ", 50)})
		}
		return nil
	})
}

// requireKept demands that a save that failed left the old file, says why, and that the edits lie in the journal.
func requireKept(t *testing.T, d *desk.Desk, journals, path string, old []byte, reasons ...string) {
	t.Helper()
	before := d.Plan()
	err := d.Save()
	require.Error(t, err)
	for _, reason := range reasons {
		require.ErrorContains(t, err, reason)
	}
	now, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(old), string(now), "the file is as it was, to the last byte")
	require.Same(t, before, d.Plan(), "the plan stays on the desk")
	require.True(t, d.Unsaved())
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	for _, entry := range entries {
		require.NotContains(t, entry.Name(), ".tmp", "nothing half written lies beside it")
	}
	lines, err := filepath.Glob(filepath.Join(journals, "*"))
	require.NoError(t, err)
	require.NotEmpty(t, lines)
	kept := false
	for _, line := range lines {
		data, err := os.ReadFile(line)
		require.NoError(t, err)
		kept = kept || strings.Contains(string(data), "cable along the wall")
	}
	require.True(t, kept, "the journal holds what the file does not")
	require.Empty(t, d.JournalTrouble())
}

// opened is a desk with a journal on a small plan file in a folder.
func opened(t *testing.T, folder, journals string) (d *desk.Desk, path string, old []byte) {
	t.Helper()
	path = filepath.Join(folder, "small.stageloom")
	d = desk.New(plan.NewIDSource(1, 2))
	d.NewPlan(plan.New("Small"))
	require.NoError(t, d.SaveAs(path, false))
	d.Close()
	old, err := os.ReadFile(path)
	require.NoError(t, err)
	d = desk.New(plan.NewIDSource(3, 4))
	d.KeepJournal(journals)
	require.NoError(t, d.Open(path))
	require.Empty(t, d.ReadOnly())
	return d, path, old
}

func TestAFullDiskLeavesTheFileAndTheJournal(t *testing.T) {
	folder := os.Getenv(childEnv)
	if folder == "" {
		child(t, t.Name(), t.TempDir(), inNamespace())
		return
	}
	disk, journals := filepath.Join(folder, "disk"), filepath.Join(folder, "journals")
	require.NoError(t, os.Mkdir(disk, 0o755))
	if err := syscall.Mount("tmpfs", disk, "tmpfs", 0, "size=64k"); err != nil {
		t.Skipf("this system lets no small disk be made: %v", err)
	}
	d, path, old := opened(t, disk, journals)
	require.NoError(t, notes(d, 200)) // 200 KiB and more
	requireKept(t, d, journals, path, old, "small.stageloom was not saved", "the disk is full", "make room or save to another disk", "untouched")
	require.NoError(t, d.SaveAs(filepath.Join(folder, "elsewhere.stageloom"), false), "as the message says")
	require.False(t, d.Unsaved())
}

func TestAFileThatMayNotGrowLeavesTheFileAndTheJournal(t *testing.T) {
	folder := os.Getenv(childEnv)
	if folder == "" {
		child(t, t.Name(), t.TempDir(), nil)
		return
	}
	journals := filepath.Join(folder, "journals")
	d, path, old := opened(t, folder, journals)
	require.NoError(t, notes(d, 200))
	signal.Ignore(syscall.SIGXFSZ)
	limit := syscall.Rlimit{Cur: 64 << 10, Max: 1 << 30}
	require.NoError(t, syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit))
	requireKept(t, d, journals, path, old, "small.stageloom was not saved", "a file may not grow that large here", "save to another disk")
}

// asNobody runs the test again as a user who owns nothing, where this one may write everywhere.
func asNobody(t *testing.T) {
	t.Helper()
	folder := t.TempDir()
	for path := folder; len(path) > len(os.TempDir()); path = filepath.Dir(path) {
		require.NoError(t, os.Chmod(path, 0o777))
	}
	var apart *syscall.SysProcAttr
	if os.Getuid() == 0 {
		apart = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
	}
	child(t, t.Name(), folder, apart)
}

func TestAFolderThatMayNotBeWrittenLeavesTheFileAndTheJournal(t *testing.T) {
	folder := os.Getenv(childEnv)
	if folder == "" {
		asNobody(t)
		return
	}
	closed, journals := filepath.Join(folder, "closed"), filepath.Join(folder, "journals")
	require.NoError(t, os.Mkdir(closed, 0o755))
	d, path, old := opened(t, closed, journals)
	require.NoError(t, notes(d, 3))
	require.NoError(t, os.Chmod(closed, 0o555))
	defer func() { require.NoError(t, os.Chmod(closed, 0o755)) }()
	requireKept(t, d, journals, path, old, "small.stageloom was not saved", "the folder does not let you write in it", "save to another folder")
	require.NoError(t, d.SaveAs(filepath.Join(folder, "elsewhere.stageloom"), false))
	d.Close()
}

func TestAPlanThatLiesWhereNothingMayBeWrittenOpensReadOnly(t *testing.T) {
	folder := os.Getenv(childEnv)
	if folder == "" {
		asNobody(t)
		return
	}
	closed := filepath.Join(folder, "closed")
	require.NoError(t, os.Mkdir(closed, 0o755))
	d := desk.New(plan.NewIDSource(1, 2))
	path := filepath.Join(closed, "show.stageloom")
	d.NewPlan(plan.New("Show"))
	require.NoError(t, d.SaveAs(path, false))
	d.Close()
	require.NoError(t, os.Chmod(closed, 0o555))
	defer func() { require.NoError(t, os.Chmod(closed, 0o755)) }()
	again := desk.New(plan.NewIDSource(5, 6))
	require.NoError(t, again.Open(path))
	require.Contains(t, again.ReadOnly(), "folder")
	require.ErrorContains(t, notes(again, 1), "folder")
}
