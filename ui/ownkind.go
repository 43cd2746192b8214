package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/ui/text"
)

// ownKindFields are the fields of the dialog.
type ownKindFields struct {
	name, inputs, outputs *field
	ports                 *field
	hardware              *chooser
	keep                  *widget.Check
}

func (w *window) ownKindFields(form text.OwnKind) *ownKindFields {
	f := &ownKindFields{
		name: w.newField(), inputs: w.newField(), outputs: w.newField(), ports: w.newLongField(),
		hardware: w.newChooser(text.HardwareWords(), nil),
		keep:     widget.NewCheck("keep it in my library, for other plans", nil),
	}
	f.name.SetText(form.Name)
	f.inputs.SetText(form.Inputs)
	f.outputs.SetText(form.Outputs)
	f.ports.SetText(form.Ports)
	f.ports.SetMinRowsVisible(6)
	f.hardware.SetSelectedIndex(text.PlaceOfHardware(form.Hardware))
	return f
}

func (f *ownKindFields) layOut() *widget.Form {
	return widget.NewForm(
		widget.NewFormItem("Name", f.name), widget.NewFormItem("Inputs", f.inputs), widget.NewFormItem("Outputs", f.outputs),
		widget.NewFormItem("Ports", f.ports), widget.NewFormItem("Connectors", f.hardware), widget.NewFormItem("", f.keep),
	)
}

// typed is what stands in the fields.
func (f *ownKindFields) typed() text.OwnKind {
	return text.OwnKind{
		Name: f.name.Text, Inputs: f.inputs.Text, Outputs: f.outputs.Text, Ports: f.ports.Text,
		Hardware: text.HardwareAt(f.hardware.SelectedIndex()),
	}
}

// ownKind makes a kind of the user's own from that of the selected device, which becomes of it.
func (w *window) ownKind() {
	devices := w.selectedDevices()
	if len(devices) != 1 {
		w.notice.Say("Select one device to make a kind of your own from its kind.")
		return
	}
	device, _ := w.desk.Plan().Device(devices[0])
	fields := w.ownKindFields(text.OwnKindFrom(w.desk.Plan(), device.Kind))
	told := widget.NewLabel("One port a line: its name and its transport; then, where it is so, after commas: through B, fibre singlemode, power type2.")
	content := container.NewBorder(nil, steady(told, 2), nil, nil, fields.layOut())
	d := dialog.NewCustomWithoutButtons("Own kind", content, w.window)
	take := widget.NewButton("Make it", func() {
		kind, reason := fields.typed().Kind(w.desk.Plan(), device.Kind)
		if reason == "" {
			reason = w.makeKind(device.ID, kind, fields.keep.Checked)
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
	w.escapable(d.Hide)
	d.Show()
	w.window.Canvas().Focus(fields.name)
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
		return sentence(err)
	}
	return ""
}

// listEquipment shows the kinds of catalogue, plan and library.
func (w *window) listEquipment() {
	own, err := w.library.Kinds()
	if err != nil {
		w.warnAlso(sentence(err))
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
