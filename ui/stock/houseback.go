package stock

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/fields"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// backDialog asks how cables come back: which of what a show found out the house takes over, and what else there is to say.
type backDialog struct {
	*houseDialog
	returns                      []house.Return
	learned                      map[plan.ReelID]*dialogs.Check
	length, reason, box, missing *dialogs.Entry
	condition                    *dialogs.Chooser
	said                         *widget.Label
	asked                        *dialogs.Dialog
}

// askBack asks how rows come back; say has fields for what all of them are like.
func (d *houseDialog) askBack(returns []house.Return, say bool) {
	b := &backDialog{houseDialog: d, returns: returns, learned: map[plan.ReelID]*dialogs.Check{}, said: widget.NewLabel("Enter gives back. A difference that is not ticked is not taken over: the house keeps what it knew.")}
	p, list, count := d.Desk().Plan(), container.NewVBox(), 0
	for _, back := range returns {
		row, _ := p.Reels.Get(plan.Key(back.Reel))
		count += back.Quantity
		found := d.stock.FoundOut(p, row)
		if len(found) == 0 {
			continue
		}
		check := dialogs.NewCheck(d, text.SomeWords(p, row, back.Quantity, d.Units())+": "+text.DifferenceWords(found), true, nil)
		b.learned[row.ID] = check
		list.Add(check)
	}
	if len(list.Objects) == 0 {
		list.Add(widget.NewLabel("All of it is as the house knows it."))
	}
	b.missing = b.entry("none, or tags: R12, R14-R16")
	form := widget.NewForm(widget.NewFormItem("Missing", b.missing))
	if say {
		b.sayAll(form)
	}
	b.asked = dialogs.New(d, "Give back "+words.Counted(count, "cable", "cables"), container.NewBorder(nil, container.NewVBox(form, dialogs.RoomFor(b.said, 2)), nil, nil, container.NewVScroll(list)))
	give := d.button("Give back", b.give)
	give.Importance = widget.HighImportance
	b.asked.SetButtons([]fyne.CanvasObject{d.button("Cancel", b.asked.Hide), give})
	b.asked.Fit(dialogs.FormWidth, 520)
	d.Keys().Escapable(b.asked.Hide)
	d.Keys().Submits(b.give)
	b.asked.Show()
	if say {
		dialogs.Focus(d, b.length)
		return
	}
	dialogs.Focus(d, give)
}

func (b *backDialog) entry(hint string) *dialogs.Entry {
	f := dialogs.NewEntry(b)
	f.SetPlaceHolder(hint)
	f.OnSubmitted = func(string) { b.give() }
	return f
}

// sayAll has fields for what all of it is like.
func (b *backDialog) sayAll(form *widget.Form) {
	b.length, b.reason, b.box = b.entry("as above"), b.entry("as above"), b.entry("as above")
	b.condition = dialogs.NewChooser(b, []string{"as above", plan.Good, plan.Suspect, plan.Faulty}, nil)
	b.condition.SetSelectedIndex(0)
	b.condition.Enter = b.give
	for _, item := range []*widget.FormItem{
		widget.NewFormItem(fields.Of(plan.ReelsTable, "length").Name, b.length),
		widget.NewFormItem(fields.Of(plan.ReelsTable, "condition").Name, b.condition),
		widget.NewFormItem(fields.Of(plan.ReelsTable, "reason").Name, b.reason),
		widget.NewFormItem(fields.Of(plan.ReelsTable, "case").Name, b.box),
	} {
		form.AppendItem(item)
	}
}

// give gives back as it is said.
func (b *backDialog) give() {
	missing, err := b.readMissing()
	var length float64
	if err == nil && b.length != nil && strings.TrimSpace(b.length.Text) != "" {
		length, err = quantity.ReadLength(b.length.Text, b.Units().Length)
	}
	if err == nil {
		var returns []house.Return
		var as []howBack
		add := func(id plan.ReelID, count int, lost bool) {
			if count > 0 {
				returns = append(returns, house.Return{Reel: id, Quantity: count})
				as = append(as, b.as(id, lost, length))
			}
		}
		for _, back := range b.returns {
			lost := min(missing[back.Reel], back.Quantity)
			add(back.Reel, lost, true)
			add(back.Reel, back.Quantity-lost, false)
		}
		err = b.doGive(returns, as)
	}
	if err != nil {
		b.said.Importance = widget.DangerImportance
		b.said.SetText(words.Sentence(err))
		return
	}
	b.asked.Hide()
	b.finish(nil)
}

// as says how a row comes back.
func (b *backDialog) as(id plan.ReelID, missing bool, length float64) howBack {
	learned := b.learned[id]
	return func(back *plan.GivenBack) {
		if learned != nil && !learned.Checked {
			b.stock.AsTheHouseKnows(back)
		}
		if length > 0 {
			back.Length = length
		}
		if b.condition != nil && b.condition.SelectedIndex() > 0 {
			back.Condition, back.Reason = b.condition.Selected, ""
			back.FoundAt, back.FoundOn = b.Desk().Plan().Settings.Name, text.Today() // good too: it was looked at here
		}
		if b.reason != nil && strings.TrimSpace(b.reason.Text) != "" {
			back.Reason = strings.TrimSpace(b.reason.Text)
		}
		if b.box != nil && strings.TrimSpace(b.box.Text) != "" {
			back.Case = strings.TrimSpace(b.box.Text)
		}
		if missing {
			back.State, back.StateOn = plan.Missing, text.Today()
		}
	}
}

// readMissing reads how many of which rows did not come.
func (b *backDialog) readMissing() (map[plan.ReelID]int, error) {
	missing := map[plan.ReelID]int{}
	if strings.TrimSpace(b.missing.Text) == "" {
		return missing, nil
	}
	meant := b.stock.Meant(house.ToGiveBack, b.Desk().Plan(), house.Typed{Text: b.missing.Text, Day: text.Today(), Units: b.Units()})
	if len(meant.Not) > 0 {
		return nil, fmt.Errorf("missing: %s", strings.TrimSuffix(notSaid(meant), "."))
	}
	going := map[plan.ReelID]int{}
	for _, back := range b.returns {
		going[back.Reel] = back.Quantity
	}
	for _, lost := range meant.Returns {
		if lost.Quantity > going[lost.Reel] {
			row, _ := b.Desk().Plan().Reels.Get(plan.Key(lost.Reel))
			return nil, fmt.Errorf("missing: %s is more than goes back", text.SomeWords(b.Desk().Plan(), row, lost.Quantity, b.Units()))
		}
		missing[lost.Reel] = lost.Quantity
	}
	return missing, nil
}
