//go:build unix

package journal_test

import (
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/journal"
)

func TestAPipeInThePlaceOfAJournalIsNotWaitedFor(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, syscall.Mkfifo(filepath.Join(folder, "show.journal"), 0o600))
	left, unread := journal.Look(folder)
	require.Empty(t, left)
	require.Len(t, unread, 1)
	require.ErrorContains(t, unread[0], "it is a folder or a device")
	require.NoError(t, unread[0].SetAside())
	left, unread = journal.Look(folder)
	require.Empty(t, append(make([]any, len(left)), make([]any, len(unread))...), "it was told of once")
}
