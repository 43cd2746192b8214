//go:build unix

package planfile_test

import (
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// pipe is a named pipe that nobody writes.
func pipe(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "pipe.stageloom")
	require.NoError(t, syscall.Mkfifo(path, 0o600))
	return path
}
