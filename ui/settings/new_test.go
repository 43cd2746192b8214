package settings_test

import (
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/ui/settings"
)

func TestLabelsAndPatchAreKept(t *testing.T) {
	kept := test.NewTempApp(t).Preferences()
	s := settings.New(kept)
	require.Equal(t, settings.NameAndMargin, s.Labels())
	require.True(t, s.ChannelsFollow())
	require.Empty(t, s.NewPlan())
	s.SetLabels(settings.NameAlone)
	s.SetChannelsFollow(false)
	s.SetNewPlan("text")
	again := settings.New(kept)
	require.Equal(t, settings.NameAlone, again.Labels())
	require.False(t, again.ChannelsFollow())
	require.Equal(t, "text", again.NewPlan())
	kept.SetString("labels", "everything")
	require.Equal(t, settings.NameAndMargin, again.Labels(), "what makes no sense is as it came")
}
