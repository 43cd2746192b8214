package laying

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
)

// linkDialog links two ports by keys: a device and a free port at each end, told at once whether they fit.
type linkDialog struct {
	*Dialogs
	dialog  *dialogs.Dialog
	devices []plan.Device
	ends    [2]linkEnd
	told    *widget.Label
	take    *dialogs.Answer
	draft   plan.Link
}

// linkEnd is one end of the dialog: two lists.
type linkEnd struct{ device, port *dialogs.Chooser }

// LinkPorts opens the dialog; a selected device is the near end.
func (l *Dialogs) LinkPorts() {
	d := &linkDialog{Dialogs: l, devices: l.Desk().Assessment().Devices(), told: widget.NewLabel("")}
	if len(d.devices) < 2 {
		l.Say("A link needs two devices: place them first.")
		return
	}
	form := widget.NewForm()
	for i, label := range []string{"From", "To"} {
		end := &d.ends[i]
		end.port = dialogs.NewChooser(l, nil, func(string) { d.check() })
		end.device = dialogs.NewChooser(l, nil, func(string) { d.offerPorts(i) })
		end.port.Enter, end.device.Enter = d.enter, d.enter
		form.Append(label, container.NewGridWithColumns(2, end.device, end.port))
	}
	for i := range d.ends {
		d.offerDevices(i)
	}
	d.take = dialogs.NewAnswer(l, "Link", d.link)
	d.take.Importance = widget.HighImportance
	d.dialog = dialogs.New(l, "Link two ports", container.NewVBox(form, dialogs.RoomFor(d.told, 3)))
	d.dialog.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(l, "Cancel", d.close), d.take})
	d.dialog.Fit(dialogs.FormWidth, 0)
	l.Keys().Escapable(d.close)
	l.Keys().Submits(d.enter)
	d.dialog.Show()
	d.begin()
}

// close ends the dialog.
func (d *linkDialog) close() {
	d.Keys().Submits(nil)
	d.dialog.Hide()
}

// enter presses Link where two ports are chosen that fit.
func (d *linkDialog) enter() {
	if !d.take.Disabled() {
		d.link()
	}
}

// offered are the devices that an end may be at: the far end is not at the near end's.
func (d *linkDialog) offered(end int) []plan.Device {
	near := d.ends[0].device.SelectedIndex()
	if end == 0 || near < 0 {
		return d.devices
	}
	return slices.Delete(slices.Clone(d.devices), near, near+1)
}

// offerDevices lists the devices of an end; the one that is chosen stays so where it is still offered.
func (d *linkDialog) offerDevices(end int) {
	chooser := d.ends[end].device
	var names []string
	for _, device := range d.offered(end) {
		names = append(names, device.Name)
	}
	chooser.Options = names
	if chooser.Selected != "" && !slices.Contains(names, chooser.Selected) {
		chooser.ClearSelected()
		d.ends[end].port.Options = nil
		d.ends[end].port.ClearSelected()
	}
	chooser.Refresh()
}

// begin chooses the selected device as the near end.
func (d *linkDialog) begin() {
	d.check()
	for i, device := range d.devices {
		if d.Desk().Selected(plan.RefOf(device)) {
			d.ends[0].device.SetSelectedIndex(i)
			dialogs.Focus(d, d.ends[1].device)
			return
		}
	}
	dialogs.Focus(d, d.ends[0].device)
}

// offerPorts lists the free ports of an end's device; at the far end those that fit, and the first of them chosen.
func (d *linkDialog) offerPorts(end int) {
	index := d.ends[end].device.SelectedIndex()
	if index < 0 {
		return
	}
	if end == 0 {
		d.offerDevices(1)
	}
	device, p := d.offered(end)[index], d.Desk().Plan()
	var ports []string
	for _, port := range p.Ports(device.Kind) {
		draft := plan.Link{From: device.ID, FromPort: port.Name}
		if near, chosen := d.end(0); end == 1 && chosen {
			draft = plan.Link{From: near.From, FromPort: near.FromPort, To: device.ID, ToPort: port.Name}
		}
		if _, reason := catalogue.NewLink(p, draft); reason == "" {
			ports = append(ports, port.Name)
		}
	}
	d.ends[end].port.Options = ports
	d.ends[end].port.ClearSelected()
	if len(ports) > 0 {
		d.ends[end].port.SetSelectedIndex(0)
	}
	if end == 0 && d.ends[1].device.SelectedIndex() >= 0 {
		d.offerPorts(1)
	}
	d.check()
}

// end is what is chosen at one end, as the near end of a link.
func (d *linkDialog) end(i int) (plan.Link, bool) {
	index := d.ends[i].device.SelectedIndex()
	if index < 0 || d.ends[i].port.Selected == "" {
		return plan.Link{}, false
	}
	return plan.Link{From: d.offered(i)[index].ID, FromPort: d.ends[i].port.Selected}, true
}

// check tells what the link would be, or why there is none yet.
func (d *linkDialog) check() {
	if d.take == nil {
		return
	}
	near, nearChosen := d.end(0)
	far, farChosen := d.end(1)
	d.take.Disable()
	switch {
	case d.ends[1].device.SelectedIndex() >= 0 && nearChosen && !farChosen:
		d.told.SetText("No free port there takes what this port gives.")
		return
	case !nearChosen || !farChosen:
		d.told.SetText("Choose a device and a port at each end; ports in use are left out.")
		return
	}
	link, reason := catalogue.NewLink(d.Desk().Plan(), plan.Link{
		From: near.From, FromPort: near.FromPort, To: far.From, ToPort: far.FromPort, Way: "straight",
	})
	if reason != "" {
		d.told.SetText(words.Sentence(&refusedLink{reason}))
		return
	}
	d.draft = link
	units := d.Units()
	b := d.sketched(link).Printed(units.Unit())
	if b.Measured.Wanting() {
		d.told.SetText(b.TransportName + ", run not known: not both ends have a place. Type the metres of its way on its card or in the table of links, for instance 62 m, paced.")
		d.take.Enable()
		return
	}
	d.told.SetText(fmt.Sprintf("%s, run %s (%s): %s", b.TransportName, units.Needed(b.Run), b.Measured.Words(), b.WhyIn(units.Needed)))
	d.take.Enable()
}

// sketched reckons a link that is not there yet, whose wanted kind the plan may not hold yet either.
func (d *linkDialog) sketched(link plan.Link) budget.Budget {
	p := d.Desk().Plan()
	if link.FillKind != "" && !p.CableKinds.Has(plan.Key(link.FillKind)) {
		wider, err := plan.Do(p, nil, func(e *plan.Edit) error { return catalogue.UseCable(e, link.FillKind) })
		if err == nil {
			p = wider
		}
	}
	return budget.NewReckoner(p).Sketch(budget.Sketch{Link: link})
}

type refusedLink struct{ reason string }

// Error says why two ports do not fit.
func (r *refusedLink) Error() string { return r.reason }

func (d *linkDialog) link() {
	d.close()
	if err := d.Ground.AddLink(d.draft); err != nil {
		d.Refused(err)
	}
}
