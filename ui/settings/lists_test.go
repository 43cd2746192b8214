package settings_test

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/ui/settings"
)

func TestColumnsOfListsAreKeptByTheirHeads(t *testing.T) {
	kept := test.NewTempApp(t).Preferences()
	s := settings.New(kept)
	_, found := s.ListColumns("No\x00Name")
	require.False(t, found)
	s.SetListColumns("No\x00Name", []string{"Number", "", "FOH|left channel"})
	s.SetListColumns("Ch\x00What", []string{"Number", "Name"})
	again := settings.New(kept)
	fields, found := again.ListColumns("No\x00Name")
	require.True(t, found)
	require.Equal(t, []string{"Number", "", "FOH|left channel"}, fields)
	s.SetListColumns("No\x00Name", []string{"Name", "Number"})
	fields, _ = again.ListColumns("No\x00Name")
	require.Equal(t, []string{"Name", "Number"}, fields, "what was said last holds")
	require.NotContains(t, strings.Join(kept.StringList("columns of lists"), ""), "What", "heads are kept as a digest")
	t.Run("the latest forty, and no nonsense", func(t *testing.T) {
		kept.SetStringList("columns of lists", []string{"not JSON", "[]", `{"a":1}`})
		_, found := s.ListColumns("")
		require.False(t, found)
		for i := range 50 {
			s.SetListColumns(fmt.Sprint(i), []string{"Name"})
		}
		require.Len(t, kept.StringList("columns of lists"), 40)
		_, found = s.ListColumns("9")
		require.False(t, found)
		_, found = s.ListColumns("49")
		require.True(t, found)
	})
}
