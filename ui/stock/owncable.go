package stock

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/catalogue"
	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// ownCableDialog makes a kind of cable of the user's own from one that is there: with its maker's figure, its ends and its
// form. Reels of the plan and of the house may then be of it.
type ownCableDialog struct {
	*Dialogs
	dialog          *dialogs.Dialog
	kinds           []plan.CableKind
	like, near, far *dialogs.Chooser
	form            *dialogs.Chooser
	name, figure    *dialogs.Entry
	lockable, shell *widget.Check
	told            *widget.Label
}

// OwnCable asks for a kind of cable of the user's own.
func (s *Dialogs) OwnCable() {
	d := &ownCableDialog{Dialogs: s, kinds: catalogue.CableKindsFor(s.Desk().Plan()), name: dialogs.NewEntry(s), figure: dialogs.NewEntry(s)}
	slices.SortFunc(d.kinds, func(a, b plan.CableKind) int { return strings.Compare(a.Name, b.Name) })
	names := make([]string, len(d.kinds))
	for i, kind := range d.kinds {
		names[i] = kind.Name
	}
	d.like = dialogs.NewChooser(s, names, func(string) { d.fill() })
	d.near, d.far = s.chooserOf(plan.CableKindsTable, "near_end", plan.CableKind{}), s.chooserOf(plan.CableKindsTable, "far_end", plan.CableKind{})
	d.form = s.chooserOf(plan.CableKindsTable, "form", plan.CableKind{})
	d.lockable, d.shell = widget.NewCheck("", nil), widget.NewCheck("", nil)
	d.name.OnSubmitted = func(string) { d.take() }
	d.figure.OnSubmitted = func(string) { d.take() }
	d.told = widget.NewLabel("Reels are then added of it. What the link loses follows the figure at once.")
	d.show()
}

func (d *ownCableDialog) show() {
	content := container.NewBorder(nil, dialogs.RoomFor(d.told, 2), nil, nil, widget.NewForm(
		widget.NewFormItem("Like", d.like), described(plan.CableKindsTable, "name", d.name), described(plan.CableKindsTable, "own_figure", d.figure),
		described(plan.CableKindsTable, "near_end", d.near), described(plan.CableKindsTable, "far_end", d.far), described(plan.CableKindsTable, "form", d.form),
		described(plan.CableKindsTable, "lockable", d.lockable), described(plan.CableKindsTable, "metal_shell", d.shell),
	))
	d.dialog = dialogs.New(d, "Own kind of cable", content)
	button := dialogs.NewAnswer(d, "Make it", d.take)
	button.Importance = widget.HighImportance
	d.dialog.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(d, "Cancel", d.dialog.Hide), button})
	d.dialog.Fit(dialogs.FormWidth, 0)
	d.Keys().Escapable(d.dialog.Hide)
	d.dialog.Show()
	dialogs.Focus(d, d.like)
}

// fill fills the form in from the kind that it is like.
func (d *ownCableDialog) fill() {
	from := text.OwnCableFrom(d.kinds[d.like.SelectedIndex()])
	d.name.SetText(from.Name)
	d.figure.SetText(from.Figure)
	d.figure.SetPlaceHolder(fields.Of(plan.CableKindsTable, "own_figure").Blank(fields.State{}, d.kinds[d.like.SelectedIndex()]))
	d.near.SetSelected(from.Near)
	d.far.SetSelected(from.Far)
	d.form.SetSelected(from.Form)
	d.lockable.SetChecked(from.Lockable)
	d.shell.SetChecked(from.MetalShell)
}

// take makes the kind, or says why not.
func (d *ownCableDialog) take() {
	made := text.OwnCable{
		Name: d.name.Text, Figure: d.figure.Text, Near: d.near.Selected, Far: d.far.Selected, Form: d.form.Selected,
		Lockable: d.lockable.Checked, MetalShell: d.shell.Checked,
	}
	if i := d.like.SelectedIndex(); i >= 0 {
		made.From = d.kinds[i].ID
	}
	kind, reason := made.Kind(d.Desk().Plan())
	if reason == "" {
		if err := d.Desk().Do("Make cable "+kind.Name, func(e *plan.Edit) error { plan.Put(e, kind); return nil }); err != nil {
			reason = words.Sentence(err)
		}
	}
	if reason != "" {
		d.told.Importance = widget.DangerImportance
		d.told.SetText(reason)
		return
	}
	d.dialog.Hide()
	d.Say(kind.Name + " is a kind of cable of this plan: add reels of it, or lay it by length.")
}
