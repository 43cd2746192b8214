package cmd_test

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
)

// placeInText is a file or folder of the project that a page names in code.
var placeInText = regexp.MustCompile("`((?:model|report|ui|cmd|assets|testdata)/[\\w./-]*\\w)`")

// missingPlaces are the files and folders that a page names and that are not there.
func missingPlaces(page string) (missing []string) {
	for _, match := range placeInText.FindAllStringSubmatch(page, -1) {
		if _, err := os.Stat(filepath.Join("..", match[1])); err != nil {
			missing = append(missing, match[1])
		}
	}
	return missing
}

func TestPagesNameFilesThatAreThere(t *testing.T) {
	require.Equal(t, []string{"model/gone.go"}, missingPlaces("`model/gone.go`, `ui/menu.go` and `rule.go`"))
	named := 0
	for _, name := range []string{"../README.md", "../DEVELOPERS.md"} {
		page, err := os.ReadFile(name)
		require.NoError(t, err)
		require.Empty(t, missingPlaces(string(page)), name)
		named += len(placeInText.FindAllString(string(page), -1))
	}
	require.Greater(t, named, 50)
}
