package patching

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
)

// Rehome asks which device takes over the patch of another: inputs keep the numbers of their sockets. The device that has it
// is proposed where one is given.
func (p *Dialogs) Rehome(of plan.DeviceID) {
	view := p.Desk().Assessment().Patch
	var ids []plan.DeviceID
	var names []string
	for id := range view.ByName() {
		if view.Sockets(id, false)+view.Sockets(id, true) > 0 {
			ids, names = append(ids, id), append(names, view.Name(id))
		}
	}
	if len(ids) < 2 {
		p.Say("Two devices with sockets are needed: one that has the patch, and one that takes it over.")
		return
	}
	const keeps = "Inputs, outputs and channels keep the numbers of their sockets; channels on the links are assigned anew."
	told := widget.NewLabel(keeps)
	anew := func(string) { told.SetText(keeps) } // a refusal was of the devices that were chosen before
	from, to := dialogs.NewChooser(p, names, anew), dialogs.NewChooser(p, names, anew)
	to.SetSelectedIndex(1)
	from.SetSelectedIndex(max(0, slices.Index(ids, of)))
	edit := func(e *plan.Edit) error { return patch.Rehome(e, ids[from.SelectedIndex()], ids[to.SelectedIndex()]) }
	d := dialogs.New(p, "Move the patch of a device", container.NewVBox(widget.NewForm(
		widget.NewFormItem("From", from), widget.NewFormItem("To", to),
	), dialogs.RoomFor(told, 3)))
	move := dialogs.NewAnswer(p, "Move the patch", func() {
		if err := p.Desk().Do("Move the patch of "+from.Selected+" to "+to.Selected, edit); err != nil {
			told.SetText(words.Sentence(err))
			return
		}
		d.Hide()
		p.Say("The patch of " + from.Selected + " is on " + to.Selected + " now. Ctrl Z takes it back.")
	})
	move.Importance = widget.HighImportance
	cancel := dialogs.NewAnswer(p, "Cancel", d.Hide)
	d.SetButtons([]fyne.CanvasObject{cancel, move})
	d.Fit(dialogs.FormWidth, 0)
	p.Keys().Escapable(d.Hide)
	d.Show()
	dialogs.Focus(p, from)
}
