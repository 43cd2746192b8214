package devices

import (
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// Where a new device is put.
const (
	putOnPlan = "on the plan, in its middle"
	putInList = "in the list only"
)

// deviceDialog adds devices to the table: what they are, how many, and whether they have a place on the ground.
type deviceDialog struct {
	*Dialogs
	dialog                *dialogs.Dialog
	kinds                 []text.EquipmentRow
	positions             []plan.Position
	kind, position, place *dialogs.Chooser
	name, count           *dialogs.Entry
	told                  *widget.Label
	made                  func(plan.Ref)
}

// Ask asks for new devices; made is told the first of them.
func (k *Dialogs) Ask(made func(plan.Ref)) {
	d := &deviceDialog{Dialogs: k, name: dialogs.NewEntry(k), count: dialogs.NewEntry(k), told: widget.NewLabel(""), made: made}
	for _, row := range text.EquipmentOf(k.Desk().Plan(), k.own, "") {
		if row.Kind != "" {
			d.kinds = append(d.kinds, row)
		}
	}
	names := make([]string, len(d.kinds))
	for i, row := range d.kinds {
		names[i] = row.Name
	}
	d.kind = dialogs.NewChooser(k, names, nil)
	d.positions = slices.SortedFunc(k.Desk().Plan().Positions.All(), func(a, b plan.Position) int { return strings.Compare(a.Name, b.Name) })
	places := []string{"none"}
	for _, position := range d.positions {
		places = append(places, position.Name)
	}
	d.position, d.place = dialogs.NewChooser(k, places, nil), dialogs.NewChooser(k, []string{putInList, putOnPlan}, nil)
	d.position.SetSelectedIndex(0)
	d.place.SetSelected(map[bool]string{true: putInList, false: putOnPlan}[k.InList()])
	d.name.SetPlaceHolder("blank: its kind's, numbered")
	d.count.SetText("1")
	d.name.OnSubmitted, d.count.OnSubmitted = func(string) { d.take() }, func(string) { d.take() }
	d.show()
}

func (d *deviceDialog) show() {
	content := container.NewBorder(nil, dialogs.RoomFor(d.told, 2), nil, nil, widget.NewForm(
		widget.NewFormItem("Kind", d.kind), widget.NewFormItem("Name", d.name), widget.NewFormItem("How many", d.count),
		widget.NewFormItem("Place", d.place), widget.NewFormItem("Position", d.position),
	))
	d.dialog = dialogs.New(d, "New device", content)
	button := dialogs.NewAnswer(d, "Add", d.take)
	button.Importance = widget.HighImportance
	d.dialog.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(d, "Cancel", d.dialog.Hide), button})
	d.dialog.Fit(dialogs.FormWidth, 0)
	d.Keys().Escapable(d.dialog.Hide)
	d.dialog.Show()
	dialogs.Focus(d, d.kind)
}

// mostAtOnce is the most devices that are added at a time.
const mostAtOnce = 200

// take adds the devices as one step, or says what is missing.
func (d *deviceDialog) take() {
	count, err := strconv.Atoi(strings.TrimSpace(d.count.Text))
	switch {
	case d.kind.SelectedIndex() < 0:
		d.refuse("Choose what it is.")
		return
	case err != nil || count < 1 || count > mostAtOnce:
		d.refuse("Write how many there are: 1 to " + strconv.Itoa(mostAtOnce) + ".")
		return
	}
	var first plan.DeviceID
	row := d.kinds[d.kind.SelectedIndex()]
	err = d.Desk().Do("New "+row.Name, func(e *plan.Edit) error {
		if err := d.Use(e, row.Kind); err != nil {
			return err
		}
		first = e.AddDevices(d.like(row.Kind), count, d.free)
		return nil
	})
	if err != nil {
		d.refuse(words.Sentence(err))
		return
	}
	d.dialog.Hide()
	d.made(plan.Ref{Table: plan.DevicesTable, Key: plan.Key(first)})
}

// like is what all new devices have in common.
func (d *deviceDialog) like(kind plan.KindID) plan.Device {
	device := plan.Device{Kind: kind, Name: strings.TrimSpace(d.name.Text), Unplaced: d.place.Selected == putInList}
	if at := d.position.SelectedIndex(); at > 0 {
		device.Position = d.positions[at-1].ID
	}
	return device
}

// free is where the next of them stands.
func (d *deviceDialog) free(p *plan.Plan) geom.Point {
	return d.freeIn(p, d.Ground.Snapped(d.Ground.Middle()))
}

func (d *deviceDialog) refuse(words string) {
	d.told.Importance = widget.DangerImportance
	d.told.SetText(words)
}
