package stock

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// smallDialog asks for a few things over the dialog of the house; what cannot be stays with its reason.
func (d *houseDialog) smallDialog(title, say, label string, form *widget.Form, do func() error) {
	told := widget.NewLabel(say)
	ask := dialogs.New(d, title, container.NewBorder(nil, dialogs.RoomFor(told, 2), nil, nil, form))
	act := func() {
		if err := do(); err != nil {
			told.Importance = widget.DangerImportance
			told.SetText(words.Sentence(err))
			return
		}
		ask.Hide()
		d.toScan()
	}
	button := d.button(label, act)
	button.Importance = widget.HighImportance
	ask.SetButtons([]fyne.CanvasObject{d.button("Cancel", ask.Hide), button})
	ask.Fit(dialogs.FormWidth, 0)
	d.Keys().Escapable(ask.Hide)
	d.Keys().Submits(act)
	for _, item := range form.Items {
		switch field := item.Widget.(type) {
		case *dialogs.Entry:
			field.OnSubmitted = func(string) { act() }
		case *dialogs.Chooser:
			field.Enter = act
		}
	}
	ask.Show()
	if first, is := form.Items[0].Widget.(fyne.Focusable); is {
		dialogs.Focus(d, first)
	}
}

// selectedLines are the selected lines of the house.
func (d *houseDialog) selectedLines() (lines []text.HouseLine) {
	for _, at := range d.houseList.Selected() {
		lines = append(lines, d.house[at])
	}
	return lines
}

// changeHouse does something to the house's stock that can be taken back.
func (d *houseDialog) changeHouse(told string, do func(house.Library) error) error {
	step, err := d.Library().Stepped(do)
	switch {
	case err != nil:
	case !step.Changes():
		d.reload()
		d.tell("That changes nothing of the house's stock.", false)
	default:
		d.done(houseStep{told: told, back: func() error { return d.Library().TakeBack(step) }})
	}
	return err
}

// inSteps is the house's stock whose edits by other dialogs are each a step of this one.
func (d *houseDialog) inSteps() Place {
	place := d.OfHouse(func() {})
	place.do = func(name string, edit func(*plan.Edit) error) error {
		return d.changeHouse(name+".", func(l house.Library) error { return changeNoted(l, edit) })
	}
	return place
}

// states are what cables of the house can be set to.
var states = []struct{ words, state string }{
	{"missing", plan.Missing}, {"in repair", plan.InRepair}, {"written off", plan.WrittenOff}, {"there again", ""},
}

// setState says of what is selected that it is missing, in repair, written off or there again, since when and why.
func (d *houseDialog) setState() {
	if !d.selectTyped() {
		return
	}
	lines := d.selectedLines()
	if len(lines) == 0 {
		d.tell("Select in the list of the house what is missing, in repair, written off or there again.", true)
		return
	}
	var names []string
	for _, state := range states {
		names = append(names, state.words)
	}
	which, day, why, by := dialogs.NewChooser(d, names, nil), dialogs.NewEntry(d), dialogs.NewEntry(d), dialogs.NewEntry(d)
	which.SetSelectedIndex(0)
	if lines[0].Lost() {
		which.SetSelectedIndex(len(states) - 1)
	}
	day.SetText(text.Today())
	form := widget.NewForm(widget.NewFormItem("It is", which), widget.NewFormItem("Since", day), widget.NewFormItem("What happened", why), widget.NewFormItem("Said by", by))
	title, err := d.countedTitle(lines)
	if err != nil {
		d.tell(words.Sentence(err), true)
		return
	}
	say := "What is with a show can be missing: its plan is told of that when it is opened or saved."
	d.smallDialog(title, say, "Keep", form, func() error {
		if wrong := plan.NoSuchDay(day.Text); wrong != "" || len(day.Text) != len("2027-06-19") {
			return errors.New("since: write year-month-day, for instance 2027-06-19")
		}
		state := states[max(0, which.SelectedIndex())]
		return d.changeHouse(title+": "+state.words+".", func(l house.Library) error {
			return d.setStates(l, lines, state.state, day.Text, why.Text, by.Text)
		})
	})
}

func (d *houseDialog) setStates(l house.Library, lines []text.HouseLine, state, day, why, by string) error {
	var changes []house.StateChange
	var lost []house.Received
	for _, line := range lines {
		count, err := d.howMany(d.many.Text, line.Quantity, len(lines) > 1)
		switch {
		case err != nil:
			return err
		case line.Out() && state == plan.Missing:
			lost = append(lost, house.Received{Taking: line.Taking.ID, Plan: line.Taking.Plan, Quantity: count})
		case line.Out() || line.Place == house.Promised:
			return fmt.Errorf("%s is %s", line.Words, line.Note)
		default:
			changes = append(changes, house.StateChange{Reel: line.Reel.ID, Quantity: count, State: state, Why: strings.TrimSpace(why), By: strings.TrimSpace(by)})
		}
	}
	if len(lost) > 0 {
		if _, err := l.Lost(day, strings.TrimSpace(why), lost...); err != nil {
			return err
		}
	}
	if len(changes) == 0 {
		return nil
	}
	return l.SetState(day, changes...)
}

func (d *houseDialog) titleOf(lines []text.HouseLine) string {
	var names []string
	for _, line := range lines {
		names = append(names, text.SomeWords(d.stock.Plan, line.Reel, line.Quantity, d.Units()))
	}
	return words.Listed(names)
}

// countedTitle names what is selected with how many of each are meant, which are those that a change is of.
func (d *houseDialog) countedTitle(lines []text.HouseLine) (string, error) {
	var names []string
	for _, line := range lines {
		count, err := d.howMany(d.many.Text, line.Quantity, len(lines) > 1)
		if err != nil {
			return "", err
		}
		names = append(names, text.SomeWords(d.stock.Plan, line.Reel, count, d.Units()))
	}
	return words.Listed(names), nil
}

// tie ties what is selected into one piece, or takes a piece apart.
func (d *houseDialog) tie() {
	if !d.selectTyped() {
		return
	}
	lines := d.selectedLines()
	name := ""
	for _, line := range lines {
		if line.Place != house.InHouse {
			d.tell(words.Sentence(fmt.Errorf("%s is %s", line.Words, line.Note)), true)
			return
		}
		name = line.Reel.TiedInto
	}
	if len(lines) == 0 || len(lines) == 1 && name == "" {
		d.tell("Select in the list of the house several that are tied into one piece, or one of a piece that is taken apart.", true)
		return
	}
	entry := dialogs.NewEntry(d)
	entry.SetText(name)
	entry.SetPlaceHolder("blank takes the piece apart")
	form := widget.NewForm(widget.NewFormItem("One piece named", entry))
	d.smallDialog("Tie "+d.titleOf(lines), "What is tied into one piece is taken, given back, received and labelled whole. Of equal ones one is tied in.", "Keep", form, func() error {
		into := strings.TrimSpace(entry.Text)
		told := d.titleOf(lines) + " are tied into " + into + "."
		if into == "" {
			told = name + " is taken apart."
		}
		return d.changeHouse(told, func(l house.Library) error {
			return l.ChangeStock(func(e *plan.Edit) error { return tieRows(e, lines, into) })
		})
	})
}

// tieRows ties one of each line into a piece; a blank name takes apart the pieces that they are of.
func tieRows(e *plan.Edit, lines []text.HouseLine, into string) error {
	for _, line := range lines {
		ids := []plan.ReelID{line.Reel.ID}
		if into == "" {
			ids = house.Tied(e.Now(), line.Reel.ID)
		} else if line.Reel.Count() > 1 && line.Reel.TiedInto == "" {
			part, err := e.SplitReel(line.Reel.ID, 1)
			if err != nil {
				return err
			}
			ids[0] = part
		}
		for _, id := range ids {
			if err := plan.Update(e, plan.Key(id), func(r *plan.Reel) { r.TiedInto = into }); err != nil {
				return err
			}
		}
	}
	return nil
}
