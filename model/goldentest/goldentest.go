// Package goldentest compares what a test makes with a file that somebody has looked at. It serves tests alone. One flag
// renews the files in every room that uses it: go test ./ROOM -args -accept.
package goldentest

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

var accept = flag.Bool("accept", false, "write the golden files of the rooms under test anew")

// Accepting reports whether golden files are to be written anew, for tests whose files another library compares.
func Accepting() bool { return *accept }

// Text compares a text with the golden file of that path, seen from the room under test.
func Text(t testing.TB, path, text string) {
	t.Helper()
	require.Equal(t, string(kept(t, path, []byte(text))), text, advice(t, path))
}

// File compares bytes with the golden file of that path, and says of a difference only that there is one.
func File(t testing.TB, path string, made []byte) {
	t.Helper()
	require.True(t, bytes.Equal(kept(t, path, made), made), "%s differs; %s", path, advice(t, path))
}

// kept is the content of a golden file, written anew before where that is wanted.
func kept(t testing.TB, path string, made []byte) []byte {
	t.Helper()
	if *accept {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, made, 0o644))
	}
	golden, err := os.ReadFile(path)
	require.NoError(t, err, advice(t, path))
	return golden
}

// advice says what renews a golden file.
func advice(t testing.TB, path string) string {
	t.Helper()
	return "where the change is meant, go test ./" + room(t) + " -args -accept writes " + path + "; read the difference before it is kept"
}

// room is the folder under test, seen from the root: tests run in their own folder.
func room(t testing.TB) string {
	t.Helper()
	here, err := os.Getwd()
	require.NoError(t, err)
	for root := here; ; root = filepath.Dir(root) {
		if _, err := os.Stat(filepath.Join(root, "go.mod")); err == nil {
			folder, err := filepath.Rel(root, here)
			require.NoError(t, err)
			return filepath.ToSlash(folder)
		}
		require.NotEqual(t, root, filepath.Dir(root), "no go.mod lies above %s", here)
	}
}
