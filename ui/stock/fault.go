package stock

import (
	"errors"
	"fmt"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// faultDialog marks one cable faulty.
type faultDialog struct {
	*Dialogs
	reel                plan.Reel
	in                  []plan.Segment
	which               *dialogs.Chooser
	reason, where, when *dialogs.Entry
	told                *widget.Label
	dialog              *dialogs.Dialog
}

// MarkFaulty asks what is wrong with a reel; of several equal ones it asks which. A link that uses it is offered another.
func (s *Dialogs) MarkFaulty(id plan.ReelID) {
	p := s.Desk().Plan()
	d := &faultDialog{Dialogs: s, told: widget.NewLabel("It leaves what can be laid at once; links that use it show it.")}
	d.reel, _ = p.Reels.Get(plan.Key(id))
	var choices []string
	for segment := range p.Segments.All() {
		if segment.Reel == id {
			link, _ := p.Link(segment.Link)
			d.in = append(d.in, segment)
			choices = append(choices, fmt.Sprintf("the one in %s, cable %d", link.Name, segment.Order))
		}
	}
	if len(d.in) < d.reel.Count() {
		choices = append(choices, "one that no link uses")
	}
	d.which = dialogs.NewChooser(s, choices, nil)
	d.which.SetSelectedIndex(0)
	d.reason, d.where, d.when = dialogs.NewEntry(s), dialogs.NewEntry(s), dialogs.NewEntry(s)
	d.when.SetText(text.Today())
	form := widget.NewForm()
	if len(choices) > 1 {
		form.AppendItem(widget.NewFormItem("Which", d.which))
	}
	for i, name := range []string{"What is wrong", "Found where", "Found on"} {
		entry := []*dialogs.Entry{d.reason, d.where, d.when}[i]
		entry.OnSubmitted = func(string) { d.mark() }
		form.AppendItem(widget.NewFormItem(name, entry))
	}
	mark := dialogs.NewAnswer(s, "Mark faulty", d.mark)
	mark.Importance = widget.HighImportance
	d.dialog = dialogs.New(s, "Faulty: "+text.ReelWords(p, d.reel, s.Units()), container.NewBorder(nil, dialogs.RoomFor(d.told, 2), nil, nil, form))
	d.dialog.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(s, "Cancel", d.dialog.Hide), mark})
	d.dialog.Fit(dialogs.FormWidth, 0)
	s.Keys().Escapable(d.dialog.Hide)
	d.dialog.Show()
	dialogs.Focus(s, d.reason)
}

func (d *faultDialog) mark() {
	mark := plan.Mark{Condition: plan.Faulty, Reason: d.reason.Text, FoundAt: d.where.Text, FoundOn: d.when.Text}
	at := d.which.SelectedIndex()
	err := errors.New("choose which one is faulty")
	if wrong := plan.NoSuchDay(mark.FoundOn); wrong != "" {
		err = errors.New("there is no day " + wrong + ": write year-month-day, for instance 2027-06-19")
	} else if at >= 0 {
		err = d.Desk().Do("Mark "+text.ReelWords(d.Desk().Plan(), d.reel, d.Units())+" faulty", func(e *plan.Edit) error {
			if at < len(d.in) {
				_, err := e.MarkSegment(d.in[at].Link, d.in[at].Order, mark)
				return err
			}
			_, err := e.MarkReel(d.reel.ID, mark)
			return err
		})
	}
	if err != nil {
		d.told.Importance = widget.DangerImportance
		d.told.SetText(words.Sentence(err))
		return
	}
	d.dialog.Hide()
	if at < len(d.in) {
		d.offerReplacement(d.in[at])
	}
}

// offerReplacement asks whether another cable is to be laid in the place of a faulty one.
func (d *faultDialog) offerReplacement(segment plan.Segment) {
	link, _ := d.Desk().Plan().Link(segment.Link)
	dialogs.Ask(d, "Replace it in "+link.Name+"?", "Cable "+strconv.Itoa(segment.Order)+" of "+link.Name+" is this one. Another can be laid in its place now.", []dialogs.Choice{
		{Label: "Choose another…", Important: true, Do: func() {
			d.Desk().Select(plan.RefOf(link))
			d.Replace(segment.Order)
		}},
		{Label: "Leave it"},
	})
}
