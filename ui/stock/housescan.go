package stock

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// houseStep is something that was done and can be taken back.
type houseStep struct {
	told string
	back func() error
	// before does it anew and leaves the house as it knew what came back; nil where nothing was found out.
	before func() error
}

// scanned does at once what was scanned or typed. What cannot be says why, and the text stays selected.
func (d *houseDialog) scanned(typed string) {
	meant := d.stock.Meant(d.side, d.Desk().Plan(), house.Typed{Text: typed, Day: text.Today(), Units: d.Units()})
	err := d.meant(meant)
	d.toScan()
	switch {
	case err != nil:
		d.tell(words.Sentence(err), true)
		d.scan.SelectAll()
	case meant.Nothing():
		d.tell(notSaid(meant), true)
		d.scan.SelectAll()
	default:
		d.scan.SetText("")
		if len(meant.Not) > 0 {
			d.tell(d.told.Text+" But: "+notSaid(meant), true)
		}
	}
}

// notSaid is why something is not meant, and what can be typed instead.
func notSaid(meant house.Meant) string {
	const most = 4
	said := strings.Join(meant.Not[:min(most, len(meant.Not))], " ")
	if more := len(meant.Not) - most; more > 0 {
		said += fmt.Sprintf(" And %d more.", more)
	}
	if len(meant.Instead) > 0 {
		said += " Or: " + strings.Join(meant.Instead, "; ") + "."
	}
	return said
}

// selectTyped selects in the list of the house what is typed in the field of the scanner, wherever it is, so that a key which is
// for what is selected does it to that; it reports whether something is selected, or nothing was typed.
func (d *houseDialog) selectTyped() bool {
	typed := house.Typed{Text: d.scan.Text, Day: text.Today(), Units: d.Units()}
	if strings.TrimSpace(typed.Text) == "" {
		return true
	}
	there, out := d.stock.Meant(house.ToTake, d.Desk().Plan(), typed), d.stock.Meant(house.ToReceive, d.Desk().Plan(), typed)
	d.search.SetText("")
	d.place.SetSelectedIndex(0)
	var at []int
	for i, line := range d.house {
		wanted := slices.ContainsFunc(there.Wants, func(want house.Want) bool { return want.Reel == line.Reel.ID && line.Place == house.InHouse })
		came := slices.ContainsFunc(out.Came, func(came house.Received) bool {
			return line.Out() && came.Taking == line.Taking.ID && came.Plan == line.Taking.Plan
		})
		if wanted || came || line.Lost() && slices.Contains(out.Found, line.Reel.ID) {
			at = append(at, i)
		}
	}
	if len(at) == 0 {
		d.tell(notSaid(there), true)
		d.toScan()
		d.scan.SelectAll()
		return false
	}
	d.houseList.SelectLines(at...)
	d.many.SetText(allWords)
	if len(at) == 1 {
		d.many.SetText(strconv.Itoa(max(1, there.Count(), out.Count())))
	}
	d.scan.SetText("")
	return true
}

// meant does what a text means.
func (d *houseDialog) meant(meant house.Meant) error {
	switch {
	case meant.Nothing():
		return nil
	case len(meant.Wants) > 0:
		return d.doTake(meant.Wants)
	case len(meant.Returns) > 0:
		return d.doGive(meant.Returns, nil)
	}
	return d.doReceive(meant.Came, meant.Found)
}

// done notes a step and brings the lists up to it.
func (d *houseDialog) done(step houseStep) {
	d.steps = append(d.steps, step)
	d.reload()
	d.tell(step.told, false)
}

// edited edits the plan and returns how that is taken back.
func (d *houseDialog) edited(name string, edit func(*plan.Edit) error) (back func() error, err error) {
	if err := d.Desk().Do(name, edit); err != nil {
		return nil, err
	}
	_, at := d.Desk().History()
	return func() error {
		if _, now := d.Desk().History(); now != at {
			return errors.New("the plan was changed since: take it back there, by Ctrl Z")
		}
		d.Desk().Undo()
		return nil
	}, nil
}

// undo takes the last step of this dialog back.
func (d *houseDialog) undo() {
	if len(d.steps) == 0 {
		d.tell("Nothing was done here yet that could be taken back.", true)
		return
	}
	last := d.steps[len(d.steps)-1]
	d.steps = d.steps[:len(d.steps)-1]
	err := last.back()
	d.reload()
	if err != nil {
		d.tell("That is not taken back: "+words.Sentence(err), true)
		return
	}
	d.tell("Taken back: "+last.told, false)
	d.toScan()
}

// doTake takes rows of the house for this show.
func (d *houseDialog) doTake(wants []house.Want) error {
	var names []string
	count := 0
	for _, want := range wants {
		row, _ := d.stock.Plan.Reels.Get(plan.Key(want.Reel))
		names = append(names, text.SomeWords(d.stock.Plan, row, want.Quantity, d.Units()))
		count += want.Quantity
	}
	back, err := d.edited("Take "+words.Listed(names)+" from the house", func(e *plan.Edit) error { return d.stock.Take(e, wants...) })
	if err == nil {
		d.done(houseStep{told: d.Desk().Plan().Settings.Name + " has " + words.Listed(names) + sum(len(names), count) + ".", back: back})
	}
	return err
}

// sum counts the cables of several lines.
func sum(lines, count int) string {
	if lines < 2 {
		return ""
	}
	return ": " + words.Counted(count, "cable", "cables")
}

// all says that all of what is selected is meant, or one of it again.
func (d *houseDialog) all() {
	for _, field := range d.counts() {
		if field.Text == allWords {
			field.SetText("1")
		} else {
			field.SetText(allWords)
		}
	}
}

// counts are the fields that say how many.
func (d *houseDialog) counts() []*dialogs.Entry { return []*dialogs.Entry{d.many, d.back} }

const allWords = "all"

// howMany reads how many of a line are meant, or says what to write; of several lines each gives what it has.
func (d *houseDialog) howMany(typed string, there int, several bool) (int, error) {
	if typed = strings.ToLower(strings.TrimSpace(typed)); typed == allWords || typed == "*" {
		return there, nil
	}
	count, err := strconv.Atoi(typed)
	switch {
	case err != nil || count < 1:
		return 0, fmt.Errorf("write how many are meant, 1 to %d or all", there)
	case count > there && !several:
		return 0, fmt.Errorf("there are %d, not %d: write how many are meant, 1 to %d or all", there, count, there)
	}
	return min(count, there), nil
}

// takeSelected takes what is selected of the house for this show.
func (d *houseDialog) takeSelected() {
	var wants []house.Want
	err := errors.New("select in the list of the house what is to be taken")
	selected := d.houseList.Selected()
	for _, at := range selected {
		line := d.house[at]
		if line.Left == 0 {
			err = fmt.Errorf("%s is %s", line.Words, line.Note)
			continue
		}
		count, wrong := d.howMany(d.many.Text, line.Left, len(selected) > 1)
		if wrong != nil {
			d.tell(words.Sentence(wrong), true)
			return
		}
		wants = append(wants, house.Want{Reel: line.Reel.ID, Quantity: count})
	}
	if len(wants) > 0 {
		err = d.doTake(wants)
	}
	d.finish(err)
}

// receiveSelected receives what is selected of the house and is out or was set aside.
func (d *houseDialog) receiveSelected() {
	var came []house.Received
	var found []plan.ReelID
	err := errors.New("select in the list of the house what came: what is with a show, missing or in repair")
	selected := d.houseList.Selected()
	for _, at := range selected {
		line := d.house[at]
		switch {
		case line.Lost():
			found = append(found, line.Reel.ID)
		case line.Out():
			count, wrong := d.howMany(d.many.Text, line.Quantity, len(selected) > 1)
			if wrong != nil {
				d.tell(words.Sentence(wrong), true)
				return
			}
			came = append(came, house.Received{Taking: line.Taking.ID, Plan: line.Taking.Plan, Quantity: count})
		default:
			err = fmt.Errorf("%s is %s: there is nothing to receive", line.Words, line.Note)
		}
	}
	if len(came)+len(found) > 0 {
		err = d.doReceive(came, found)
	}
	d.finish(err)
}

// finish tells an error, and has the field of the scanner ready.
func (d *houseDialog) finish(err error) {
	if err != nil {
		d.tell(words.Sentence(err), true)
		return
	}
	for _, field := range d.counts() {
		field.SetText("1")
	}
	d.toScan()
}
