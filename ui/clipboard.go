package ui

import (
	"fyne.io/fyne/v2"

	"stageloom/model/clip"
	"stageloom/model/plan"
	"stageloom/ui/text"
)

// copySelection puts the selected devices and positions with the links between them on the clipboard, and tells
// whether there were any.
func (w *window) copySelection() bool {
	text, err := clip.Copy(w.desk.Plan(), w.desk.Selection())
	if err != nil {
		w.refused(err)
		return false
	}
	w.app.Clipboard().SetContent(text)
	return true
}

// cutSelection copies and deletes; what was copied can be pasted again, so nothing is asked.
func (w *window) cutSelection() {
	if !w.copySelection() {
		return
	}
	leaving, err := text.LeavingOf(w.desk.Plan(), w.desk.Selection())
	if err != nil {
		w.refused(err)
		return
	}
	w.removeNow(leaving, w.desk.Selection())
}

// pasteItem is Paste in a context menu, greyed while the clipboard holds no part of a plan. That of the menu bar stays:
// its shortcut pastes into fields too.
func (w *window) pasteItem() *fyne.MenuItem {
	item := fyne.NewMenuItem("Paste", w.pasteClip)
	_, err := clip.Read(w.app.Clipboard().Content())
	item.Disabled = err != nil
	return item
}

// pasteClip pastes what was copied, here or in another window, round the middle of the view, and selects it.
func (w *window) pasteClip() {
	c, err := clip.Read(w.app.Clipboard().Content())
	if err != nil {
		w.refused(err)
		return
	}
	by := w.plan.Snapped(w.devices.FreeNear(w.plan.Middle()).Sub(c.Middle()))
	var added []plan.Ref
	err = w.desk.Do("Paste", func(e *plan.Edit) (err error) {
		added, err = c.Paste(e, by)
		return err
	})
	if err != nil {
		w.refused(err)
		return
	}
	w.desk.Select(placed(added)...)
}

// placed are the devices and positions among rows: what can be moved on at once.
func placed(refs []plan.Ref) (found []plan.Ref) {
	for _, ref := range refs {
		if ref.Table != plan.LinksTable {
			found = append(found, ref)
		}
	}
	return found
}

// withClipboard gives a field's clipboard command the clipboard that menu shortcuts come without.
func (w *window) withClipboard(shortcut fyne.Shortcut) fyne.Shortcut {
	switch shortcut.(type) {
	case *fyne.ShortcutCopy:
		return &fyne.ShortcutCopy{Clipboard: w.app.Clipboard()}
	case *fyne.ShortcutCut:
		return &fyne.ShortcutCut{Clipboard: w.app.Clipboard()}
	case *fyne.ShortcutPaste:
		return &fyne.ShortcutPaste{Clipboard: w.app.Clipboard()}
	}
	return shortcut
}
