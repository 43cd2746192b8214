package stock

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/fields"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// caseDialog names the cases of the house and says how much they take.
type caseDialog struct {
	*houseDialog
	lines  []text.CaseLine
	list   *dialogs.ManyList
	fields []*dialogs.Entry
	said   *widget.Label
}

// caseFields are the fields of a case that the dialog has, in order.
var caseFields = []string{"name", "pieces", "most", "weight"}

// cases shows the cases of the house with what is in them.
func (d *houseDialog) cases() {
	c := &caseDialog{houseDialog: d, list: dialogs.NewManyList(d, "cases"), said: widget.NewLabel("")}
	form := widget.NewForm()
	for _, id := range caseFields {
		entry := dialogs.NewEntry(d)
		entry.OnSubmitted = func(string) { c.keep() }
		c.fields = append(c.fields, entry)
		form.AppendItem(widget.NewFormItem(fields.Of(plan.CasesTable, id).Name, entry))
	}
	c.list.Changed = c.pick
	c.list.Enter = func() { dialogs.Focus(d, c.fields[0]) }
	c.fill()
	keep := d.button("Keep", c.keep)
	keep.Importance = widget.HighImportance
	show := dialogs.New(d, "Cases of the house", container.NewBorder(nil, container.NewVBox(form, dialogs.RoomFor(c.said, 2)), nil, nil, c.list.Content()))
	show.SetButtons([]fyne.CanvasObject{d.button("Close", show.Hide), d.button("Remove…", c.remove), d.button("New case", c.another), keep})
	show.Fit(dialogs.FormWidth, 560)
	d.Keys().Escapable(show.Hide)
	show.Show()
	dialogs.Focus(d, c.list)
}

func (c *caseDialog) fill() {
	c.lines = text.CaseLines(c.stock.Plan)
	lines := make([]dialogs.Line, len(c.lines))
	for i, line := range c.lines {
		lines[i] = dialogs.Line{ID: string(line.Case.ID), Words: line.Words, Note: line.Note, Marked: line.Over}
	}
	c.list.Fill(lines, "The house has no cases yet.")
}

// picked is the case that is selected; none is a new one.
func (c *caseDialog) picked() (plan.Case, bool) {
	if at := c.list.Selected(); len(at) == 1 {
		return c.lines[at[0]].Case, true
	}
	return plan.Case{}, false
}

func (c *caseDialog) pick() {
	box, _ := c.picked()
	for i, id := range caseFields {
		c.fields[i].SetText("")
		if box.ID != "" {
			c.fields[i].SetText(fields.Of(plan.CasesTable, id).Text(fields.On(c.stock.Plan, nil, c.Units()), box))
		}
	}
}

// keep keeps the case as it is typed, or makes a new one.
func (c *caseDialog) keep() {
	box, known := c.picked()
	name := strings.TrimSpace(c.fields[0].Text)
	err := errors.New("write what is written on the case")
	if name != "" {
		err = c.changeHouse(name+" is kept.", func(l house.Library) error {
			return l.ChangeStock(func(e *plan.Edit) error {
				for other := range e.Now().Cases.All() {
					if strings.EqualFold(other.Name, name) && other.ID != box.ID {
						return fmt.Errorf("%w: another case is called %s", plan.ErrRefused, plan.Clipped(other.Name))
					}
				}
				if !known {
					box.ID = e.AddCase(plan.Case{Name: name})
				}
				for i, id := range caseFields {
					field := fields.Of(plan.CasesTable, id)
					if err := field.Type(e, c.Units(), plan.Key(box.ID), c.fields[i].Text); err != nil {
						return fmt.Errorf("%s: %w", strings.ToLower(field.Name), err)
					}
				}
				return nil
			})
		})
	}
	c.came(err, name+" is kept.")
}

// came says what came of a change, and lists the cases as they are now.
func (c *caseDialog) came(err error, told string) {
	c.said.Importance = widget.MediumImportance
	if err != nil {
		c.said.Importance = widget.DangerImportance
		c.said.SetText(words.Sentence(err))
		return
	}
	c.fill()
	c.said.SetText(told)
}

// remove removes the selected case: an empty one at once, one that pieces live in after a question.
func (c *caseDialog) remove() {
	box, known := c.picked()
	if !known {
		c.came(errors.New("select the case that is removed"), "")
		return
	}
	pieces := livingIn(c.stock.Plan, box.ID)
	if pieces == 0 {
		c.removed(box, 0)
		return
	}
	name := plan.Clipped(box.Name)
	dialogs.Ask(c, "Remove "+name+"?", text.CaseLeft(name, pieces), []dialogs.Choice{
		{Label: "Remove it", Do: func() { c.removed(box, pieces) }}, {Label: "Cancel", Important: true},
	})
}

// removed removes a case of which as many pieces as were agreed have no case then.
func (c *caseDialog) removed(box plan.Case, agreed int) {
	name := plan.Clipped(box.Name)
	told := name + " is removed."
	if agreed > 0 {
		told = name + " is removed: " + words.Counted(agreed, "piece has", "pieces have") + " no case now."
	}
	err := c.changeHouse(told, func(l house.Library) error {
		return l.ChangeStock(func(e *plan.Edit) error {
			if now := livingIn(e.Now(), box.ID); now > agreed {
				return fmt.Errorf("%w: %s in %s by now; remove it again", plan.ErrRefused, words.Counted(now, "piece lives", "pieces live"), name)
			}
			e.RemoveCase(box.ID)
			return nil
		})
	})
	if err != nil {
		c.reload()
	}
	c.came(err, told)
	dialogs.Focus(c, c.list)
}

// livingIn counts the pieces that live in a case, wherever they are now.
func livingIn(p *plan.Plan, id plan.CaseID) (pieces int) {
	for row := range p.Reels.All() {
		if row.Case == id {
			pieces += row.Count()
		}
	}
	return pieces
}

// another begins a new case.
func (c *caseDialog) another() {
	c.list.SelectNone()
	dialogs.Focus(c, c.fields[0])
}
