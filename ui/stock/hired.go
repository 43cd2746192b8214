package stock

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/cabling"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// hiredDialog brings what a pick asks to hire in into the plan's stock as one step.
type hiredDialog struct {
	*Dialogs
	what                   []cabling.Hire
	owner, reference, back *dialogs.Entry
	told                   *widget.Label
	dialog                 *dialogs.Dialog
	done                   func()
}

// AddHired asks once for all who hires out what a pick asks for; done is called when it is in the stock.
func (s *Dialogs) AddHired(what []cabling.Hire, done func()) {
	d := &hiredDialog{Dialogs: s, what: what, done: done, told: widget.NewLabel("")}
	entry := func(hint string) *dialogs.Entry {
		f := dialogs.NewEntry(s)
		f.SetPlaceHolder(hint)
		f.OnSubmitted = func(string) { d.take() }
		return f
	}
	d.owner, d.reference, d.back = entry("who hires them out"), entry("their reference"), entry("2027-06-22")
	list := container.NewVScroll(widget.NewLabel(text.HiredTold(what, s.Units())))
	list.SetMinSize(fyne.NewSize(0, 120))
	form := widget.NewForm(
		widget.NewFormItem("To be hired", list), described(plan.ReelsTable, "owner", d.owner),
		described(plan.ReelsTable, "hire", d.reference), described(plan.ReelsTable, "return", d.back),
	)
	d.dialog = dialogs.New(s, "Add what is to be hired", container.NewBorder(nil, dialogs.RoomFor(d.told, 2), nil, nil, form))
	add := dialogs.NewAnswer(s, "Add to the stock", d.take)
	add.Importance = widget.HighImportance
	d.dialog.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(s, "Cancel", d.dialog.Hide), add})
	d.dialog.Fit(dialogs.FormWidth, 0)
	s.Keys().Escapable(d.dialog.Hide)
	d.dialog.Show()
	dialogs.Focus(s, d.owner)
}

func (d *hiredDialog) take() {
	form := text.Hired{What: d.what, Owner: d.owner.Text, Hire: d.reference.Text, Return: d.back.Text}
	list, reason := form.Read(d.Desk().Plan(), d.Units())
	if reason == "" {
		if err := d.Desk().Do("Add what is hired", func(e *plan.Edit) error { return list.Add(e, useCable) }); err != nil {
			reason = words.Sentence(err)
		}
	}
	if reason != "" {
		d.told.Importance = widget.DangerImportance
		d.told.SetText(reason)
		return
	}
	d.dialog.Hide()
	d.Say("Added " + text.ListTold(list, d.Units()) + ", hired.")
	d.done()
}
