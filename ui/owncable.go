package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/ui/panel"
)

// ownCable makes a kind of cable of the user's own from one that is there: with its maker's figure, its ends and its form.
// Reels of the plan and of the house may then be of it.
func (w *window) ownCable() {
	kinds := catalogue.CableKindsFor(w.desk.Plan())
	slices.SortFunc(kinds, func(a, b plan.CableKind) int { return strings.Compare(a.Name, b.Name) })
	names := make([]string, len(kinds))
	for i, kind := range kinds {
		names[i] = kind.Name
	}
	name, figure := w.newField(), w.newField()
	figure.SetPlaceHolder("as its category; or the maker's dB per 100 m at 100 MHz, 20 °C")
	near, far := w.newChooser([]string{"plug", "socket"}, nil), w.newChooser([]string{"plug", "socket"}, nil)
	form := w.newChooser([]string{"drum", "coil", "loom", "tail"}, nil)
	lockable, shell := widget.NewCheck("locks into its port", nil), widget.NewCheck("metal shells", nil)
	from := panel.OwnCable{}
	like := w.newChooser(names, nil)
	like.OnChanged = func(string) {
		from = panel.OwnCableFrom(kinds[like.SelectedIndex()])
		name.SetText(from.Name)
		figure.SetText(from.Figure)
		near.SetSelected(from.Near)
		far.SetSelected(from.Far)
		form.SetSelected(from.Form)
		lockable.SetChecked(from.Lockable)
		shell.SetChecked(from.MetalShell)
	}
	told := widget.NewLabel("Reels are then added of it. What the link loses follows the figure at once.")
	told.Wrapping = fyne.TextWrapWord
	content := container.NewBorder(nil, told, nil, nil, widget.NewForm(
		widget.NewFormItem("Like", like), widget.NewFormItem("Name", name), widget.NewFormItem("Loss", figure), widget.NewFormItem("Near end", near),
		widget.NewFormItem("Far end", far), widget.NewFormItem("Form", form), widget.NewFormItem("Plugs", container.NewHBox(lockable, shell)),
	))
	d := dialog.NewCustomWithoutButtons("Own kind of cable", content, w.window)
	take := func() {
		made := panel.OwnCable{
			From: from.From, Name: name.Text, Figure: figure.Text, Near: near.Selected, Far: far.Selected, Form: form.Selected,
			Lockable: lockable.Checked, MetalShell: shell.Checked,
		}
		kind, reason := made.Kind(w.desk.Plan())
		if reason == "" {
			if err := w.desk.Do("Make cable "+kind.Name, func(e *plan.Edit) error { plan.Put(e, kind); return nil }); err != nil {
				reason = sentence(err)
			}
		}
		if reason != "" {
			told.Importance = widget.DangerImportance
			told.SetText(reason)
			return
		}
		d.Hide()
		w.notice.Say(kind.Name + " is a kind of cable of this plan: add reels of it, or lay it by length.")
	}
	name.OnSubmitted = func(string) { take() }
	figure.OnSubmitted = func(string) { take() }
	button := widget.NewButton("Make it", take)
	button.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{widget.NewButton("Cancel", d.Hide), button})
	d.Resize(fyne.NewSize(620, 420))
	w.escapable(d.Hide)
	d.Show()
	w.window.Canvas().Focus(like)
}
