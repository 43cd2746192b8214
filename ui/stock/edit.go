package stock

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/assess"
	"stageloom/model/cabling"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

// reelDialog edits one reel, or some of a quantity of equal ones, which then are a row of their own. What is typed changes a
// reel that stands alone until it is kept, so that one step is made of it.
type reelDialog struct {
	*Dialogs
	place   Place
	reel    plan.Reel
	alone   *plan.Plan
	ids     *plan.IDSource
	form    *panel.FormView
	some    *dialogs.Entry
	newCase *dialogs.Entry
	work    *dialogs.Entry
	told    *widget.Label
	dialog  *dialogs.Dialog
}

// OnReel does something to the reel under the hand in the stock list; where its line stands for several it asks which.
func (s *Dialogs) OnReel(verb string, do func(plan.ReelID)) {
	row, found := s.Chosen()
	if !found {
		s.Say("Choose a reel in the stock list first: Ctrl Shift E goes there, Down and Up choose.")
		return
	}
	if len(row.Reels) == 1 {
		do(row.Reels[0])
		return
	}
	p := s.Desk().Plan()
	words := make([]string, len(row.Reels))
	for i, id := range row.Reels {
		reel, _ := p.Reels.Get(plan.Key(id))
		words[i] = text.ReelWords(p, reel, s.Units())
	}
	which := dialogs.NewChooser(s, words, nil)
	which.SetSelectedIndex(0)
	d := dialogs.New(s, "Which one?", widget.NewForm(widget.NewFormItem("Reel", which)))
	take := dialogs.NewAnswer(s, verb, func() {
		d.Hide()
		do(row.Reels[max(0, which.SelectedIndex())])
	})
	take.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(s, "Cancel", d.Hide), take})
	d.Fit(dialogs.FormWidth, 0)
	s.Keys().Escapable(d.Hide)
	d.Show()
	dialogs.Focus(s, which)
}

// EditReel opens the form of a reel.
func (s *Dialogs) EditReel(place Place, id plan.ReelID) {
	p := place.now()
	reel, found := p.Reels.Get(plan.Key(id))
	if !found {
		s.Say("This reel is not in the stock any more.")
		return
	}
	d := &reelDialog{Dialogs: s, place: place, reel: reel, ids: plan.NewIDSource(1, 1), form: panel.NewFormView(), told: widget.NewLabel("")}
	alone, err := cabling.Alone(p, reel)
	if err != nil {
		s.Warn(words.Sentence(err))
		return
	}
	d.alone = alone
	d.form.Do, d.form.Leave = d.change, s.Keys().GiveUp
	scroll := container.NewVScroll(d.form)
	d.form.Reveal, d.form.Resized = dialogs.RevealIn(scroll), scroll.Refresh
	d.show()
	extra := d.extra()
	keep := dialogs.NewAnswer(s, "Keep", d.keep)
	keep.Importance = widget.HighImportance
	d.dialog = dialogs.New(s, text.ReelWords(p, reel, s.Units()), container.NewBorder(extra, dialogs.RoomFor(d.told, 2), nil, nil, scroll))
	d.dialog.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(s, "Cancel", d.dialog.Hide), keep})
	d.dialog.Fit(dialogs.FormWidth, 680)
	s.Keys().Escapable(d.dialog.Hide)
	d.dialog.Show()
	d.form.Focus("condition")
}

// extra has what a reel's form lacks: for how many it is, a new case, and work that was done.
func (d *reelDialog) extra() *widget.Form {
	extra := widget.NewForm()
	if d.reel.Count() > 1 {
		d.some = d.field(strconv.Itoa(d.reel.Count()), "")
		extra.AppendItem(widget.NewFormItem("Change how many of them", d.some))
	}
	d.newCase = d.field("", "its name")
	extra.AppendItem(widget.NewFormItem("Into a new case", d.newCase))
	d.work = d.field("", "repaired, measured, new plug …")
	extra.AppendItem(widget.NewFormItem("Work done today", d.work))
	return extra
}

func (d *reelDialog) field(text, hint string) *dialogs.Entry {
	f := dialogs.NewEntry(d)
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
	d.form.Set(text.FormOf(assess.Of(d.alone), []plan.Ref{plan.RefOf(d.reel)}, d.Units()))
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
		words := text.ReelWords(d.place.now(), d.reel, d.Units())
		err = d.place.do("Edit "+words, func(e *plan.Edit) error {
			if err := cabling.KeepReel(e, d.alone, d.now(), some, strings.TrimSpace(d.newCase.Text)); err != nil {
				return err
			}
			if work := strings.TrimSpace(d.work.Text); work != "" {
				e.AddService(plan.Service{Reel: d.reel.ID, Day: text.Today(), Work: work})
			}
			return nil
		})
	}
	if err != nil {
		d.told.Importance = widget.DangerImportance
		d.told.SetText(words.Sentence(err))
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
		return 0, fmt.Errorf("change how many of them: write 1 to %d", d.reel.Count())
	}
	return some, nil
}
