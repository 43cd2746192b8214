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

// ownKindFields are the fields of the dialog.
type ownKindFields struct {
	name, inputs, outputs *dialogs.Entry
	ports                 *dialogs.Entry
	hardware              *dialogs.Chooser
	keep                  *widget.Check
}

func (s *Dialogs) ownKindFields(form text.OwnKind) *ownKindFields {
	f := &ownKindFields{
		name: dialogs.NewEntry(s), inputs: dialogs.NewEntry(s), outputs: dialogs.NewEntry(s), ports: dialogs.NewLongEntry(s),
		hardware: dialogs.NewChooser(s, nil, nil),
		keep:     widget.NewCheck("keep it in my library, for other plans", nil),
	}
	f.name.SetText(form.Name)
	f.inputs.SetText(form.Inputs)
	f.outputs.SetText(form.Outputs)
	f.ports.SetText(form.Ports)
	f.ports.SetMinRowsVisible(6)
	f.hardware.SetOptions(text.HardwareFor(form.Ports))
	f.hardware.SetSelected(form.Hardware)
	f.ports.OnChanged = func(ports string) { f.hardware.SetOptions(text.HardwareFor(ports)) } // what connectors there are depends on what runs through
	return f
}

func (f *ownKindFields) layOut() *widget.Form {
	return widget.NewForm(
		described(plan.KindsTable, "name", f.name), described(plan.KindsTable, "inputs", f.inputs), described(plan.KindsTable, "outputs", f.outputs),
		widget.NewFormItem("Ports", f.ports), described(plan.KindsTable, "hardware", f.hardware), widget.NewFormItem("", f.keep),
	)
}

// typed is what stands in the fields.
func (f *ownKindFields) typed() text.OwnKind {
	return text.OwnKind{
		Name: f.name.Text, Inputs: f.inputs.Text, Outputs: f.outputs.Text, Ports: f.ports.Text,
		Hardware: f.hardware.Selected,
	}
}

// OwnKind makes a kind of the user's own from that of a device, which becomes of it.
func (s *Dialogs) OwnKind(id plan.DeviceID) {
	device, _ := s.Desk().Plan().Device(id)
	fields := s.ownKindFields(text.OwnKindFrom(s.Desk().Plan(), device.Kind))
	told := widget.NewLabel("One port a line: its name and its transport; then, where it is so, after commas: through B, fibre singlemode, power type2.")
	content := container.NewBorder(nil, dialogs.RoomFor(told, 2), nil, nil, fields.layOut())
	d := dialogs.New(s, "Own kind", content)
	take := dialogs.NewAnswer(s, "Make it", func() {
		kind, reason := fields.typed().Kind(s.Desk().Plan(), device.Kind)
		if reason == "" {
			reason = s.makeKind(device.ID, kind, fields.keep.Checked)
		}
		if reason == "" {
			d.Hide()
			return
		}
		told.Importance = widget.DangerImportance
		told.SetText(reason)
	})
	take.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(s, "Cancel", d.Hide), take})
	d.Fit(dialogs.FormWidth, 0)
	s.Keys().Escapable(d.Hide)
	d.Show()
	dialogs.Focus(s, fields.name)
}

// makeKind puts the kind into the plan, gives it to the device, and keeps it where the user wants; it returns why not.
func (s *Dialogs) makeKind(device plan.DeviceID, kind catalogue.DeviceKind, keep bool) (reason string) {
	err := s.Desk().Do("Make kind "+kind.Kind.Name, func(e *plan.Edit) error {
		kind.Put(e)
		return e.ReplaceKind(device, kind.Kind.ID)
	})
	if err == nil && keep {
		err = s.Library().Keep(kind)
		s.KindsChanged()
	}
	if err != nil {
		return words.Sentence(err)
	}
	return ""
}
