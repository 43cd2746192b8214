package goldentest_test

import (
	"fmt"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/goldentest"
)

// witness is a test that notes its failure instead of failing.
type witness struct {
	testing.TB
	said string
}

func (w *witness) Helper()                      {}
func (w *witness) Errorf(text string, v ...any) { w.said += fmt.Sprintf(text, v...) }
func (w *witness) FailNow()                     { runtime.Goexit() }

// said is what a failing comparison says; blank where it passes.
func said(t testing.TB, compare func(testing.TB)) string {
	t.Helper()
	w, done := &witness{TB: t}, make(chan struct{})
	go func() {
		defer close(done)
		compare(w)
	}()
	<-done
	return w.said
}

func TestGoldenFiles(t *testing.T) {
	path := filepath.Join(t.TempDir(), "deep", "page.txt")
	text := func(text string) func(testing.TB) {
		return func(t testing.TB) { goldentest.Text(t, path, text) }
	}
	file := func(text string) func(testing.TB) {
		return func(t testing.TB) { goldentest.File(t, path, []byte(text)) }
	}
	defer goldentest.Accept(false)()
	t.Run("a file that is missing fails and says the command", func(t *testing.T) {
		require.Contains(t, said(t, text("one")), "go test ./model/goldentest -args -accept")
	})
	t.Run("accepting writes it", func(t *testing.T) {
		defer goldentest.Accept(true)()
		require.True(t, goldentest.Accepting())
		require.Empty(t, said(t, text("one")))
		content, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, "one", string(content))
	})
	t.Run("the same passes", func(t *testing.T) {
		require.False(t, goldentest.Accepting())
		require.Empty(t, said(t, text("one")))
		require.Empty(t, said(t, file("one")))
	})
	t.Run("another text fails, says the command and leaves the file", func(t *testing.T) {
		require.Contains(t, said(t, text("two")), "go test ./model/goldentest -args -accept")
		require.Contains(t, said(t, file("two")), "go test ./model/goldentest -args -accept")
		require.Empty(t, said(t, text("one")))
	})
}

func TestGoldenPictures(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("go.mod", nil, 0o644))
	path := filepath.Join("testdata", "window.png")
	blank, marked := image.NewGray(image.Rect(0, 0, 60, 40)), image.NewGray(image.Rect(0, 0, 60, 40))
	for x := range 9 {
		marked.SetGray(30+x, 20, color.Gray{200})
	}
	picture := func(made image.Image) func(testing.TB) {
		return func(t testing.TB) { goldentest.Picture(t, path, made) }
	}
	defer goldentest.Accept(true)()
	require.Empty(t, said(t, picture(marked)))
	defer goldentest.Accept(false)()
	require.Empty(t, said(t, picture(marked)))
	require.NoDirExists(t, filepath.Join("testdata", "failed"))
	require.Contains(t, said(t, picture(blank)), "9 pixels differ in the square of 24 pixels at (24,0)")
	require.FileExists(t, filepath.Join("testdata", "failed", "window.png"))
	require.Contains(t, said(t, picture(image.NewGray(image.Rect(0, 0, 61, 40)))), "(61,40) instead of (60,40) pixels")
	marked.SetGray(30, 20, color.Gray{})
	require.Empty(t, said(t, picture(marked)), "a pixel")
}
