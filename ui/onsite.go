package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/desk"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// guardSite has every edit of this window that touches what is laid, joined or tested asked about first, wherever it comes
// from: a drag at its drop, the strip, a table, a form, a fix.
func (w *window) guardSite() { w.desk.SetGuard(w.askOnSite) }

// askOnSite names the links that an edit touches on site and asks; where it touches none, the edit stands.
func (w *window) askOnSite(name string, before, after *plan.Plan, anyway func() error) error {
	lines := text.OnSite(before, after)
	if len(lines) == 0 {
		return nil
	}
	w.askTouching(name, lines, func() {
		if err := anyway(); err != nil {
			w.refused(err)
		}
	})
	return desk.ErrAsked
}

// askTouching lists what an edit does to links on site; Enter and Escape leave them, which is the answer that harms nothing.
func (w *window) askTouching(name string, lines []string, do func()) {
	list := container.NewVBox()
	for _, line := range lines {
		label := widget.NewLabel(line)
		label.Wrapping = fyne.TextWrapWord
		list.Add(label)
	}
	hint := widget.NewLabel(fmt.Sprintf("%s? Undo brings it back on the plan; on site it is work.", name))
	hint.Wrapping, hint.Importance = fyne.TextWrapWord, widget.LowImportance
	focus := w.window.Canvas().Focused()
	d := dialog.NewCustomWithoutButtons("This touches what lies on site", container.NewBorder(nil, hint, nil, nil, container.NewVScroll(list)), w.window)
	shut := func() {
		d.Hide()
		w.window.Canvas().Focus(focus)
	}
	keep := dialogs.NewAnswer(w, "Leave it", shut)
	keep.Importance = widget.HighImportance
	yes := dialogs.NewAnswer(w, "Do it all the same", func() { shut(); do() })
	d.SetButtons([]fyne.CanvasObject{yes, keep})
	d.Resize(fyne.NewSize(520, min(380, 170+34*float32(len(lines)))))
	w.Keys().Escapable(shut)
	d.Show()
	w.window.Canvas().Focus(keep)
}
