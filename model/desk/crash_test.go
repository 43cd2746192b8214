package desk_test

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stageloom/model/atomicfile"
	"stageloom/model/desk"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// TestMain lets the test program be a child that is killed.
func TestMain(m *testing.M) {
	if folder := os.Getenv("STAGELOOM_EDITING_CHILD"); folder != "" {
		editForever(folder)
	}
	if folder := os.Getenv("STAGELOOM_TAKING_CHILD"); folder != "" {
		seed, _ := strconv.ParseUint(os.Getenv("STAGELOOM_TAKING_SEED"), 10, 64)
		takeForever(folder, seed)
	}
	os.Exit(m.Run())
}

// editForever opens the plan of a folder and nudges its device, saving now and then; after each edit that is done it
// says how many there were. It never ends by itself.
func editForever(folder string) {
	d := desk.New(plan.NewIDSource(uint64(os.Getpid()), 1))
	d.KeepJournal(filepath.Join(folder, "unsaved"))
	if err := d.Open(filepath.Join(folder, "show.stageloom")); err != nil {
		fmt.Println("cannot open:", err)
		os.Exit(1)
	}
	for done := 1; ; done++ {
		err := d.Do("Note "+strconv.Itoa(done), func(e *plan.Edit) error {
			settings := e.Now().Settings
			settings.Note = strconv.Itoa(done)
			e.SetSettings(settings)
			return nil
		})
		if err == nil && done%7 == 0 {
			err = d.Save()
		}
		if err != nil {
			fmt.Println("cannot edit:", err)
			os.Exit(1)
		}
		fmt.Println(done)
	}
}

// TestKilledAtAnyMomentNothingIsLostButTheLastEdit kills an editing program 200 times.
func TestKilledAtAnyMomentNothingIsLostButTheLastEdit(t *testing.T) {
	kills := 200
	if testing.Short() {
		kills = 20
	}
	random := rand.New(rand.NewPCG(1, 2))
	recovered := 0
	for range kills {
		if killedOnce(t, random) {
			recovered++
		}
	}
	require.Positive(t, recovered, "some kills leave edits that no file holds")
}

// killedOnce reports whether there was something to recover.
func killedOnce(t *testing.T, random *rand.Rand) bool {
	t.Helper()
	folder := t.TempDir()
	path := filepath.Join(folder, "show.stageloom")
	_, err := planfile.Replace(path, plan.New("Show"), nil)
	require.NoError(t, err)
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), "STAGELOOM_EDITING_CHILD="+folder)
	said, err := child.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, child.Start())
	lines := bufio.NewScanner(said)
	require.True(t, lines.Scan(), "the child edits")
	go func() {
		time.Sleep(time.Duration(random.IntN(12_000)) * time.Microsecond)
		_ = child.Process.Kill()
	}()
	last := lines.Text()
	for lines.Scan() {
		last = lines.Text()
	}
	_ = child.Wait()
	done, err := strconv.Atoi(strings.TrimSpace(last))
	require.NoError(t, err, "the child said %q", last)

	saved, _, err := planfile.Open(path)
	require.NoError(t, err, "the file is whole")
	held := number(saved)
	d := desk.New(plan.NewIDSource(3, 4))
	d.KeepJournal(filepath.Join(folder, "unsaved"))
	left := d.LeftBehind()
	require.LessOrEqual(t, len(left), 1)
	if len(left) == 1 {
		d.Recover(left[0])
		require.Equal(t, path, d.Path())
		require.True(t, d.Unsaved())
		held = max(held, number(d.Plan()))
		require.NoError(t, d.Save(), "what is recovered is saved to its file")
	}
	d.Close()
	require.GreaterOrEqual(t, held, done, "every edit that was done is in the file or the journal")
	require.LessOrEqual(t, held, done+1)
	return len(left) == 1
}

func number(p *plan.Plan) int {
	n, _ := strconv.Atoi(p.Settings.Note)
	return n
}

func TestAJournalEndsWithASaveAndWithAClose(t *testing.T) {
	d, ref := withBox(t)
	folder := t.TempDir()
	d.KeepJournal(folder)
	d.Select(ref)
	count := func() int {
		journals, err := filepath.Glob(filepath.Join(folder, "*.journal"))
		require.NoError(t, err)
		return len(journals)
	}
	require.Zero(t, count(), "nothing is kept before the first edit")
	require.NoError(t, shift(d, "Move", geom.Point{X: 1}))
	require.Equal(t, 1, count())
	require.NoError(t, d.SaveAs(filepath.Join(t.TempDir(), "show"), false))
	require.Zero(t, count())
	require.True(t, d.Undo())
	require.Equal(t, 1, count(), "an undo is an edit too")
	d.Close()
	require.Zero(t, count())
}

func TestAPlanNeverSavedIsRecoveredWithItsSteps(t *testing.T) {
	d, ref := withBox(t)
	folder := t.TempDir()
	d.KeepJournal(folder)
	d.Select(ref)
	require.NoError(t, shift(d, "Right", geom.Point{X: 1}))
	require.NoError(t, shift(d, "Further", geom.Point{X: 2}))
	orphaned(t, folder)

	again := desk.New(plan.NewIDSource(3, 4))
	again.KeepJournal(filepath.Join(folder, "orphans"))
	left := again.LeftBehind()
	require.Len(t, left, 1)
	again.Recover(left[0])
	require.Equal(t, 3.0, x(again, ref))
	require.True(t, again.Unsaved())
	require.True(t, again.Undo())
	require.Equal(t, 1.0, x(again, ref))
	require.True(t, again.Undo())
	require.Equal(t, 0.0, x(again, ref))
	again.Close()
	d.Close()
}

// orphaned copies the journals of a folder to its folder "orphans", where no living program holds them.
func orphaned(t *testing.T, folder string) {
	t.Helper()
	orphans := filepath.Join(folder, "orphans")
	require.NoError(t, os.MkdirAll(orphans, 0o755))
	journals, err := filepath.Glob(filepath.Join(folder, "*.journal"))
	require.NoError(t, err)
	require.NotEmpty(t, journals)
	for _, name := range journals {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(orphans, filepath.Base(name)), text, 0o600))
	}
}

func TestAJournalThatCannotBeKeptStopsNothingAndIsTold(t *testing.T) {
	d, ref := withBox(t)
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	d.KeepJournal(filepath.Join(file, "inside"))
	d.Select(ref)
	require.NoError(t, shift(d, "Move", geom.Point{X: 1}))
	require.Contains(t, d.JournalTrouble(), "cannot be kept")
	require.Equal(t, 1.0, x(d, ref))
}

func TestAFullDiskLeavesFileAndPlanAndSaysSo(t *testing.T) {
	d, ref := withBox(t)
	path := filepath.Join(t.TempDir(), "show.stageloom")
	require.NoError(t, d.SaveAs(path, false))
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	d.KeepJournal(t.TempDir())
	d.Select(ref)
	require.NoError(t, shift(d, "Move", geom.Point{X: 1}))
	full := atomicfile.System()
	full.Rename = func(string, string) error { return errDiskFull }
	d.UseOps(&full)
	require.ErrorIs(t, d.Save(), errDiskFull)
	require.True(t, d.Unsaved())
	held, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(before), string(held))
	require.Equal(t, 1.0, x(d, ref), "the plan stays in the window")
	d.Close()
}

var errDiskFull = fmt.Errorf("no space left on device")

func TestAVanishedFolderIsToldOfAndThePlanStays(t *testing.T) {
	d, ref := withBox(t)
	folder := filepath.Join(t.TempDir(), "usb")
	require.NoError(t, os.Mkdir(folder, 0o755))
	require.NoError(t, d.SaveAs(filepath.Join(folder, "show"), false))
	d.KeepJournal(t.TempDir())
	d.Select(ref)
	require.NoError(t, shift(d, "Move", geom.Point{X: 1}))
	require.NoError(t, os.RemoveAll(folder))
	require.True(t, d.ChangedOnDisk())
	err := d.Save()
	require.ErrorContains(t, err, "show.stageloom")
	require.True(t, d.Unsaved())
	require.Equal(t, 1.0, x(d, ref))
	require.NoError(t, d.SaveAs(filepath.Join(t.TempDir(), "elsewhere"), false))
	require.False(t, d.Unsaved())
	d.Close()
}
