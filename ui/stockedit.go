package ui

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/assess"
	"stageloom/model/cabling"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/panel"
	"stageloom/ui/strip"
	"stageloom/ui/text"
)

// reelDialog edits one reel, or some of a quantity of equal ones, which then are a row of their own. What is typed changes a
// reel that stands alone until it is kept, so that one step is made of it.
type reelDialog struct {
	*window
	place   stockPlace
	reel    plan.Reel
	alone   *plan.Plan
	ids     *plan.IDSource
	form    *panel.FormView
	some    *dialogs.Field
	newCase *dialogs.Field
	told    *widget.Label
	dialog  *dialog.CustomDialog
}

// onReel does something to the reel under the hand in the stock list; where its line stands for several it asks which.
func (w *window) onReel(verb string, do func(plan.ReelID)) {
	row, found := w.stock.Selected()
	if !found {
		w.notice.Say("Choose a reel in the stock list first: Ctrl Shift E goes there, Down and Up choose.")
		return
	}
	if len(row.Reels) == 1 {
		do(row.Reels[0])
		return
	}
	p := w.desk.Plan()
	words := make([]string, len(row.Reels))
	for i, id := range row.Reels {
		reel, _ := p.Reels.Get(plan.Key(id))
		words[i] = text.ReelWords(p, reel, w.units())
	}
	which := dialogs.NewChooser(w, words, nil)
	which.SetSelectedIndex(0)
	d := dialog.NewCustomWithoutButtons("Which one?", widget.NewForm(widget.NewFormItem("Reel", which)), w.window)
	take := widget.NewButton(verb, func() {
		d.Hide()
		do(row.Reels[max(0, which.SelectedIndex())])
	})
	take.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{widget.NewButton("Cancel", d.Hide), take})
	d.Resize(fyne.NewSize(520, 160))
	w.Keys().Escapable(d.Hide)
	d.Show()
	w.window.Canvas().Focus(which)
}

// editReel opens the form of a reel.
func (w *window) editReel(place stockPlace, id plan.ReelID) {
	p := place.now()
	reel, found := p.Reels.Get(plan.Key(id))
	if !found {
		w.notice.Say("This reel is not in the stock any more.")
		return
	}
	d := &reelDialog{window: w, place: place, reel: reel, ids: plan.NewIDSource(1, 1), form: panel.NewFormView(), told: widget.NewLabel("")}
	alone, err := cabling.Alone(p, reel)
	if err != nil {
		w.notice.Warn(text.Sentence(err))
		return
	}
	d.alone = alone
	d.form.Do, d.form.Leave = d.change, w.Keys().GiveUp
	scroll := container.NewVScroll(d.form)
	d.form.Reveal, d.form.Resized = dialogs.RevealIn(scroll), scroll.Refresh
	d.show()
	extra := widget.NewForm()
	if reel.Count() > 1 {
		d.some = d.field(strconv.Itoa(reel.Count()), "")
		extra.AppendItem(widget.NewFormItem("For how many", d.some))
	}
	d.newCase = d.field("", "its name")
	extra.AppendItem(widget.NewFormItem("Into a new case", d.newCase))
	keep := widget.NewButton("Keep", d.keep)
	keep.Importance = widget.HighImportance
	d.dialog = dialog.NewCustomWithoutButtons(text.ReelWords(p, reel, w.units()), container.NewBorder(extra, dialogs.Steady(d.told, 2), nil, nil, scroll), w.window)
	d.dialog.SetButtons([]fyne.CanvasObject{widget.NewButton("Cancel", d.dialog.Hide), keep})
	size := w.window.Canvas().Size()
	d.dialog.Resize(fyne.NewSize(580, min(680, size.Height*0.92)))
	w.Keys().Escapable(d.dialog.Hide)
	d.dialog.Show()
	d.form.Focus("condition")
}

func (d *reelDialog) field(text, hint string) *dialogs.Field {
	f := dialogs.NewField(d)
	f.SetText(text)
	f.SetPlaceHolder(hint)
	f.OnSubmitted = func(string) { d.keep() }
	return f
}

// now is the reel as it is typed so far.
func (d *reelDialog) now() plan.Reel {
	reel, _ := d.alone.Reels.Get(d.reel.Key())
	return reel
}

// show brings the form up to what is typed so far.
func (d *reelDialog) show() {
	d.form.Set(text.FormOf(assess.Of(d.alone), []plan.Ref{plan.RefOf(d.reel)}, d.units()))
}

func (d *reelDialog) change(_ string, edit func(*plan.Edit) error) error {
	next, err := plan.Do(d.alone, d.ids, edit)
	if err != nil {
		return err
	}
	d.alone = next
	d.show()
	return nil
}

// keep makes one step of all that was changed, or says what cannot stand.
func (d *reelDialog) keep() {
	if !d.form.Keep() {
		return // the field says why
	}
	some, err := d.howMany()
	if err == nil {
		words := text.ReelWords(d.place.now(), d.reel, d.units())
		err = d.place.do("Edit "+words, func(e *plan.Edit) error {
			return cabling.KeepReel(e, d.alone, d.now(), some, strings.TrimSpace(d.newCase.Text))
		})
	}
	if err != nil {
		d.told.Importance = widget.DangerImportance
		d.told.SetText(text.Sentence(err))
		return
	}
	d.dialog.Hide()
	d.place.changed()
}

func (d *reelDialog) howMany() (int, error) {
	if d.some == nil {
		return d.reel.Count(), nil
	}
	some, err := strconv.Atoi(strings.TrimSpace(d.some.Text))
	if err != nil || some < 1 || some > d.reel.Count() {
		return 0, fmt.Errorf("for how many: write 1 to %d", d.reel.Count())
	}
	return some, nil
}

// faultDialog marks one cable faulty.
type faultDialog struct {
	*window
	reel                plan.Reel
	in                  []plan.Segment
	which               *dialogs.Chooser
	reason, where, when *dialogs.Field
	told                *widget.Label
	dialog              *dialog.CustomDialog
}

// markFaulty asks what is wrong with a reel; of several equal ones it asks which. A link that uses it is offered another.
func (w *window) markFaulty(id plan.ReelID) {
	p := w.desk.Plan()
	d := &faultDialog{window: w, told: widget.NewLabel("It leaves what can be laid at once; links that use it show it.")}
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
	d.which = dialogs.NewChooser(w, choices, nil)
	d.which.SetSelectedIndex(0)
	d.reason, d.where, d.when = dialogs.NewField(w), dialogs.NewField(w), dialogs.NewField(w)
	d.when.SetText(today())
	form := widget.NewForm()
	if len(choices) > 1 {
		form.AppendItem(widget.NewFormItem("Which", d.which))
	}
	for i, name := range []string{"What is wrong", "Found where", "Found on"} {
		entry := []*dialogs.Field{d.reason, d.where, d.when}[i]
		entry.OnSubmitted = func(string) { d.mark() }
		form.AppendItem(widget.NewFormItem(name, entry))
	}
	mark := widget.NewButton("Mark faulty", d.mark)
	mark.Importance = widget.HighImportance
	d.dialog = dialog.NewCustomWithoutButtons("Faulty: "+text.ReelWords(p, d.reel, w.units()), container.NewBorder(nil, dialogs.Steady(d.told, 2), nil, nil, form), w.window)
	d.dialog.SetButtons([]fyne.CanvasObject{widget.NewButton("Cancel", d.dialog.Hide), mark})
	d.dialog.Resize(fyne.NewSize(540, 290))
	w.Keys().Escapable(d.dialog.Hide)
	d.dialog.Show()
	w.window.Canvas().Focus(d.reason)
}

func (d *faultDialog) mark() {
	mark := plan.Mark{Condition: plan.Faulty, Reason: d.reason.Text, FoundAt: d.where.Text, FoundOn: d.when.Text}
	at := d.which.SelectedIndex()
	err := errors.New("choose which one is faulty")
	if wrong := plan.NoSuchDay(mark.FoundOn); wrong != "" {
		err = errors.New("there is no day " + wrong + ": write year-month-day, for instance 2027-06-19")
	} else if at >= 0 {
		err = d.desk.Do("Mark "+text.ReelWords(d.desk.Plan(), d.reel, d.units())+" faulty", func(e *plan.Edit) error {
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
		d.told.SetText(text.Sentence(err))
		return
	}
	d.dialog.Hide()
	if at < len(d.in) {
		d.offerReplacement(d.in[at])
	}
}

// offerReplacement asks whether another cable is to be laid in the place of a faulty one.
func (d *faultDialog) offerReplacement(segment plan.Segment) {
	link, _ := d.desk.Plan().Link(segment.Link)
	dialogs.Ask(d, "Replace it in "+link.Name+"?", "Cable "+strconv.Itoa(segment.Order)+" of "+link.Name+" is this one. Another can be laid in its place now.", []dialogs.Choice{
		{Label: "Choose another…", Important: true, Do: func() {
			d.desk.Select(plan.RefOf(link))
			d.askCableFor(strip.Change{Doing: strip.Replace, Order: segment.Order})
		}},
		{Label: "Leave it"},
	})
}
