package patching

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// fillDialog plugs inputs of the list in order into the sockets of a device, or puts them on the channels of a console.
type fillDialog struct {
	*Dialogs
	first  plan.InputID
	count  *dialogs.Entry
	into   *dialogs.Chooser
	from   *dialogs.Entry
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

// FillChosen plugs inputs in order from what is selected on.
func (p *Dialogs) FillChosen() {
	chosen, patches := p.Chosen()
	if !patches || len(chosen.Inputs) == 0 && len(chosen.Sockets) == 0 {
		p.Say("Select the first input, or all of them, in the table of the patch first: Ctrl 7.")
		return
	}
	p.Fill(chosen)
}

// Fill asks how many inputs, from the first chosen on, go where.
func (p *Dialogs) Fill(c Chosen) {
	d := &fillDialog{Dialogs: p, places: p.fillPlaces()}
	if len(d.places) == 0 {
		p.Say("No device has sockets yet. Put a stage box on the plan first: Ctrl E.")
		return
	}
	d.build(c)
}

func (p *Dialogs) fillPlaces() (places []fillPlace) {
	view, act := p.Desk().Assessment().Patch, p.actNow()
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

func (d *fillDialog) build(c Chosen) {
	p := d.Dialogs
	d.count, d.from = dialogs.NewEntry(p), dialogs.NewEntry(p)
	d.told = widget.NewLabel("")
	names := make([]string, len(d.places))
	for i, place := range d.places {
		names[i] = place.name
	}
	d.into = dialogs.NewChooser(p, names, func(string) { d.tell() })
	d.start(c)
	dlg := dialogs.New(p, "In order from here", widget.NewForm(
		widget.NewFormItem("Inputs", d.count),
		widget.NewFormItem("Into", d.into),
		widget.NewFormItem("From number", d.from),
		widget.NewFormItem("", dialogs.RoomFor(d.told, 3)),
	))
	d.take = dialogs.NewAnswer(p, "Plug", func() {
		if err := p.Desk().Do(d.name(), d.edit); err != nil {
			d.told.SetText(words.Sentence(err))
			return
		}
		dlg.Hide()
		p.Leave()
	})
	d.take.Importance = widget.HighImportance
	cancel := dialogs.NewAnswer(p, "Cancel", func() {
		dlg.Hide()
		p.Leave()
	})
	dlg.SetButtons([]fyne.CanvasObject{cancel, d.take})
	for _, f := range []*dialogs.Entry{d.count, d.from} {
		f.OnChanged = func(string) { d.tell() }
		f.OnSubmitted = func(string) { d.take.OnTapped() }
	}
	d.tell()
	dlg.Fit(dialogs.FormWidth, 0)
	p.Keys().Escapable(cancel.OnTapped)
	dlg.Show()
	dialogs.Focus(p, d.from)
}

// start fills the fields with what the selection says.
func (d *fillDialog) start(c Chosen) {
	act := d.actNow()
	count := max(1, len(c.Inputs), len(c.Sockets))
	if len(c.Inputs) > 0 {
		d.first = c.Inputs[0]
	}
	at, number := 0, 1
	if len(c.Sockets) > 0 {
		number = c.Sockets[0].Number
		at = d.placeOf(c.Sockets[0].Device, false)
		d.first = d.unpatched(c)
	} else if line, found := act.Line(d.first); found && c.Console != "" {
		at, number = d.placeOf(c.Console, true), max(1, line.Number(c.Console))
	} else if found && line.Patched() {
		at, number = d.placeOf(line.At.Device, false), line.At.Number
	}
	d.count.Text, d.from.Text = strconv.Itoa(count), strconv.Itoa(number)
	d.into.Selected = d.places[at].name
}

// unpatched is the first input of the list that is not plugged in, or else what is on the first socket.
func (d *fillDialog) unpatched(c Chosen) plan.InputID {
	if len(c.Inputs) > 0 {
		return c.Inputs[0]
	}
	for _, line := range d.actNow().Lines {
		if !line.Patched() && !line.Struck {
			return line.Input.ID
		}
	}
	return ""
}

func (d *fillDialog) placeOf(device plan.DeviceID, channels bool) int {
	return max(0, slices.IndexFunc(d.places, func(place fillPlace) bool { return place.device == device && place.channels == channels }))
}

// inputs are so many of the table, from the first on, as it is sorted and filtered.
func (d *fillDialog) inputs() ([]plan.InputID, error) {
	count, err := strconv.Atoi(strings.TrimSpace(d.count.Text))
	if err != nil || count < 1 {
		return nil, fmt.Errorf("%q is no count of inputs", d.count.Text)
	}
	list := d.Listed()
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
		return patch.FillChannels(e, d.ActShown(), place.device, inputs, number)
	}
	return patch.Fill(e, d.ActShown(), inputs, patch.Socket{Device: place.device, Number: number}, d.ChannelsFollow())
}

// tell says what would come of it, or why it can't be.
func (d *fillDialog) tell() {
	next, err := plan.Do(d.Desk().Plan(), nil, d.edit)
	if err != nil {
		d.told.Importance = widget.WarningImportance
		d.told.SetText(words.Sentence(err))
		return
	}
	inputs, _ := d.inputs()
	view := patch.Of(next)
	act, _ := view.Act(d.ActShown())
	d.told.Importance = widget.MediumImportance
	d.told.SetText(text.FillTold(view, act, inputs))
}
