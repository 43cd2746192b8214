package settings_test

import (
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/ui/settings"
)

func TestHiddenPartsAreKept(t *testing.T) {
	kept := test.NewTempApp(t).Preferences()
	s := settings.New(kept)
	require.Empty(t, s.Hidden())
	s.SetHidden(settings.PartLabels, true)
	s.SetHidden(settings.HiddenGrade("over"), true)
	s.SetHidden(settings.PartLabels, true)
	require.Equal(t, []string{"grade over", "labels"}, settings.New(kept).Hidden(), "each once")
	grade, is := settings.Grade("grade over")
	require.True(t, is)
	require.Equal(t, "over", grade)
	_, is = settings.Transport("grade over")
	require.False(t, is)
	s.SetHidden(settings.HiddenGrade("over"), false)
	require.Equal(t, []string{"labels"}, s.Hidden())
	s.ShowAll()
	require.Empty(t, settings.New(kept).Hidden())
}
