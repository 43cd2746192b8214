package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/manual"
	"stageloom/ui/text"
)

// showManual shows a page of the manual in a window of its own, beside which one goes on working.
func (w *window) showManual(page string) {
	if w.manual != nil {
		w.manualReader.Open(page)
		w.manual.RequestFocus()
		return
	}
	shown := w.app.NewWindow("Stageloom manual")
	w.manual = shown
	w.manualReader = manual.NewReader(shown.Canvas(), manual.Pages(w.commandKeys()), page, shown.Close)
	shown.SetOnClosed(func() { w.manual, w.manualReader = nil, nil })
	shown.Canvas().SetOnTypedKey(w.manualReader.TypedKey)
	shown.Canvas().SetOnTypedRune(w.manualReader.TypedRune)
	shown.SetContent(w.manualReader.Content())
	shown.Resize(fyne.NewSize(900, 640))
	shown.Show()
	w.manualReader.Focus()
}

// commandKeys are the commands of the menus as the manual lists them.
func (w *window) commandKeys() (keys []manual.Key) {
	commands, _ := w.commands()
	for _, c := range commands {
		keys = append(keys, manual.Key{In: c.In, Name: strings.TrimPrefix(c.Name, text.Ticked), Keys: c.Keys})
	}
	return keys
}

// pagesOfDialogs are the pages about dialogs, by how their titles begin.
var pagesOfDialogs = [][2]string{
	{"Print", "printing"},
	{"Issue a revision", "revisions"},
	{"Link two ports", "links"},
	{"Lay cable", "links"},
	{"New device", "laying-out"},
	{"New house line", "links"},
	{"Own kind of cable", "stock"},
	{"Own kind", "laying-out"},
	{"Pick cables", "stock"},
	{"Instead of ", "stock"},
	{"Add reels", "stock"},
	{"Faulty: ", "stock"},
	{"House stock", "stock"},
	{"Import a list", "lists"},
	{"In order from here", "patch"},
	{"Move the patch", "patch"},
	{"This touches what lies on site", "on-site"},
	{"Settings", "files"},
	{"Commands", "files"},
}

// pagesOfTables are the pages about tables, where it is not the page of tables.
var pagesOfTables = map[string]string{
	"patch": "patch", "sockets": "patch", "acts": "patch", "inputs": "patch", "outputs": "patch", "stock": "stock",
}

// pageInHand is the page about what one is at: the dialog that is open, the day view, a table, the stock, the run strip, else
// the plan.
func (w *window) pageInHand() string {
	title := dialogTitle(w.window.Canvas().Overlays().Top())
	for _, known := range pagesOfDialogs {
		if strings.HasPrefix(title, known[0]) {
			return known[1]
		}
	}
	switch grid := w.tables.grid(); {
	case w.day.Visible():
		return "on-site"
	case grid != nil && grid.Holds(w.window.Canvas().Focused()):
		if page, known := pagesOfTables[w.tables.open]; known {
			return page
		}
		return "tables"
	case w.stock.Focused(w.window.Canvas()):
		return "stock"
	case w.window.Canvas().Focused() == w.strip, len(w.selectedLinks()) > 0:
		return "links"
	}
	return "laying-out"
}

// dialogTitle is the title of a dialog, blank for what is none.
func dialogTitle(overlay fyne.CanvasObject) string {
	popUp, is := overlay.(*widget.PopUp)
	if !is {
		return ""
	}
	content, is := popUp.Content.(*fyne.Container)
	if !is {
		return ""
	}
	for _, object := range content.Objects {
		if label, is := object.(*widget.Label); is && label.TextStyle.Bold {
			return label.Text
		}
	}
	return ""
}
