package laying

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
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
	*Dialogs
	link plan.LinkID
	// change is an Insert or a Replace whose cable is chosen here; atEnd tells that each goes behind the last one.
	change  strip.Change
	atEnd   bool
	choices []text.CableChoice
	dialog  *dialogs.Dialog
	choice  *dialogs.Chooser
	length  *dialogs.Entry
	told    *widget.Label
	add     *dialogs.Answer
}

// LayCable asks for a cable at the far end of the selected link.
func (l *Dialogs) LayCable() {
	if link, one := l.only(); one {
		l.openCableDialog(&cableDialog{Dialogs: l, link: link, atEnd: true, change: strip.Change{Doing: strip.Insert}})
		return
	}
	l.Say("Select one link to lay cable for it.")
}

// LayBy asks for the cable of a change that lays one in the chain of the selected link.
func (l *Dialogs) LayBy(c strip.Change) {
	if link, one := l.only(); one {
		l.openCableDialog(&cableDialog{Dialogs: l, link: link, change: c})
	}
}

// ReplaceCable asks for another cable in the place of that chosen in the strip, or else of the link's first.
func (l *Dialogs) ReplaceCable() {
	link, one := l.only()
	if !one || len(l.Desk().Plan().SegmentsOf(link)) == 0 {
		l.Say("Select one link that has a cable.")
		return
	}
	l.LayBy(strip.Change{Doing: strip.Replace, Order: max(1, l.Strip.Chosen())})
}

func (l *Dialogs) openCableDialog(d *cableDialog) {
	link, _ := l.Desk().Plan().Link(d.link)
	d.length, d.told = dialogs.NewEntry(l), widget.NewLabel("")
	d.choice = dialogs.NewChooser(l, nil, func(string) { d.chosen() })
	d.choice.Enter = func() { d.lay(false) }
	d.length.OnChanged = func(string) { d.tell() }
	d.length.OnSubmitted = func(string) { d.lay(false) }
	form := widget.NewForm(widget.NewFormItem("Cable", d.choice), widget.NewFormItem("Length", d.length))
	title, verb := "Cable for "+link.Name, "Add"
	if d.change.Doing == strip.Replace {
		title, verb = fmt.Sprintf("Instead of cable %d of %s", d.change.Order, link.Name), "Replace"
	}
	d.add = dialogs.NewAnswer(l, verb, func() { d.lay(false) })
	d.add.Importance = widget.HighImportance
	d.dialog = dialogs.New(l, title, container.NewVBox(form, dialogs.RoomFor(d.told, 3)))
	buttons := []fyne.CanvasObject{dialogs.NewAnswer(l, "Close", d.close)}
	if d.atEnd {
		buttons = append(buttons, dialogs.NewAnswer(l, "Add and another", func() { d.lay(true) }))
	}
	d.dialog.SetButtons(append(buttons, d.add))
	d.dialog.Fit(dialogs.FormWidth, 0)
	d.offer()
	l.Keys().Escapable(d.close)
	d.dialog.Show()
	dialogs.Focus(l, d.choice)
}

// close ends the dialog; who worked in the strip goes on there.
func (d *cableDialog) close() {
	d.dialog.Hide()
	d.Try(strip.Change{})
	if !d.atEnd {
		d.EnterStrip()
	}
}

// offer lists what can be laid now; the link's wanted kind comes first, with what is left to reach.
func (d *cableDialog) offer() {
	if d.atEnd {
		d.change.Place = len(d.Desk().Plan().SegmentsOf(d.link))
	}
	d.choices = text.CablesFor(d.Desk().Plan(), d.link, d.Units())
	if d.change.Doing == strip.Replace {
		d.choices = text.CablesInstead(d.Desk().Plan(), d.link, d.change.Order, d.Units())
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
	d.length.SetText(d.Units().Piece(choice.Length))
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
	metres, err := quantity.ReadLength(d.length.Text, d.Units().Length)
	if err != nil {
		return segment, words.Sentence(err)
	}
	segment.Length = metres
	return segment, ""
}

func (d *cableDialog) transport() string {
	b, _ := d.Desk().Assessment().Budget(d.link)
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
	b, err := d.change.Try(d.Desk().Plan(), d.link)
	if err != nil {
		d.told.SetText(words.Sentence(err))
		d.add.Disable()
		return
	}
	units := d.Units()
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
	row, _ := d.Desk().Plan().Link(link)
	d.Do(change.Name()+" of "+row.Name, func(e *plan.Edit) error { return change.Make(e, link) })
	if !another {
		d.close()
		return
	}
	d.offer()
	if again := text.LikeBefore(d.Desk().Plan(), d.choices, segment); again >= 0 {
		d.choice.SetSelectedIndex(again)
	}
	dialogs.Focus(d, d.choice)
}

// TakeLastOff takes the last cable off the selected link.
func (l *Dialogs) TakeLastOff() {
	link, one := l.only()
	laid := len(l.Desk().Plan().SegmentsOf(link))
	if !one || laid == 0 {
		l.Say("Select one link that has a cable.")
		return
	}
	l.Do("Take cable off "+l.names(link), func(e *plan.Edit) error { return e.RemoveSegment(link, laid) })
}
