package manual

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

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

// PageOfDialog is the page about a dialog, by what lies over a window; blank where it is none that has a page.
func PageOfDialog(overlay fyne.CanvasObject) string {
	title := dialogTitle(overlay)
	for _, known := range pagesOfDialogs {
		if strings.HasPrefix(title, known[0]) {
			return known[1]
		}
	}
	return ""
}

// PageOfTable is the page about a table.
func PageOfTable(name string) string {
	if page, known := pagesOfTables[name]; known {
		return page
	}
	return "tables"
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
