package ui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// fillDialog plugs inputs of the list in order into the sockets of a device, or puts them on the channels of a console.
type fillDialog struct {
	*window
	first  plan.InputID
	count  *dialogs.Field
	into   *dialogs.Chooser
	from   *dialogs.Field
	told   *widget.Label
	take   *dialogs.Answer
	places []fillPlace
}

// fillPlace is where inputs can go in order.
type fillPlace struct {
	name     string
	device   plan.DeviceID
	channels bool
}

// askFill asks how many inputs, from the first selected on, go where.
func (w *window) askFill() {
	c, patches := w.patchChosen()
	if !patches || len(c.inputs) == 0 && len(c.sockets) == 0 {
		w.notice.Say("Select the first input, or all of them, in the table of the patch first: Ctrl 7.")
		return
	}
	d := &fillDialog{window: w, places: w.fillPlaces()}
	if len(d.places) == 0 {
		w.notice.Say("No device has sockets yet. Put a stage box on the plan first: Ctrl E.")
		return
	}
	d.build(c)
}

func (w *window) fillPlaces() (places []fillPlace) {
	view, act := w.desk.Assessment().Patch, w.actNow()
	for _, id := range view.WithSockets(false) {
		places = append(places, fillPlace{fmt.Sprintf("sockets of %s, %d", view.Name(id), view.Sockets(id, false)), id, false})
	}
	for _, id := range view.Consoles() {
		if act.Here(id) {
			places = append(places, fillPlace{"channels of " + view.Name(id), id, true})
		}
	}
	return places
}

func (d *fillDialog) build(c patchChoice) {
	w := d.window
	d.count, d.from = dialogs.NewField(w), dialogs.NewField(w)
	d.told = widget.NewLabel("")
	names := make([]string, len(d.places))
	for i, place := range d.places {
		names[i] = place.name
	}
	d.into = dialogs.NewChooser(w, names, func(string) { d.tell() })
	d.start(c)
	dlg := dialog.NewCustomWithoutButtons("In order from here", widget.NewForm(
		widget.NewFormItem("Inputs", d.count),
		widget.NewFormItem("Into", d.into),
		widget.NewFormItem("From number", d.from),
		widget.NewFormItem("", dialogs.Steady(d.told, 3)),
	), w.window)
	d.take = dialogs.NewAnswer(w, "Plug", func() {
		if err := w.desk.Do(d.name(), d.edit); err != nil {
			d.told.SetText(text.Sentence(err))
			return
		}
		dlg.Hide()
		w.tables.grid().Focus()
	})
	d.take.Importance = widget.HighImportance
	cancel := dialogs.NewAnswer(w, "Cancel", func() {
		dlg.Hide()
		w.tables.grid().Focus()
	})
	dlg.SetButtons([]fyne.CanvasObject{cancel, d.take})
	for _, f := range []*dialogs.Field{d.count, d.from} {
		f.OnChanged = func(string) { d.tell() }
		f.OnSubmitted = func(string) { d.take.OnTapped() }
	}
	d.tell()
	dlg.Resize(fyne.NewSize(520, 320))
	w.Keys().Escapable(cancel.OnTapped)
	dlg.Show()
	w.window.Canvas().Focus(d.from)
}

// start fills the fields with what the selection says.
func (d *fillDialog) start(c patchChoice) {
	act := d.actNow()
	count := max(1, len(c.inputs), len(c.sockets))
	if len(c.inputs) > 0 {
		d.first = c.inputs[0]
	}
	at, number := 0, 1
	if len(c.sockets) > 0 {
		number = c.sockets[0].Number
		at = d.placeOf(c.sockets[0].Device, false)
		d.first = d.unpatched(c)
	} else if line, found := act.Line(d.first); found && c.console != "" {
		at, number = d.placeOf(c.console, true), max(1, line.Number(c.console))
	} else if found && line.Patched() {
		at, number = d.placeOf(line.At.Device, false), line.At.Number
	}
	d.count.Text, d.from.Text = strconv.Itoa(count), strconv.Itoa(number)
	d.into.Selected = d.places[at].name
}

// unpatched is the first input of the list that is not plugged in, or else what is on the first socket.
func (d *fillDialog) unpatched(c patchChoice) plan.InputID {
	if len(c.inputs) > 0 {
		return c.inputs[0]
	}
	for _, line := range d.actNow().Lines {
		if !line.Patched() && !line.Struck {
			return line.Input.ID
		}
	}
	return ""
}

func (d *fillDialog) placeOf(device plan.DeviceID, channels bool) int {
	return max(0, slices.IndexFunc(d.places, func(p fillPlace) bool { return p.device == device && p.channels == channels }))
}

// inputs are so many of the table, from the first on, as it is sorted and filtered.
func (d *fillDialog) inputs() ([]plan.InputID, error) {
	count, err := strconv.Atoi(strings.TrimSpace(d.count.Text))
	if err != nil || count < 1 {
		return nil, fmt.Errorf("%q is no count of inputs", d.count.Text)
	}
	var list []plan.InputID
	if d.tables.open == "patch" {
		sheet := d.tables.grid().Sheet()
		for row := range sheet.Len() {
			list = append(list, plan.InputID(sheet.Ref(row).Key))
		}
	} else {
		for _, line := range d.actNow().Lines {
			list = append(list, line.Input.ID)
		}
	}
	at := slices.Index(list, d.first)
	if at < 0 {
		return nil, fmt.Errorf("every input is plugged in already; select those to move in the table of the patch")
	}
	if len(list)-at < count {
		return nil, fmt.Errorf("only %d inputs are listed from there on", len(list)-at)
	}
	return list[at : at+count], nil
}

func (d *fillDialog) name() string { return "Fill " + strings.SplitN(d.into.Selected, ",", 2)[0] }

// edit plugs the inputs; tell tries it first.
func (d *fillDialog) edit(e *plan.Edit) error {
	inputs, err := d.inputs()
	if err != nil {
		return err
	}
	number, err := strconv.Atoi(strings.TrimSpace(d.from.Text))
	if err != nil || number < 1 {
		return fmt.Errorf("%q is no number of a socket or channel", d.from.Text)
	}
	place := d.places[max(0, d.into.SelectedIndex())]
	if place.channels {
		return patch.FillChannels(e, d.actShown(), place.device, inputs, number)
	}
	return patch.Fill(e, d.actShown(), inputs, patch.Socket{Device: place.device, Number: number}, d.settings.ChannelsFollow())
}

// tell says what would come of it, or why it can't be.
func (d *fillDialog) tell() {
	next, err := plan.Do(d.desk.Plan(), nil, d.edit)
	if err != nil {
		d.told.Importance = widget.WarningImportance
		d.told.SetText(text.Sentence(err))
		return
	}
	inputs, _ := d.inputs()
	view := patch.Of(next)
	act, _ := view.Act(d.actShown())
	d.told.Importance = widget.MediumImportance
	d.told.SetText(text.FillTold(view, act, inputs))
}

// askRehome asks which device takes over the patch of another: inputs keep the numbers of their sockets.
func (w *window) askRehome() {
	view := w.desk.Assessment().Patch
	var ids []plan.DeviceID
	var names []string
	for id := range view.ByName() {
		if view.Sockets(id, false)+view.Sockets(id, true) > 0 {
			ids, names = append(ids, id), append(names, view.Name(id))
		}
	}
	if len(ids) < 2 {
		w.notice.Say("Two devices with sockets are needed: one that has the patch, and one that takes it over.")
		return
	}
	told := widget.NewLabel("Inputs, outputs and channels keep the numbers of their sockets; slots are given out anew.")
	from, to := dialogs.NewChooser(w, names, nil), dialogs.NewChooser(w, names, nil)
	from.SetSelectedIndex(0)
	to.SetSelectedIndex(1)
	if chosen := w.selectedDevices(); len(chosen) > 0 {
		from.SetSelectedIndex(max(0, slices.Index(ids, chosen[0])))
	}
	edit := func(e *plan.Edit) error { return patch.Rehome(e, ids[from.SelectedIndex()], ids[to.SelectedIndex()]) }
	d := dialog.NewCustomWithoutButtons("Move the patch of a device", container.NewVBox(widget.NewForm(
		widget.NewFormItem("From", from), widget.NewFormItem("To", to),
	), dialogs.Steady(told, 3)), w.window)
	move := dialogs.NewAnswer(w, "Move the patch", func() {
		if err := w.desk.Do("Move the patch of "+from.Selected+" to "+to.Selected, edit); err != nil {
			told.SetText(text.Sentence(err))
			return
		}
		d.Hide()
		w.notice.Say("The patch of " + from.Selected + " is on " + to.Selected + " now. Ctrl Z takes it back.")
	})
	move.Importance = widget.HighImportance
	cancel := dialogs.NewAnswer(w, "Cancel", d.Hide)
	d.SetButtons([]fyne.CanvasObject{cancel, move})
	d.Resize(fyne.NewSize(480, 280))
	w.Keys().Escapable(d.Hide)
	d.Show()
	w.window.Canvas().Focus(from)
}
