package stock

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// addDialog adds reels to a stock: what there is, a line each, and what all of them share.
type addDialog struct {
	*Dialogs
	place Place
	kinds []plan.CableKind

	kind                              *dialogs.Chooser
	lines                             *dialogs.Entry
	tags, box, owner, reference, back *dialogs.Entry
	told                              *widget.Label
	add                               *dialogs.Answer
	dialog                            *dialogs.Dialog
}

// AddReels asks what reels a stock gets.
func (s *Dialogs) AddReels(place Place) {
	d := &addDialog{Dialogs: s, place: place, kinds: catalogue.CableKindsFor(place.now()), told: widget.NewLabel("")}
	names := make([]string, len(d.kinds))
	for i, kind := range d.kinds {
		names[i] = kind.Name
	}
	d.kind = dialogs.NewChooser(s, names, func(string) { d.tell() })
	d.lines = dialogs.NewLongEntry(s)
	d.lines.SetMinRowsVisible(2)
	d.lines.SetPlaceHolder("12 x 50 m")
	d.lines.OnChanged = func(string) { d.tell() }
	entry := func(hint string) *dialogs.Entry {
		f := dialogs.NewEntry(s)
		f.SetPlaceHolder(hint)
		f.OnChanged = func(string) { d.tell() }
		f.OnSubmitted = func(string) { d.take(false) }
		return f
	}
	d.tags, d.box = entry("none, or A01-A12"), entry("none")
	d.owner, d.reference, d.back = entry("the house"), entry("not hired"), entry("2027-06-22")
	d.show()
}

func (d *addDialog) show() {
	form := widget.NewForm(
		widget.NewFormItem("Kind", d.kind), widget.NewFormItem("What there is", d.lines), widget.NewFormItem("Tags", d.tags),
		widget.NewFormItem("Case", d.box), widget.NewFormItem("Owner", d.owner), widget.NewFormItem("Hire reference", d.reference),
		widget.NewFormItem("Return date", d.back),
	)
	d.add = dialogs.NewAnswer(d, "Add", func() { d.take(false) })
	d.add.Importance = widget.HighImportance
	d.dialog = dialogs.New(d, "Add reels to "+d.place.name, container.NewBorder(nil, dialogs.RoomFor(d.told, 2), nil, nil, form))
	d.dialog.SetButtons([]fyne.CanvasObject{
		dialogs.NewAnswer(d, "Close", d.dialog.Hide), dialogs.NewAnswer(d, "Add and another", func() { d.take(true) }), d.add,
	})
	d.dialog.Fit(dialogs.FormWidth, 0)
	d.Keys().Escapable(d.dialog.Hide)
	if row, chosen := d.Chosen(); chosen {
		d.choose(row.Kind)
	} else if len(d.kinds) > 0 {
		d.kind.SetSelectedIndex(0)
	}
	d.tell()
	d.dialog.Show()
	dialogs.Focus(d, d.kind)
}

func (d *addDialog) choose(id plan.CableKindID) {
	for i, kind := range d.kinds {
		if kind.ID == id {
			d.kind.SetSelectedIndex(i)
		}
	}
}

func (d *addDialog) form() text.AddReels {
	form := text.AddReels{
		Lines: d.lines.Text, Tags: d.tags.Text, Case: d.box.Text, Owner: d.owner.Text, Hire: d.reference.Text, Return: d.back.Text,
	}
	if at := d.kind.SelectedIndex(); at >= 0 {
		form.Kind = d.kinds[at].ID
	}
	return form
}

// tell says what would be added, or why that cannot be.
func (d *addDialog) tell() {
	if d.add == nil {
		return // the form is being filled
	}
	list, reason := d.form().Read(d.place.now(), d.Units())
	d.told.Importance = widget.MediumImportance
	d.add.Enable()
	if reason != "" {
		d.add.Disable()
		d.told.SetText(reason)
		return
	}
	d.told.SetText("Adds " + text.ListTold(list, d.Units()) + ".")
}

func (d *addDialog) take(another bool) {
	list, reason := d.form().Read(d.place.now(), d.Units())
	if reason == "" {
		if err := d.place.do("Add reels", func(e *plan.Edit) error { return list.Add(e, useCable) }); err != nil {
			reason = words.Sentence(err)
		}
	}
	if reason != "" {
		d.told.Importance = widget.DangerImportance
		d.told.SetText(reason)
		return
	}
	d.place.changed()
	if !another {
		d.dialog.Hide()
		d.Say("Added " + text.ListTold(list, d.Units()) + ".")
		return
	}
	d.lines.SetText("")
	d.tags.SetText("")
	d.told.SetText("Added " + text.ListTold(list, d.Units()) + ".")
	dialogs.Focus(d, d.lines)
}
