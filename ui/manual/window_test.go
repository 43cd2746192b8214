package manual_test

import (
	"testing"

	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/ui/manual"
)

func TestTheManualHasOneWindow(t *testing.T) {
	app := test.NewTempApp(t)
	shown := &manual.Window{App: app, Keys: func() []manual.Key { return nil }}
	shown.Close()
	before := len(app.Driver().AllWindows())
	shown.Show("keys")
	shown.Show("links")
	require.Len(t, app.Driver().AllWindows(), before+1)
	shown.Close()
	require.Len(t, app.Driver().AllWindows(), before)
	shown.Show("keys")
	require.Len(t, app.Driver().AllWindows(), before+1, "it opens again")
	shown.Close()
}

func TestADialogHasItsPage(t *testing.T) {
	window := test.NewTempWindow(t, widget.NewLabel(""))
	require.Empty(t, manual.PageOfDialog(window.Canvas().Overlays().Top()))
	for title, page := range map[string]string{"Print to PDF": "printing", "Own kind of cable": "stock", "Own kind": "laying-out", "Not saved yet": ""} {
		d := dialog.NewCustom(title, "Close", widget.NewLabel("Print is not the title"), window)
		d.Show()
		require.Equal(t, page, manual.PageOfDialog(window.Canvas().Overlays().Top()), title)
		d.Hide()
	}
	require.Equal(t, "patch", manual.PageOfTable("sockets"))
	require.Equal(t, "tables", manual.PageOfTable("links"))
}
