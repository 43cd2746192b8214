package journal_test

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stageloom/model/journal"
	"stageloom/model/plan"
)

// disk is a system whose faults and clock a test sets.
type disk struct {
	journal.Ops
	// write and sync are what the next write and flush fail with; synced and folders count what was flushed.
	write, sync     error
	synced, folders int
	waits           []time.Duration
	later           []func()
}

func newDisk() *disk {
	d := &disk{Ops: journal.System()}
	flush := d.Files.SyncFolder
	d.Files.SyncFolder = func(path string) error { d.folders++; return flush(path) }
	open := d.Append
	d.Append = func(path string) (journal.File, error) {
		file, err := open(path)
		return &diskFile{file, d}, err
	}
	d.After = func(wait time.Duration, do func()) { d.waits, d.later = append(d.waits, wait), append(d.later, do) }
	return d
}

// pass lets the time come that was waited for.
func (d *disk) pass() {
	due := d.later
	d.later = nil
	for _, do := range due {
		do()
	}
}

type diskFile struct {
	journal.File
	disk *disk
}

func (f *diskFile) Write(data []byte) (int, error) {
	if f.disk.write != nil {
		n, _ := f.File.Write(data[:len(data)/2])
		return n, f.disk.write
	}
	return f.File.Write(data)
}

func (f *diskFile) Sync() error {
	f.disk.synced++
	if f.disk.sync != nil {
		return f.disk.sync
	}
	return f.File.Sync()
}

// requireHeld demands that a journal holds a number of edits of which the last led to a plan.
func requireHeld(t *testing.T, j *journal.Journal, edits int, last *plan.Plan) *journal.Left {
	t.Helper()
	left, err := journal.Open(copied(t, j, same))
	require.NoError(t, err)
	require.NoError(t, left.Fault)
	require.Equal(t, edits, left.Edits())
	require.True(t, plan.Equal(last, left.Plan()))
	return left
}

func TestAnEditIsOnTheDiskASecondLaterThoughNoOtherComes(t *testing.T) {
	d := newDisk()
	now := plan.New("Show")
	j := journal.Begin(t.TempDir(), journal.Info{}, now, &d.Ops)
	now = noted(t, j, now, "a")
	require.Equal(t, 1, d.folders, "the folder is flushed when the journal is made")
	now = noted(t, j, now, "b")
	now = noted(t, j, now, "c")
	require.Len(t, d.later, 1, "one flush for all that comes before it")
	require.LessOrEqual(t, d.waits[0], time.Second)
	require.Zero(t, d.synced, "no edit waits for the disk")
	d.pass()
	require.Equal(t, 1, d.synced)
	now = noted(t, j, now, "d")
	require.Len(t, d.later, 1, "and another for what comes after")
	d.pass()
	require.Equal(t, 2, d.synced)
	requireHeld(t, j, 4, now)
	noted(t, j, now, "e")
	require.NoError(t, j.Remove())
	d.pass()
	require.Equal(t, 2, d.synced, "what is over is not flushed")
}

func TestAJournalThatADiskRefusedIsTriedAgainWithAllItsEdits(t *testing.T) {
	d := newDisk()
	now := plan.New("Show")
	j := journal.Begin(t.TempDir(), journal.Info{}, now, &d.Ops)
	now = noted(t, j, now, "a")
	d.write = syscall.ENOSPC
	for _, note := range []string{"b", "c"} {
		next := withNote(t, now, note)
		require.ErrorContains(t, j.Append("Note", next), "cannot be kept, since the disk is full (no space left on device)")
		requireHeld(t, j, 1, now0(t, j))
		now = next
	}
	d.write = nil
	now = noted(t, j, now, "d")
	requireHeld(t, j, 4, now)

	t.Run("also where it could not be made", func(t *testing.T) {
		folder := filepath.Join(t.TempDir(), "inside")
		require.NoError(t, os.WriteFile(folder, nil, 0o600))
		now := plan.New("Show")
		j := journal.Begin(folder, journal.Info{}, now, nil)
		next := withNote(t, now, "a")
		require.ErrorContains(t, j.Append("Note", next), "cannot be kept")
		require.NoError(t, os.Remove(folder))
		requireHeld(t, j, 2, noted(t, j, next, "b"))
		require.NoError(t, j.Remove())
	})
	t.Run("and where a flush failed", func(t *testing.T) {
		d.sync = syscall.EIO
		d.pass()
		require.ErrorContains(t, j.Trouble(), "cannot be kept, since the disk failed (input/output error)")
		d.sync = nil
		now = noted(t, j, now, "e")
		require.NoError(t, j.Trouble(), "written anew")
		requireHeld(t, j, 5, now)
	})
	require.NoError(t, j.Remove())
}

// now0 is the plan that a journal's file leads to.
func now0(t *testing.T, j *journal.Journal) *plan.Plan {
	t.Helper()
	left, err := journal.Open(copied(t, j, same))
	require.NoError(t, err)
	return left.Plan()
}

func TestAJournalThatIsDeletedWhileItIsWrittenIsMadeAgain(t *testing.T) {
	for name, remove := range map[string]func(j *journal.Journal) error{
		"with its folder": func(j *journal.Journal) error { return os.RemoveAll(filepath.Dir(j.File())) },
		"alone":           func(j *journal.Journal) error { return os.Remove(j.File()) },
	} {
		t.Run(name, func(t *testing.T) {
			folder := filepath.Join(t.TempDir(), "unsaved")
			now := plan.New("Show")
			j := journal.Begin(folder, journal.Info{}, now, nil)
			now = noted(t, j, now, "a")
			require.False(t, j.Renewed())
			require.NoError(t, remove(j))
			now = noted(t, j, now, "b")
			require.True(t, j.Renewed())
			require.False(t, j.Renewed(), "told once")
			requireHeld(t, j, 2, now)
			require.Empty(t, journal.LeftBehind(folder), "it is locked as before")
			require.NoError(t, j.Remove())
			entries, err := os.ReadDir(folder)
			require.NoError(t, err)
			require.Empty(t, entries)
		})
	}
}

// crowd is a plan of many devices.
func crowd(t *testing.T) *plan.Plan {
	t.Helper()
	p, err := plan.Do(plan.New("Show"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
		for range 1500 {
			e.AddDevice(plan.Device{Kind: "box", Note: "stands where the crew can reach it, away from the walkway and the exit"})
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

func moved(t *testing.T, p *plan.Plan) *plan.Plan {
	t.Helper()
	next, err := plan.Do(p, nil, func(e *plan.Edit) error {
		for device := range p.Devices.All() {
			device.X++
			plan.Put(e, device)
		}
		return nil
	})
	require.NoError(t, err)
	return next
}

func TestAJournalNeverOutgrowsItsPlanByMuchAndLosesNoEdit(t *testing.T) {
	now := crowd(t)
	j := journal.Begin(t.TempDir(), journal.Info{}, now, nil)
	now = moved(t, now)
	require.NoError(t, j.Append("Move all", now))
	info, err := os.Stat(j.File())
	require.NoError(t, err)
	most := max(info.Size()*3, 2<<20) // the plan, and three times a step, which is as large
	for range 39 {
		now = moved(t, now)
		require.NoError(t, j.Append("Move all", now))
		info, err := os.Stat(j.File())
		require.NoError(t, err)
		require.LessOrEqual(t, info.Size(), most)
	}
	left := requireHeld(t, j, 40, now)
	require.NotEmpty(t, left.Steps, "the latest edits can still be undone one by one")
	require.NoError(t, j.Remove())
}

func TestSmallEditsOfASmallPlanAllStay(t *testing.T) {
	now := plan.New("Show")
	j := journal.Begin(t.TempDir(), journal.Info{}, now, nil)
	for n := range 300 {
		now = noted(t, j, now, string(rune('a'+n%26)))
	}
	left := requireHeld(t, j, 300, now)
	require.Len(t, left.Steps, 300)
	require.NoError(t, j.Remove())
}
