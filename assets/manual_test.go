package assets_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/assets"
)

func TestManual(t *testing.T) {
	pages := assets.Manual()
	names := map[string]bool{}
	for _, page := range pages {
		names[page.Name] = true
	}
	t.Run("every page that lies in the folder is listed once", func(t *testing.T) {
		files, err := os.ReadDir("manual")
		require.NoError(t, err)
		require.Len(t, names, len(pages))
		require.Len(t, files, len(pages))
		for _, file := range files {
			require.True(t, names[strings.TrimSuffix(file.Name(), ".md")], file.Name())
		}
	})
	t.Run("each begins with its title, holds text and is short", func(t *testing.T) {
		titles := map[string]bool{}
		for _, page := range pages {
			file, err := os.ReadFile("manual/" + page.Name + ".md")
			require.NoError(t, err)
			require.True(t, strings.HasPrefix(string(file), "# "+page.Title+"\n"), page.Name)
			require.NotEmpty(t, page.Text, page.Name)
			require.LessOrEqual(t, strings.Count(string(file), "\n"), 150, page.Name)
			require.False(t, titles[page.Title], page.Title)
			titles[page.Title] = true
		}
	})
	t.Run("a link leads to a page that is there", func(t *testing.T) {
		link := regexp.MustCompile(`\]\(([^)]*)\)`)
		found := 0
		for _, page := range pages {
			for _, match := range link.FindAllStringSubmatch(page.Text, -1) {
				require.True(t, names[strings.TrimSuffix(match[1], ".md")], "%s links to %s", page.Name, match[1])
				found++
			}
		}
		require.NotZero(t, found)
	})
}
