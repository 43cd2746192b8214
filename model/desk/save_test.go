package desk_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/atomicfile"
	"stageloom/model/desk"
	"stageloom/model/geom"
	"stageloom/model/journal"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// saved is a desk whose plan lies in a file of a folder of its own.
func saved(t *testing.T) (d *desk.Desk, ref plan.Ref, path string) {
	t.Helper()
	d, ref = withBox(t)
	path = filepath.Join(t.TempDir(), "show.stageloom")
	require.NoError(t, d.SaveAs(path, false))
	t.Cleanup(d.Close)
	d.Select(ref)
	return d, ref, path
}

func TestSaveAsUnderTheSameNameAsksBeforeItWritesOverAChange(t *testing.T) {
	d, _, path := saved(t)
	theirs := func(text string) { require.NoError(t, os.WriteFile(path, []byte(text), 0o600)) }
	theirs("theirs")
	require.NoError(t, shift(d, "Move", geom.Point{X: 1}))
	var overwrite *planfile.Overwrite
	require.ErrorAs(t, d.SaveAs(path, false), &overwrite)
	held, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "theirs", string(held))
	theirs("newer")
	require.ErrorAs(t, d.SaveOver(path, overwrite.Found), &overwrite, "the yes was for what was there when it was given")
	require.NoError(t, d.SaveOver(path, overwrite.Found))
	require.False(t, d.Unsaved())
	require.NoError(t, d.SaveAs(path, false), "nothing else has changed it since")
}

func TestSaveAsOverAnotherFileAsksAndGoesThereWhenTold(t *testing.T) {
	d, _, path := saved(t)
	other := filepath.Join(filepath.Dir(path), "other.stageloom")
	require.NoError(t, os.WriteFile(other, []byte("theirs"), 0o600))
	var overwrite *planfile.Overwrite
	require.ErrorAs(t, d.SaveAs(other, false), &overwrite)
	require.True(t, overwrite.New)
	require.Equal(t, path, d.Path())
	require.NoError(t, d.SaveOver(other, overwrite.Found))
	require.Equal(t, other, d.Path())
}

func TestAPlanOpenedByALinkIsSavedUnderItsRealName(t *testing.T) {
	first, _, path := saved(t)
	first.Close()
	link := filepath.Join(t.TempDir(), "link.stageloom")
	require.NoError(t, os.Symlink(path, link))
	d := desk.New(plan.NewIDSource(3, 4))
	require.NoError(t, d.Open(link))
	require.NoError(t, d.SaveAs(path, false), "it is edited in this window and in no other")
	require.Equal(t, path, d.Path())
	require.NoError(t, d.SaveAs(link, false))
	require.NoError(t, d.Save())
	d.Close()
	require.NoError(t, d.Open(path))
	require.Empty(t, d.ReadOnly())
	d.Close()
}

func TestAFileThatIsGoneIsMadeAgainOnlyWhenTold(t *testing.T) {
	d, _, path := saved(t)
	require.NoError(t, shift(d, "Move", geom.Point{X: 1}))
	require.NoError(t, os.Rename(path, path+".away"))
	var gone *planfile.Gone
	require.ErrorAs(t, d.Save(), &gone)
	require.NoFileExists(t, path)
	require.True(t, d.Unsaved())
	require.ErrorAs(t, d.SaveAs(path, false), &gone)
	require.NoError(t, d.SaveOver(path, planfile.Stamp{}))
	require.FileExists(t, path)
	require.False(t, d.Unsaved())
}

func TestASaveThatTheDiskDidNotConfirmIsSavedAgainWithoutAQuestion(t *testing.T) {
	d, _, path := saved(t)
	unconfirmed := atomicfile.System()
	unconfirmed.SyncFolder = func(string) error { return syscall.EIO }
	require.NoError(t, shift(d, "Move", geom.Point{X: 1}))
	d.UseOps(&unconfirmed)
	require.ErrorContains(t, d.Save(), "save again")
	require.True(t, d.Unsaved(), "not for sure")
	require.False(t, d.ChangedOnDisk())
	d.UseOps(nil)
	require.NoError(t, d.Save())
	require.False(t, d.Unsaved())

	t.Run("under another name too", func(t *testing.T) {
		other := filepath.Join(filepath.Dir(path), "other.stageloom")
		d.UseOps(&unconfirmed)
		require.ErrorContains(t, d.SaveAs(other, false), "save again")
		require.Equal(t, other, d.Path(), "the plan stands there")
		d.UseOps(nil)
		require.NoError(t, d.Save())
	})
}

func TestWhatASaveCouldNotKeepOfTheFileIsToldOnce(t *testing.T) {
	d, _, path := saved(t)
	if err := os.Link(path, filepath.Join(t.TempDir(), "second.stageloom")); err != nil {
		t.Skipf("no second name can be made here: %v", err)
	}
	require.NoError(t, d.Save())
	lost := d.Lost()
	require.Len(t, lost, 1)
	require.Contains(t, lost[0], "show.stageloom was one of 2 names")
	require.NoError(t, d.Save())
	require.Empty(t, d.Lost())
}

func TestTheSecondWindowEditsWhenTheFirstHasGone(t *testing.T) {
	first, ref, path := saved(t)
	second := desk.New(plan.NewIDSource(3, 4))
	t.Cleanup(second.Close)
	require.NoError(t, second.Open(path))
	require.NotNil(t, second.HeldBy())
	taken, err := second.Retake()
	require.NoError(t, err)
	require.False(t, taken, "the first still lives")
	require.NoError(t, shift(first, "Move", geom.Point{X: 7}))
	require.NoError(t, first.Save())
	first.Close()
	taken, err = second.Retake()
	require.NoError(t, err)
	require.True(t, taken)
	require.Equal(t, 7.0, x(second, ref), "read again, since the first had saved")
	require.Empty(t, second.ReadOnly())
	require.Nil(t, second.HeldBy())
	second.Select(ref)
	require.NoError(t, shift(second, "Move", geom.Point{X: 1}))
	require.NoError(t, second.Save())
}

func TestThePlanOfAnotherComputerIsTakenOverOnlyWhenTold(t *testing.T) {
	first, ref, path := saved(t)
	first.Close()
	beside, err := planfile.LockPath(path)
	require.NoError(t, err)
	text, err := json.Marshal(planfile.Holder{Host: "another-computer", Process: 12})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(beside, text, 0o600))
	d := desk.New(plan.NewIDSource(3, 4))
	t.Cleanup(d.Close)
	require.NoError(t, d.Open(path))
	require.Contains(t, d.ReadOnly(), "another-computer")
	require.True(t, d.HeldBy().Stale)
	taken, err := d.Retake()
	require.NoError(t, err)
	require.False(t, taken)
	taken, err = d.TakeOver()
	require.NoError(t, err)
	require.True(t, taken)
	d.Select(ref)
	require.NoError(t, shift(d, "Move", geom.Point{X: 1}))
}

// crashed is a desk on what a dead program left in a folder, which keeps its own journal there.
func crashed(t *testing.T, folder string) (*desk.Desk, []*journal.Left) {
	t.Helper()
	d := desk.New(plan.NewIDSource(3, 4))
	d.KeepJournal(folder)
	t.Cleanup(d.Close)
	return d, d.LeftBehind()
}

func TestASecondCrashKeepsTheStepsOfTheFirst(t *testing.T) {
	d, ref := withBox(t)
	folder := t.TempDir()
	d.KeepJournal(folder)
	d.Select(ref)
	require.NoError(t, shift(d, "Right", geom.Point{X: 1}))
	require.NoError(t, shift(d, "Further", geom.Point{X: 2}))
	for range 3 { // each crash leaves the journal of the one before
		orphaned(t, folder)
		folder = filepath.Join(folder, "orphans")
		again, left := crashed(t, folder)
		require.Len(t, left, 1)
		require.NoError(t, again.Recover(left[0]))
		names, at := again.History()
		require.Equal(t, []string{"Recovered", "Right", "Further"}, names)
		require.Equal(t, 2, at)
	}
	d.Close()
}

func TestTwoWindowsDoNotRecoverOneJournal(t *testing.T) {
	d, ref := withBox(t)
	folder := t.TempDir()
	d.KeepJournal(folder)
	d.Select(ref)
	require.NoError(t, shift(d, "Right", geom.Point{X: 1}))
	orphaned(t, folder)
	d.Close()
	folder = filepath.Join(folder, "orphans")
	first, offered := crashed(t, folder)
	second, too := crashed(t, folder)
	require.NoError(t, first.Recover(offered[0]))
	before := second.Plan()
	require.ErrorIs(t, second.Recover(too[0]), journal.ErrTaken)
	require.Same(t, before, second.Plan())
}

func TestAnUndoAfterAFullDiskIsInTheJournal(t *testing.T) {
	d, ref := withBox(t)
	folder := t.TempDir()
	full := true
	ops := journal.System()
	create := ops.Files.Create
	ops.Files.Create = func(path string) (atomicfile.File, error) {
		if full {
			return nil, syscall.ENOSPC
		}
		return create(path)
	}
	d.UseJournalOps(&ops)
	d.KeepJournal(folder)
	d.Select(ref)
	require.NoError(t, shift(d, "Right", geom.Point{X: 1}))
	require.Contains(t, d.JournalTrouble(), "the disk is full")
	require.NoError(t, shift(d, "Further", geom.Point{X: 2}))
	full = false
	require.True(t, d.Undo())
	require.Empty(t, d.JournalTrouble())
	orphaned(t, folder)
	d.Close()
	again, left := crashed(t, filepath.Join(folder, "orphans"))
	require.NoError(t, again.Recover(left[0]))
	names, _ := again.History()
	require.Equal(t, []string{"Recovered", "Right", "Further", "Go to Right"}, names, "all steps, those of the full disk too")
}

func TestAProgramWithoutAFolderForItsJournalSaysSo(t *testing.T) {
	d, _ := withBox(t)
	d.NoJournal("HOME is not set")
	require.Equal(t, "unsaved work is not kept, so a crash would lose it: HOME is not set", d.JournalTrouble())
	d.NewPlan(plan.New("Other"))
	require.NotEmpty(t, d.JournalTrouble())
}
