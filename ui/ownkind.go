package ui

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

// ownKind makes a kind of the user's own from that of the selected device, which becomes of it.
func (w *window) ownKind() {
	devices := w.selectedDevices()
	if len(devices) != 1 {
		w.notice.Say("Select one device to make a kind of your own from its kind.")
		return
	}
	device, _ := w.desk.Plan().Device(devices[0])
	form := text.OwnKindFrom(w.desk.Plan(), device.Kind)
	name, inputs, outputs, ports := dialogs.NewField(w), dialogs.NewField(w), dialogs.NewField(w), dialogs.NewLongField(w)
	name.SetText(form.Name)
	inputs.SetText(form.Inputs)
	outputs.SetText(form.Outputs)
	ports.SetText(form.Ports)
	ports.SetMinRowsVisible(6)
	hardware := dialogs.NewChooser(w, text.HardwareWords(), nil)
	hardware.SetSelectedIndex(text.PlaceOfHardware(form.Hardware))
	keep := widget.NewCheck("keep it in my library, for other plans", nil)
	told := widget.NewLabel("One port a line: its name and its transport; then, where it is so, after commas: through B, fibre singlemode, power type2.")
	content := container.NewBorder(nil, dialogs.Steady(told, 2), nil, nil, widget.NewForm(
		widget.NewFormItem("Name", name), widget.NewFormItem("Inputs", inputs), widget.NewFormItem("Outputs", outputs),
		widget.NewFormItem("Ports", ports), widget.NewFormItem("Connectors", hardware), widget.NewFormItem("", keep),
	))
	d := dialog.NewCustomWithoutButtons("Own kind", content, w.window)
	take := widget.NewButton("Make it", func() {
		form := text.OwnKind{Name: name.Text, Inputs: inputs.Text, Outputs: outputs.Text, Ports: ports.Text, Hardware: text.HardwareAt(hardware.SelectedIndex())}
		kind, reason := form.Kind(w.desk.Plan(), device.Kind)
		if reason == "" {
			reason = w.makeKind(device.ID, kind, keep.Checked)
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
	w.Keys().Escapable(d.Hide)
	d.Show()
	w.window.Canvas().Focus(name)
}

// makeKind puts the kind into the plan, gives it to the device, and keeps it where the user wants; it returns why not.
func (w *window) makeKind(device plan.DeviceID, kind catalogue.DeviceKind, keep bool) (reason string) {
	err := w.desk.Do("Make kind "+kind.Kind.Name, func(e *plan.Edit) error {
		text.PutKind(e, kind)
		return e.ReplaceKind(device, kind.Kind.ID)
	})
	if err == nil && keep {
		err = w.library.Keep(kind)
		w.listEquipment()
	}
	if err != nil {
		return text.Sentence(err)
	}
	return ""
}

// listEquipment shows the kinds of catalogue, plan and library.
func (w *window) listEquipment() {
	own, err := w.library.Kinds()
	if err != nil {
		w.warnAlso(text.Sentence(err))
	}
	w.ownKinds = own
	w.equipment.SetKinds(w.desk.Plan(), own)
}

// use copies a kind into the plan from the catalogue or from the user's library.
func (w *window) use(e *plan.Edit, id plan.KindID) error {
	for _, kind := range w.ownKinds {
		if kind.Kind.ID == id {
			text.PutKind(e, kind)
			return nil
		}
	}
	return catalogue.Use(e, id)
}
