package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/strip"
	"stageloom/ui/text"
)

// cableDialog lays a cable in a link, or replaces one: a reel of the stock that is free, a house line, or a kind and a
// length.
type cableDialog struct {
	*window
	link plan.LinkID
	// change is an Insert or a Replace whose cable is chosen here; atEnd tells that each goes behind the last one.
	change  strip.Change
	atEnd   bool
	choices []text.CableChoice
	dialog  *dialog.CustomDialog
	choice  *dialogs.Chooser
	length  *dialogs.Field
	told    *widget.Label
	add     *widget.Button
}

// askCable opens the dialog for a cable at the far end of the selected link.
func (w *window) askCable() {
	if links := w.selectedLinks(); len(links) == 1 {
		w.openCableDialog(&cableDialog{window: w, link: links[0], atEnd: true, change: strip.Change{Doing: strip.Insert}})
		return
	}
	w.notice.Say("Select one link to lay cable for it.")
}

// askCableFor opens the dialog for a change of the selected link's chain that lays a cable.
func (w *window) askCableFor(c strip.Change) {
	if links := w.selectedLinks(); len(links) == 1 {
		w.openCableDialog(&cableDialog{window: w, link: links[0], change: c})
	}
}

// askReplace opens the dialog that replaces the cable chosen in the strip, or else the link's first.
func (w *window) askReplace() {
	links := w.selectedLinks()
	if len(links) != 1 || len(w.desk.Plan().SegmentsOf(links[0])) == 0 {
		w.notice.Say("Select one link that has a cable.")
		return
	}
	w.askCableFor(strip.Change{Doing: strip.Replace, Order: max(1, w.strip.Chosen())})
}

func (w *window) openCableDialog(d *cableDialog) {
	link, _ := w.desk.Plan().Link(d.link)
	d.length, d.told = dialogs.NewField(w), widget.NewLabel("")
	d.choice = dialogs.NewChooser(w, nil, func(string) { d.chosen() })
	d.choice.Enter = func() { d.lay(false) }
	d.length.OnChanged = func(string) { d.tell() }
	d.length.OnSubmitted = func(string) { d.lay(false) }
	form := widget.NewForm(widget.NewFormItem("Cable", d.choice), widget.NewFormItem("Length", d.length))
	title, verb := "Cable for "+link.Name, "Add"
	if d.change.Doing == strip.Replace {
		title, verb = fmt.Sprintf("Instead of cable %d of %s", d.change.Order, link.Name), "Replace"
	}
	d.add = widget.NewButton(verb, func() { d.lay(false) })
	d.add.Importance = widget.HighImportance
	d.dialog = dialog.NewCustomWithoutButtons(title, container.NewVBox(form, dialogs.Steady(d.told, 3)), w.window)
	buttons := []fyne.CanvasObject{widget.NewButton("Close", d.close)}
	if d.atEnd {
		buttons = append(buttons, widget.NewButton("Add and another", func() { d.lay(true) }))
	}
	d.dialog.SetButtons(append(buttons, d.add))
	d.dialog.Resize(fyne.NewSize(600, 260))
	d.offer()
	w.Keys().Escapable(d.close)
	d.dialog.Show()
	w.window.Canvas().Focus(d.choice)
}

// close ends the dialog; who worked in the strip goes on there.
func (d *cableDialog) close() {
	d.dialog.Hide()
	d.try(strip.Change{})
	if !d.atEnd {
		d.focusStrip()
	}
}

// offer lists what can be laid now; the link's wanted kind comes first, with what is left to reach.
func (d *cableDialog) offer() {
	if d.atEnd {
		d.change.Place = len(d.desk.Plan().SegmentsOf(d.link))
	}
	d.choices = text.CablesFor(d.desk.Plan(), d.link, d.units())
	if d.change.Doing == strip.Replace {
		d.choices = text.CablesInstead(d.desk.Plan(), d.link, d.change.Order, d.units())
	}
	labels := make([]string, len(d.choices))
	for i, choice := range d.choices {
		labels[i] = choice.Words
	}
	d.choice.Options = labels
	d.choice.ClearSelected()
	if len(labels) > 0 {
		d.choice.SetSelectedIndex(0)
	}
}

func (d *cableDialog) chosen() {
	index := d.choice.SelectedIndex()
	if index < 0 {
		return
	}
	choice := d.choices[index]
	d.length.Enable()
	d.length.SetText(d.units().Metres(choice.Length))
	if choice.Segment.Kind == "" {
		d.length.Disable() // a reel and a house line have their own
	}
	d.tell()
}

// segment is what is chosen, or why it is none yet.
func (d *cableDialog) segment() (plan.Segment, string) {
	index := d.choice.SelectedIndex()
	if index < 0 {
		return plan.Segment{}, "No cable of this plan or the catalogue fits " + d.transport() + "."
	}
	segment := d.choices[index].Segment
	if segment.Kind == "" {
		return segment, ""
	}
	metres, err := quantity.ReadLength(d.length.Text, d.units().Length)
	if err != nil {
		return segment, words.Sentence(err)
	}
	segment.Length = metres
	return segment, ""
}

func (d *cableDialog) transport() string {
	b, _ := d.desk.Assessment().Budget(d.link)
	return b.TransportName
}

// tell says what the link would be with the cable.
func (d *cableDialog) tell() {
	if d.add == nil {
		return
	}
	segment, reason := d.segment()
	if reason != "" {
		d.told.SetText(reason)
		d.add.Disable()
		return
	}
	d.add.Enable()
	d.change.Cable = segment
	b, err := d.change.Try(d.desk.Plan(), d.link)
	if err != nil {
		d.told.SetText(words.Sentence(err))
		d.add.Disable()
		return
	}
	units := d.units()
	b = b.Printed(units.Unit())
	d.told.SetText(fmt.Sprintf("Then %s of cable for a run of %s (%s): %s.", units.Metres(b.Laid), units.Needed(b.Run), b.Measured.Words(), b.WhyIn(units.Needed)))
}

func (d *cableDialog) lay(another bool) {
	segment, reason := d.segment()
	if reason != "" {
		return
	}
	d.change.Cable = segment
	link, change := d.link, d.change
	row, _ := d.desk.Plan().Link(link)
	d.do(change.Name()+" of "+row.Name, func(e *plan.Edit) error { return change.Make(e, link) })
	if !another {
		d.close()
		return
	}
	d.offer()
	if again := text.LikeBefore(d.desk.Plan(), d.choices, segment); again >= 0 {
		d.choice.SetSelectedIndex(again)
	}
	d.window.window.Canvas().Focus(d.choice)
}

// linkButtons are what one does most to a link, on its card.
func (w *window) linkButtons() fyne.CanvasObject {
	lay := widget.NewButton("Lay…", w.askCable)
	off := widget.NewButton("Take off", w.dropLastCable)
	curves := widget.NewButton("Curves…", w.showStudy)
	return container.NewGridWithColumns(3, lay, off, curves)
}

// dropLastCable takes the last cable off the selected link.
func (w *window) dropLastCable() {
	links := w.selectedLinks()
	if len(links) != 1 || len(w.desk.Plan().SegmentsOf(links[0])) == 0 {
		w.notice.Say("Select one link that has a cable.")
		return
	}
	w.do("Take cable off "+w.linkNames(links), func(e *plan.Edit) error {
		segments := append([]plan.Segment(nil), e.Now().SegmentsOf(links[0])...)
		e.SetSegments(links[0], segments[:len(segments)-1])
		return nil
	})
}
