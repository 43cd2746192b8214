package house_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
)

func TestWordsOfListsAreRemembered(t *testing.T) {
	folder := t.TempDir()
	library := house.Open(folder)
	words, err := library.Words()
	require.NoError(t, err)
	require.Empty(t, words)
	pin, us := house.Word{For: "condition", Word: "bent pin", Means: "suspect"}, house.Word{For: "owner", Word: "us", Means: "house"}
	require.NoError(t, library.Remember(us, pin, house.Word{For: "kind", Word: strings.Repeat("x", 201), Means: "cat6a"}))
	words, err = house.Open(folder).Words()
	require.NoError(t, err)
	require.Equal(t, []house.Word{pin, us}, words, "what is longer than a name is no word to remember")
	pin.Means = "faulty"
	require.NoError(t, library.Remember(pin, house.Word{For: "owner", Word: "us"}))
	words, err = library.Words()
	require.NoError(t, err)
	require.Equal(t, []house.Word{pin}, words)
	require.NoError(t, house.Open("").Remember(pin), "without a folder nothing is kept")
}

func TestADamagedFileOfWordsIsToldAndNotWrittenOver(t *testing.T) {
	folder := t.TempDir()
	library := house.Open(folder)
	word := house.Word{For: "unit", Word: "rods", Means: "ft"}
	require.NoError(t, library.Remember(word, house.Word{For: "unit", Word: "zz", Means: "m"}))
	files, err := filepath.Glob(filepath.Join(folder, "*.stageloom-words"))
	require.NoError(t, err)
	require.Len(t, files, 1)
	good, err := os.ReadFile(files[0])
	require.NoError(t, err)
	line := `{"for":"unit","word":"rods","means":"ft"}`
	for what, text := range map[string]string{
		"another version": strings.Replace(string(good), "words 1", "words 2", 1),
		"cut off":         string(good[:len(good)-9]),
		"said twice":      string(good) + line + "\n",
		"another key":     strings.Replace(string(good), `"means":"ft"`, `"means":"ft","more":"x"`, 1),
		"a blank":         strings.Replace(string(good), `"ft"`, `""`, 1),
		"nothing":         "",
	} {
		t.Run(what, func(t *testing.T) {
			require.NoError(t, os.WriteFile(files[0], []byte(text), 0o600))
			_, err := library.Words()
			require.ErrorContains(t, err, files[0])
			require.Error(t, library.Remember(word))
			left, err := os.ReadFile(files[0])
			require.NoError(t, err)
			require.Equal(t, text, string(left))
		})
	}
}
