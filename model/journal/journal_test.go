package journal_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/journal"
	"stageloom/model/plan"
	"stageloom/model/plan/plantest"
)

// lines writes a journal of edits and returns its lines; the journal's own file stays locked until the test ends.
func begun(t testing.TB, base *plan.Plan) (*journal.Journal, string) {
	t.Helper()
	folder := t.TempDir()
	j, err := journal.Create(folder, journal.Info{Path: "show.stageloom", Began: time.Unix(1, 0)}, base)
	require.NoError(t, err)
	return j, folder
}

// copied is a journal's file under another name: as if its program were dead.
func copied(t testing.TB, j *journal.Journal, change func(string) string) string {
	t.Helper()
	text, err := os.ReadFile(j.File())
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "left.journal")
	require.NoError(t, os.WriteFile(path, []byte(change(string(text))), 0o600))
	return path
}

func same(text string) string { return text }

// noted makes an edit of a note and writes it into the journal.
func noted(t testing.TB, j *journal.Journal, p *plan.Plan, note string) *plan.Plan {
	t.Helper()
	next := withNote(t, p, note)
	require.NoError(t, j.Append("Note "+note, next))
	return next
}

func withNote(t testing.TB, p *plan.Plan, note string) *plan.Plan {
	t.Helper()
	next, err := plan.Do(p, nil, func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Note = note
		e.SetSettings(settings)
		return nil
	})
	require.NoError(t, err)
	return next
}

func TestWhatWasWrittenIsRecoveredStepByStep(t *testing.T) {
	base := plan.New("Show")
	j, _ := begun(t, base)
	first := noted(t, j, base, "a")
	second := noted(t, j, first, "b")
	left, err := journal.Open(copied(t, j, same))
	require.NoError(t, err)
	require.NoError(t, left.Fault)
	require.Equal(t, "show.stageloom", left.Path)
	require.True(t, plan.Equal(base, left.Base))
	require.Len(t, left.Steps, 2)
	require.Equal(t, "Note a", left.Steps[0].Name)
	require.True(t, plan.Equal(second, left.Plan()))
	require.NoError(t, j.Remove())
	require.NoFileExists(t, j.File())
}

func TestWhatStandsBeforeAFaultIsGood(t *testing.T) {
	base := plan.New("Show")
	j, _ := begun(t, base)
	first := noted(t, j, base, "a")
	noted(t, j, first, "b")
	t.Cleanup(func() { _ = j.Remove() })
	for name, change := range map[string]func(string) string{
		"the last line cut off":      func(text string) string { return text[:len(text)-9] },
		"a byte of it flipped":       func(text string) string { return strings.Replace(text, `Note b`, `Note c`, 1) },
		"something else behind":      func(text string) string { return strings.Replace(text, "Note b", "Note\nb", 1) },
		"a checksum that is no such": func(text string) string { return text[:strings.LastIndex(text[:len(text)-1], "\n")+1] + "zz\n" },
	} {
		t.Run(name, func(t *testing.T) {
			left, err := journal.Open(copied(t, j, change))
			require.NoError(t, err)
			require.Error(t, left.Fault)
			require.True(t, plan.Equal(first, left.Plan()))
		})
	}
}

func TestFilesThatAreNoJournalAreRefused(t *testing.T) {
	j, _ := begun(t, plan.New("Show"))
	t.Cleanup(func() { _ = j.Remove() })
	for name, change := range map[string]func(string) string{
		"empty":                func(string) string { return "" },
		"foreign":              func(string) string { return "hello\n" },
		"its beginning broken": func(text string) string { return "0" + text[1:] },
		"the head alone":       func(text string) string { return text[:strings.Index(text, "\n")+1] },
	} {
		t.Run(name, func(t *testing.T) {
			_, err := journal.Open(copied(t, j, change))
			require.ErrorContains(t, err, "left.journal")
		})
	}
}

func TestAJournalWhoseProgramLivesIsNotOffered(t *testing.T) {
	base := plan.New("Show")
	j, folder := begun(t, base)
	noted(t, j, base, "a")
	require.Empty(t, journal.LeftBehind(folder))
	orphan := copied(t, j, same)
	require.NoError(t, os.Rename(orphan, filepath.Join(folder, "orphan.journal")))
	left := journal.LeftBehind(folder)
	require.Len(t, left, 1)
	require.NoError(t, left[0].Remove())
	require.Empty(t, journal.LeftBehind(folder))
	require.NoError(t, j.Remove())
	empty, err := os.ReadDir(folder)
	require.NoError(t, err)
	require.Empty(t, empty, "neither journal nor lock stays")
}

func TestAFolderThatCannotBeMadeIsToldOf(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	_, err := journal.Create(filepath.Join(file, "inside"), journal.Info{}, plan.New("Show"))
	require.ErrorContains(t, err, "cannot be kept")
}

func TestReplayEqualsTheEditsWhateverTheyAre(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		base, ids := plantest.Plan(rt, 10), plan.NewIDSource(7, 7)
		j, _ := begun(t, base)
		states := []*plan.Plan{base}
		for range rapid.IntRange(0, 6).Draw(rt, "edits") {
			now := states[len(states)-1]
			next, err := plan.Do(now, ids, plantest.Edit(rt, now, ids).Do)
			if err != nil {
				continue
			}
			require.NoError(t, j.Append("edit", next))
			states = append(states, next)
		}
		left, err := journal.Open(copied(t, j, same))
		require.NoError(t, err)
		require.Len(t, left.Steps, len(states)-1)
		require.True(t, plan.Equal(states[len(states)-1], left.Plan()))
		require.NoError(t, j.Remove())
	})
}

func FuzzOpen(f *testing.F) {
	base := plan.New("Show")
	j, _ := begun(f, base)
	noted(f, j, base, "a")
	text, err := os.ReadFile(j.File())
	require.NoError(f, err)
	require.NoError(f, j.Remove())
	f.Add(text)
	f.Add([]byte("00000000 {}\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		path := filepath.Join(t.TempDir(), "x.journal")
		require.NoError(t, os.WriteFile(path, text, 0o600))
		left, err := journal.Open(path)
		if err == nil {
			require.Empty(t, plan.Check(left.Plan()), "what is recovered is a plan that stands")
		}
	})
}

func BenchmarkAppend(b *testing.B) {
	base := plan.New("Show")
	j, _ := begun(b, base)
	states := []*plan.Plan{withNote(b, base, "x"), base}
	n := 0
	for b.Loop() {
		if err := j.Append("Note", states[n%2]); err != nil {
			b.Fatal(err)
		}
		n++
	}
	require.NoError(b, j.Remove())
}
