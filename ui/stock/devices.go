package stock

import (
	"strings"

	"fyne.io/fyne/v2/widget"

	"stageloom/model/catalogue"
	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// ImportDevices opens the dialog for a list of devices.
func (s *Dialogs) ImportDevices() { s.importList(s.OfPlan(), holdsDevices, "") }

// reckonDevices reads a list of devices as the choices have it; what it changes is listed before anything is taken.
func (d *importDialog) reckonDevices(grid exchange.Grid) {
	p := d.place.now()
	options := exchange.DeviceOptions{Bare: d.Units().Length, Kinds: d.deviceKinds()}
	d.askDevices(exchange.ReadDevices(grid, d.layout, p, options).Unknown, options.Kinds)
	options.Named = d.means
	list := exchange.ReadDevices(grid, d.layout, p, options)
	d.add = func(e *plan.Edit, goodOnly bool) error {
		if goodOnly {
			list = list.GoodOnly()
		}
		return list.Add(e, d.UseKind)
	}
	coming := list.Coming(p)
	d.conclude(text.DevicesTold(coming), len(list.Rows), list.Faults)
	if changes := text.DeviceChangesTold(coming, mostFaults); changes != "" {
		d.faults.SetText(strings.TrimRight(changes+"\n"+d.faults.Text, "\n"))
	}
}

// deviceKinds are the kinds of the plan, of the user's library and of the catalogue, each once.
func (d *importDialog) deviceKinds() []plan.Kind {
	var kinds []plan.Kind
	seen := map[plan.KindID]bool{}
	add := func(kind plan.Kind) {
		if !seen[kind.ID] {
			seen[kind.ID] = true
			kinds = append(kinds, kind)
		}
	}
	for kind := range d.place.now().Kinds.All() {
		add(kind)
	}
	for _, kind := range d.OwnKinds() {
		add(kind.Kind)
	}
	for _, kind := range catalogue.DeviceKinds() {
		add(kind.Kind)
	}
	return kinds
}

// askDevices asks what words for kinds of device mean that no kind bears; what was answered stays answered.
func (d *importDialog) askDevices(unknown []string, kinds []plan.Kind) {
	if strings.Join(unknown, "\n") == strings.Join(d.words, "\n") {
		return
	}
	d.words, d.asked.shown = unknown, nil
	d.words2kinds.RemoveAll()
	if len(unknown) == 0 {
		return
	}
	names := []string{"not known: a fault"}
	for _, kind := range kinds {
		names = append(names, kind.Name)
	}
	form := widget.NewForm()
	for _, words := range unknown[:min(len(unknown), mostWords)] { // once some are answered the others come up in the list of faults
		means := dialogs.NewChooser(d, names, nil)
		means.SetSelectedIndex(0)
		for at, kind := range kinds {
			if kind.ID == d.means[words] {
				means.SetSelectedIndex(at + 1)
			}
		}
		means.OnChanged = func(string) {
			delete(d.means, words)
			if at := means.SelectedIndex(); at > 0 {
				d.means[words] = kinds[at-1].ID
			}
			d.reckon()
		}
		form.AppendItem(widget.NewFormItem("\""+words+"\" is", means))
	}
	d.words2kinds.Add(form)
	d.words2kinds.Refresh()
}
