package stock

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// OwnKind makes a kind of the user's own from that of a device, which becomes of it.
func (s *Dialogs) OwnKind(id plan.DeviceID) {
	device, _ := s.Desk().Plan().Device(id)
	form := text.OwnKindFrom(s.Desk().Plan(), device.Kind)
	name, inputs, outputs, ports := dialogs.NewField(s), dialogs.NewField(s), dialogs.NewField(s), dialogs.NewLongField(s)
	name.SetText(form.Name)
	inputs.SetText(form.Inputs)
	outputs.SetText(form.Outputs)
	ports.SetText(form.Ports)
	ports.SetMinRowsVisible(6)
	hardware := dialogs.NewChooser(s, text.HardwareWords(), nil)
	hardware.SetSelectedIndex(text.PlaceOfHardware(form.Hardware))
	keep := widget.NewCheck("keep it in my library, for other plans", nil)
	told := widget.NewLabel("One port a line: its name and its transport; then, where it is so, after commas: through B, fibre singlemode, power type2.")
	content := container.NewBorder(nil, dialogs.Steady(told, 2), nil, nil, widget.NewForm(
		widget.NewFormItem("Name", name), widget.NewFormItem("Inputs", inputs), widget.NewFormItem("Outputs", outputs),
		widget.NewFormItem("Ports", ports), widget.NewFormItem("Connectors", hardware), widget.NewFormItem("", keep),
	))
	d := dialog.NewCustomWithoutButtons("Own kind", content, s.Window())
	take := widget.NewButton("Make it", func() {
		form := text.OwnKind{Name: name.Text, Inputs: inputs.Text, Outputs: outputs.Text, Ports: ports.Text, Hardware: text.HardwareAt(hardware.SelectedIndex())}
		kind, reason := form.Kind(s.Desk().Plan(), device.Kind)
		if reason == "" {
			reason = s.makeKind(device.ID, kind, keep.Checked)
		}
		if reason == "" {
			d.Hide()
			return
		}
		told.Importance = widget.DangerImportance
		told.SetText(reason)
	})
	take.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{widget.NewButton("Cancel", d.Hide), take})
	d.Resize(fyne.NewSize(560, 520))
	s.Keys().Escapable(d.Hide)
	d.Show()
	dialogs.Focus(s, name)
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
		return text.Sentence(err)
	}
	return ""
}
