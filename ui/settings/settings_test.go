package settings_test

import (
	"fmt"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/ui/settings"
)

func TestWhatIsKeptIsReadAgain(t *testing.T) {
	kept := test.NewTempApp(t).Preferences()
	s := settings.New(kept)
	require.Equal(t, settings.Light, s.Look())
	s.SetLook(settings.Dark)
	s.SetLength(settings.Feet)
	s.SetTemperature(settings.Fahrenheit)
	s.SetWindow(fyne.NewSize(1500, 900))
	s.SetSplits(0.7, 0.6)
	require.True(t, s.Snap())
	s.SetSnap(false)
	again := settings.New(kept)
	require.Equal(t, settings.Dark, again.Look())
	require.Equal(t, settings.Feet, again.Length())
	require.Equal(t, settings.Fahrenheit, again.Temperature())
	require.Equal(t, fyne.NewSize(1500, 900), again.Window())
	require.False(t, again.Snap())
	card, strip := again.Splits()
	require.Equal(t, 0.7, card)
	require.Equal(t, 0.6, strip)
}

func TestNonsenseInThePreferencesIsTheDefault(t *testing.T) {
	kept := test.NewTempApp(t).Preferences()
	kept.SetString("look", "purple")
	kept.SetFloat("window width", math.Inf(1))
	kept.SetFloat("card share", -4)
	s := settings.New(kept)
	require.Equal(t, settings.Light, s.Look())
	require.Equal(t, fyne.NewSize(1280, 800), s.Window())
	card, _ := s.Splits()
	require.Equal(t, 0.78, card)
}

func TestRecentFilesKeepTheLatestEight(t *testing.T) {
	s := settings.New(test.NewTempApp(t).Preferences())
	for i := range 10 {
		s.Used(fmt.Sprint("/shows/", i))
	}
	s.Used("/shows/5")
	require.Len(t, s.Recent(), 8)
	require.Equal(t, []string{"/shows/5", "/shows/9", "/shows/8"}, s.Recent()[:3])
	s.Forget("/shows/9")
	require.NotContains(t, s.Recent(), "/shows/9")
}

func TestATableIsKeptWithColumnsOfAnyName(t *testing.T) {
	kept := test.NewTempApp(t).Preferences()
	look := settings.TableLook{Columns: []settings.ColumnLook{{Name: "number", Width: 50}, {Name: "console FOH|Main", Width: 61, Hidden: true}}, Sort: "number", Down: true}
	settings.New(kept).SetTable("patch", look)
	require.Equal(t, look, settings.New(kept).Table("patch"))
	kept.SetStringList("table patch", []string{"number|wide|shown"})
	require.Empty(t, settings.New(kept).Table("patch").Columns, "what makes no sense is as it came")
	require.False(t, settings.New(kept).UnusedHidden())
	settings.New(kept).SetUnusedHidden(true)
	require.True(t, settings.New(kept).UnusedHidden())
}
