package journal_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/journal"
	"stageloom/model/plan"
)

// flipped is a text with one bit of a line changed, which counts from 1.
func flipped(line int) func(string) string {
	return func(text string) string {
		lines := strings.SplitAfter(text, "\n")
		signs := []byte(lines[line-1])
		signs[len(signs)/2] ^= 1
		lines[line-1] = string(signs)
		return strings.Join(lines, "")
	}
}

func TestAJournalThatIsDamagedAtItsBeginningIsToldOfAndKept(t *testing.T) {
	base := plan.New("Show")
	j, _ := begun(t, base)
	noted(t, j, noted(t, j, base, "a"), "b")
	t.Cleanup(func() { _ = j.Remove() })
	for name, c := range map[string]struct {
		change func(string) string
		reason string
	}{
		"in its head":       {flipped(1), "its beginning is damaged"},
		"in its plan":       {flipped(2), "unsaved work on show.stageloom"},
		"in its first edit": {flipped(3), "its first edit is damaged"},
		"cut in its plan":   {func(text string) string { return text[:strings.Index(text, "\n")+20] }, "its beginning is damaged"},
	} {
		t.Run(name, func(t *testing.T) {
			damaged := copied(t, j, c.change)
			folder := filepath.Dir(damaged)
			left, unread := journal.Look(folder)
			require.Empty(t, left)
			require.Len(t, unread, 1)
			require.ErrorContains(t, unread[0], c.reason)
			require.ErrorContains(t, unread[0], damaged)
			require.NoError(t, unread[0].SetAside())
			require.FileExists(t, damaged+".damaged")
			_, unread = journal.Look(folder)
			require.Empty(t, unread, "told once")
			entries, err := os.ReadDir(folder)
			require.NoError(t, err)
			require.Len(t, entries, 1)
		})
	}
	t.Run("one of a newer program is told of and left alone", func(t *testing.T) {
		newer := filepath.Join(t.TempDir(), "newer.journal")
		require.NoError(t, os.WriteFile(newer, journal.Written(`{"stageloom_journal": 99}`), 0o600))
		_, unread := journal.Look(filepath.Dir(newer))
		require.Len(t, unread, 1)
		require.ErrorContains(t, unread[0], "written by a newer Stageloom")
		require.NoError(t, unread[0].SetAside())
		require.FileExists(t, newer)
	})
}

func TestWhatIsOverIsClearedAwayAndWhatIsNotStays(t *testing.T) {
	base := plan.New("Show")
	j, folder := begun(t, base)
	empty := copied(t, j, same)
	noted(t, j, base, "a")
	full := copied(t, j, same)
	for n := range 200 {
		require.NoError(t, os.WriteFile(filepath.Join(folder, fmt.Sprintf("old-%d.journal.lock", n)), nil, 0o600))
	}
	require.NoError(t, os.Rename(empty, filepath.Join(folder, "empty.journal")))
	require.NoError(t, os.Rename(full, filepath.Join(folder, "full.journal")))
	halves := []string{".old.journal.0badcafe.saving", "." + filepath.Base(j.File()) + ".0badcafe.saving"}
	for _, name := range append(halves, "notes.txt", "readme.lock") {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), nil, 0o600))
	}
	require.Len(t, journal.LeftBehind(folder), 1)
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	var names []string
	for _, entry := range entries {
		names = append(names, entry.Name())
	}
	mine := filepath.Base(j.File())
	require.ElementsMatch(t, []string{"full.journal", mine, mine + ".lock", halves[1], "notes.txt", "readme.lock"}, names)
	require.NoError(t, j.Remove())
}

func TestOneJournalIsRecoveredByOneWindow(t *testing.T) {
	base := plan.New("Show")
	j, _ := begun(t, base)
	noted(t, j, base, "a")
	path := copied(t, j, same)
	require.NoError(t, j.Remove())
	first, second := journal.LeftBehind(filepath.Dir(path)), journal.LeftBehind(filepath.Dir(path))
	require.NoError(t, first[0].Claim())
	require.ErrorIs(t, second[0].Claim(), journal.ErrTaken)
	require.Empty(t, journal.LeftBehind(filepath.Dir(path)), "it is not offered meanwhile")
	first[0].Release()
	require.NoError(t, second[0].Remove())
	require.ErrorIs(t, first[0].Claim(), journal.ErrTaken)
	require.ErrorIs(t, first[0].Remove(), journal.ErrTaken)
}
