package stock

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/dialogs"
)

// wholeLine makes the line under the lists, which says all of the one that is selected: a list shortens what has no room.
func (d *houseDialog) wholeLine() {
	d.whole = widget.NewLabel("")
	d.whole.SizeName, d.whole.Truncation = theme.SizeNameCaptionText, fyne.TextTruncateEllipsis
	for _, list := range []*dialogs.ManyList{d.houseList, d.showList} {
		list.Changed = func() {
			if len(list.Selected()) > 0 && !d.filling {
				d.seen = list
			}
			d.sayWhole()
		}
	}
}

// sayWhole says the line that is selected alone, and where it is.
func (d *houseDialog) sayWhole() {
	said := ""
	if d.seen != nil {
		if at := d.seen.Selected(); len(at) == 1 {
			line := d.seen.Lines()[at[0]]
			said = line.Words
			if line.Note != "" {
				said += ": " + line.Note
			}
		}
	}
	d.whole.SetText(said)
}
