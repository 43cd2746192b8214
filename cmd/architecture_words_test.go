package cmd_test

import (
	"fmt"
	"go/ast"
	"go/token"
	"os"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// oldWords are words that a technician stumbled on, each with the word that stands in its place everywhere. Those that begin
// with ^ are whole texts, such as the head of a column.
var oldWords = []struct {
	old *regexp.Regexp
	now string
}{
	{regexp.MustCompile(`(?i)\bstruck\b|\bstrik(es|ing)\b|\bstrike (it|what|from)\b`), "not used"},
	{regexp.MustCompile(`(?i)(?:^|[^"\w])slots?\b`), "channels on the link"},
	{regexp.MustCompile(`(?i)\bgiv(e|es|en) out\b`), "assign"},
	{regexp.MustCompile(`(?i)\bown rows\b`), "different from the house"},
	{regexp.MustCompile(`(?i)\bways? of the patch\b`), "patched signals"},
	{regexp.MustCompile(`(?i)\botherwise than (the )?house\b|^otherwise$`), "different from the house"},
	{regexp.MustCompile(`(?i)\bmend(ed|s)? (the|their|its) (file|list|date|times|start)\b|\bmended file\b`), "correct the file"},
	{regexp.MustCompile(`^Head$|(?i)\b(above|below|line of) the head\b`), "column heads"},
	{regexp.MustCompile(`^Source$|\bSource, stand\b`), "source or mic"},
	{regexp.MustCompile(`^Use$`), "type"},
	{regexp.MustCompile(`^Here$`), "in this act"},
	{regexp.MustCompile(`(?:^|[^,.)] )[Ww]ay (%d|[0-9])`), "socket, as in 3 or out 3; a multicore has ways behind a comma: L31, way 3"},
}

// oldWordsStay are texts that are read and not said, and files in which a word means something else.
var oldWordsStay = map[string][]string{
	"":                       {"slot", "slots", "slots-over", "struck", "strike"},
	"model/fields/site.go":   {"Use"},    // what an area is used for
	"model/picture/label.go": {"way %d"}, // a way point of a link
}

// oldWordsIn names the old words of what somebody reads.
func oldWordsIn(name, said string) (found []string) {
	if slices.Contains(oldWordsStay[""], said) || slices.Contains(oldWordsStay[name], said) {
		return nil
	}
	for _, word := range oldWords {
		if match := word.old.FindString(said); match != "" {
			found = append(found, fmt.Sprintf("%s says %q: say %s", name, match, word.now))
		}
	}
	return found
}

// saidIn are the texts of a file of Go: its literals, without what it imports and without the keys of a file.
func saidIn(s source) (said []string) {
	ast.Inspect(s.tree, func(node ast.Node) bool {
		switch n := node.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.Field:
			return n.Tag == nil || !strings.Contains(n.Tag.Value, "json:")
		case *ast.BasicLit:
			if words, err := strconv.Unquote(n.Value); n.Kind == token.STRING && err == nil {
				said = append(said, words)
			}
		}
		return true
	})
	return said
}

// shown reports whether a text of the tree is what users read: a page, or the master of what a window, paper or command says.
func shown(name string) bool {
	folder := path.Dir(name)
	return name == "README.md" || folder == "assets/manual" || slices.Contains([]string{".golden", ".txtar"}, path.Ext(name)) ||
		path.Base(folder) == "testdata" && slices.Contains([]string{".txt", ".xml"}, path.Ext(name))
}

func TestNothingIsSaidInWordsThatTechniciansStumbleOn(t *testing.T) {
	tree, err := readProject(os.DirFS(".."))
	require.NoError(t, err)
	var found []string
	looked := 0
	for _, s := range tree.sources {
		if s.test {
			continue
		}
		for _, said := range saidIn(s) {
			looked++
			found = append(found, oldWordsIn(s.path, said)...)
		}
	}
	require.Greater(t, looked, 5000)
	looked = 0
	for _, text := range tree.texts {
		if shown(text.path) {
			looked++
			found = append(found, oldWordsIn(text.path, text.content)...)
		}
	}
	require.Greater(t, looked, 80)
	require.Empty(t, found)
}

func TestOldWordsAreFound(t *testing.T) {
	for said, words := range map[string]int{
		"Kick in → struck": 1, "an act strikes what the house has": 1, "strike what it lacks": 1, "Strike": 0, "strike": 0,
		"Give out slots": 2, "12 slots given out": 2, "channels on the link": 0, "slots": 0, "Own rows": 1, "21 ways of the patch": 1,
		"10 otherwise than the house": 1, ": otherwise than House": 1, "otherwise": 1, "mend the file": 1, "loomsheet mend PLAN": 0,
		"Head": 1, "stands above the head": 1, "Source, stand": 1, "Source": 1, "Source or mic, stand": 0, "Use": 1, "Here": 1,
		"→ Horn snake way 3 →": 1, "%s way %d": 1, "RF rack, 8 ways": 0, "a drawn way": 0,
	} {
		require.Len(t, oldWordsIn("ui/some.go", said), words, said)
	}
	require.Empty(t, oldWordsIn("model/fields/site.go", "Use"))
	parsed, err := parse("a.go", "package a\nimport \"slots\"\ntype r struct {\n\tSlot int `json:\"slot\"`\n\tAct string `help:\"strike it\"`\n}\nconst said = \"struck off\"\n")
	require.NoError(t, err)
	require.Equal(t, []string{`help:"strike it"`, "struck off"}, saidIn(parsed))
	require.True(t, shown("ui/text/testdata/card-act.txt"))
	require.True(t, shown("cmd/loomsheet/testdata/script/patch.txtar"))
	require.False(t, shown("testdata/lists/bands/line-and-multi.csv"))
}
