package stock

import (
	"errors"
	"fmt"
	"strings"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/text"
)

// howBack says how something comes back, where that is another than the plan says.
type howBack = func(*plan.GivenBack)

// doGive gives rows of the plan back with what the show found out about them, or each as it is said.
func (d *houseDialog) doGive(returns []house.Return, as []howBack) error {
	p := d.Desk().Plan()
	var names, found []string
	count := 0
	for _, back := range returns {
		row, _ := p.Reels.Get(plan.Key(back.Reel))
		name := text.SomeWords(p, row, back.Quantity, d.Units())
		names = append(names, name)
		count += back.Quantity
		if all := d.stock.FoundOut(p, row); len(all) > 0 && as == nil {
			found = append(found, name+" "+text.DifferenceWords(all))
		}
	}
	back, err := d.edited("Give "+words.Listed(names)+" back to the house", func(e *plan.Edit) error { return giveEach(e, returns, as) })
	if err != nil {
		return err
	}
	step := houseStep{told: "The house has " + words.Listed(names) + " back" + sum(len(names), count) + ", once the plan is saved.", back: back}
	if len(found) > 0 {
		step.told = "The house has " + words.Listed(names) + " back, once the plan is saved, and learns: " + words.Listed(found) + ". F7 leaves what it knew."
		step.before = func() error {
			keeps := make([]howBack, len(returns))
			for i := range keeps {
				keeps[i] = d.stock.AsTheHouseKnows
			}
			return d.doGive(returns, keeps)
		}
	}
	d.done(step)
	return nil
}

// giveEach gives each back as it is said; nil is as the plan says.
func giveEach(e *plan.Edit, returns []house.Return, as []howBack) error {
	for i, back := range returns {
		if !e.Now().Reels.Has(plan.Key(back.Reel)) {
			continue // it went with what it is tied to
		}
		how := func(*plan.GivenBack) {}
		if as != nil {
			how = as[i]
		}
		if err := house.GiveBackAs(e, text.Today(), how, back); err != nil {
			return err
		}
	}
	return nil
}

// asBefore leaves the house as it knew what was given back last.
func (d *houseDialog) asBefore() {
	if len(d.steps) == 0 || d.steps[len(d.steps)-1].before == nil {
		d.tell("What came back last is as the house knew it.", true)
		return
	}
	last := d.steps[len(d.steps)-1]
	err := last.back()
	if err == nil {
		d.steps = d.steps[:len(d.steps)-1]
		err = last.before()
	}
	d.finish(err)
	if err == nil {
		d.tell(d.told.Text+" What the show found out is left out.", false)
	}
}

// chosenBack is what is selected of this show, or says what to select.
func (d *houseDialog) chosenBack() (returns []house.Return, err error) {
	selected := d.showList.Selected()
	for _, at := range selected {
		line := d.show[at]
		if line.Reel.ID == "" {
			err = fmt.Errorf("%s is %s", line.Words, line.Note)
			continue
		}
		count, err := d.howMany(d.back.Text, line.Count, len(selected) > 1)
		if err != nil {
			return nil, err
		}
		returns = append(returns, house.Return{Reel: line.Reel.ID, Quantity: count})
	}
	if len(returns) == 0 && err == nil {
		err = errors.New("select in the list of this show what goes back")
	}
	if len(returns) > 0 {
		err = nil
	}
	return returns, err
}

// giveSelected gives back what is selected of this show; where that is another than the house knows it is shown first.
func (d *houseDialog) giveSelected() {
	returns, err := d.chosenBack()
	if err != nil {
		d.tell(words.Sentence(err), true)
		return
	}
	for _, back := range returns {
		row, _ := d.Desk().Plan().Reels.Get(plan.Key(back.Reel))
		if len(d.stock.FoundOut(d.Desk().Plan(), row)) > 0 {
			d.askBack(returns, false)
			return
		}
	}
	d.finish(d.doGive(returns, nil))
}

// giveAs asks how what is typed in the field of the scanner comes back, else what is selected.
func (d *houseDialog) giveAs() {
	if strings.TrimSpace(d.scan.Text) != "" {
		d.askTyped()
		return
	}
	returns, err := d.chosenBack()
	if err != nil {
		d.tell(words.Sentence(err), true)
		return
	}
	d.askBack(returns, true)
}

// askTyped asks how what is typed in the field of the scanner comes back.
func (d *houseDialog) askTyped() {
	meant := d.stock.Meant(house.ToGiveBack, d.Desk().Plan(), house.Typed{Text: d.scan.Text, Day: text.Today(), Units: d.Units()})
	if len(meant.Not) > 0 || len(meant.Returns) == 0 {
		d.tell(notSaid(meant), true)
		d.toScan()
		d.scan.SelectAll()
		return
	}
	d.scan.SetText("")
	d.askBack(meant.Returns, true)
}

// giveAll gives back all that this show has, in one step.
func (d *houseDialog) giveAll() {
	meant := d.stock.Meant(house.ToGiveBack, d.Desk().Plan(), house.Typed{Text: "all", Day: text.Today(), Units: d.Units()})
	if len(meant.Returns) == 0 {
		d.tell(notSaid(meant), true)
		return
	}
	d.askBack(meant.Returns, false)
}

// rows are the selected rows of the plan.
func (d *houseDialog) rowsOfShow() (ids []plan.ReelID) {
	for _, at := range d.showList.Selected() {
		if id := d.show[at].Reel.ID; id != "" {
			ids = append(ids, id)
		}
	}
	return ids
}

// askAgain lets the plan ask the house anew for what is selected: what it received, or did not let the show have.
func (d *houseDialog) askAgain() {
	d.onRows("Ask the house again", "the house is asked again for %s when the plan is saved", house.AskAgain)
}

// takeOver takes over into the plan what the house says of what is selected.
func (d *houseDialog) takeOver() {
	d.onRows("As the house says", "%s is as the house says", d.stock.TakeOver)
}

func (d *houseDialog) onRows(name, told string, do func(*plan.Edit, ...plan.ReelID) error) {
	ids := d.rowsOfShow()
	if len(ids) == 0 {
		d.tell("Select in the list of this show which are meant.", true)
		return
	}
	back, err := d.edited(name, func(e *plan.Edit) error { return do(e, ids...) })
	if err == nil {
		d.done(houseStep{told: words.Sentence(fmt.Errorf(told, words.Counted(len(ids), "row", "rows"))), back: back})
	}
	d.finish(err)
}

// adopt makes the plan's own reels part of the house's stock, out with this show.
func (d *houseDialog) adopt() {
	ids := text.OwnReels(d.Desk().Plan())
	if len(ids) == 0 {
		d.tell("All reels of this plan are hired, somebody else's, or the house's already.", false)
		return
	}
	show := house.ShowOf(d.Desk().Plan(), d.Desk().Path(), text.Today())
	var taken map[plan.ReelID]house.Adopted
	step, err := d.Library().Stepped(func(l house.Library) (err error) {
		taken, err = l.Adopt(d.Desk().Plan(), show, ids...)
		return err
	})
	var back func() error
	if err == nil {
		back, err = d.edited("Make the reels the house's", func(e *plan.Edit) error { return house.Bind(e, taken) })
	}
	if err == nil {
		d.done(houseStep{told: words.Counted(len(taken), "row", "rows") + " of this plan are part of the house's stock now, out with this show.", back: func() error {
			if err := back(); err != nil {
				return err
			}
			return d.Library().TakeBack(step)
		}})
	}
	d.finish(err)
}
