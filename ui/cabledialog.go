package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/ui/panel"
)

// cableDialog adds cables to a link: a reel of the stock that is free, or a kind and a length.
type cableDialog struct {
	*window
	link    plan.LinkID
	choices []panel.CableChoice
	dialog  *dialog.CustomDialog
	choice  *chooser
	length  *field
	told    *widget.Label
	add     *widget.Button
}

// askCable opens the dialog for the selected link.
func (w *window) askCable() {
	links := w.selectedLinks()
	if len(links) != 1 {
		w.notice.Say("Select one link to lay cable for it.")
		return
	}
	link, _ := w.desk.Plan().Link(links[0])
	d := &cableDialog{window: w, link: link.ID, length: w.newField(), told: widget.NewLabel("")}
	d.told.Wrapping = fyne.TextWrapWord
	d.choice = w.newChooser(nil, func(string) { d.chosen() })
	d.length.OnChanged = func(string) { d.tell() }
	d.length.OnSubmitted = func(string) { d.lay(false) }
	form := widget.NewForm(widget.NewFormItem("Cable", d.choice), widget.NewFormItem("Length", d.length))
	d.add = widget.NewButton("Add", func() { d.lay(false) })
	d.add.Importance = widget.HighImportance
	another := widget.NewButton("Add and another", func() { d.lay(true) })
	d.dialog = dialog.NewCustomWithoutButtons("Cable for "+link.Name, container.NewVBox(form, d.told), w.window)
	d.dialog.SetButtons([]fyne.CanvasObject{widget.NewButton("Close", d.dialog.Hide), another, d.add})
	d.dialog.Resize(fyne.NewSize(600, 260))
	d.offer()
	w.escapable(d.dialog.Hide)
	d.dialog.Show()
	w.window.Canvas().Focus(d.choice)
}

// offer lists what can be laid now; the link's wanted kind comes first, with what is left to reach.
func (d *cableDialog) offer() {
	d.choices = panel.CablesFor(d.desk.Plan(), d.link, d.units())
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
		return segment, sentence(err)
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
	b, err := panel.WithCable(d.desk.Plan(), d.link, segment)
	if err != nil {
		d.told.SetText(sentence(err))
		d.add.Disable()
		return
	}
	d.told.SetText(fmt.Sprintf("Then %s of cable for a run of %s: %s.", d.units().Metres(b.Laid), d.units().Metres(b.Run), b.Why()))
}

func (d *cableDialog) lay(another bool) {
	segment, reason := d.segment()
	if reason != "" {
		return
	}
	link, _ := d.desk.Plan().Link(d.link)
	d.do("Lay cable for "+link.Name, func(e *plan.Edit) error { return panel.AppendCable(e, d.link, segment) })
	if !another {
		d.dialog.Hide()
		return
	}
	d.offer()
}

// linkButtons are what one does most to a link, on its card.
func (w *window) linkButtons() fyne.CanvasObject {
	lay := widget.NewButton("Lay…", w.askCable)
	off := widget.NewButton("Take off", w.dropLastCable)
	figures := widget.NewButton("Figures…", w.editLink)
	return container.NewGridWithColumns(3, lay, off, figures)
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
