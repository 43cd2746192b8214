package laying

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/cabling"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
)

// options are what a pick may be told.
func (d *pickDialog) options() fyne.CanvasObject {
	box := container.NewVBox()
	heading := func(text string) {
		box.Add(widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
	}
	heading("Pick for")
	all := fmt.Sprintf("all %d links", d.plan.Links.Len())
	some := fmt.Sprintf("the %d selected", len(d.selected))
	scope := []string{all}
	if len(d.selected) > 0 {
		scope = []string{some, all}
	}
	d.radio(box, scope, scope[0], func(chosen string) {
		d.request.Links = nil
		if chosen == some {
			d.request.Links = d.selected
		}
	})
	if d.hasHouse() {
		heading("From the stock of")
		d.fromChoice(box)
	}
	heading("As for")
	now := pickNew
	if d.request.OnTheDay {
		now = pickDay
	}
	d.radio(box, []string{pickNew, pickDay}, now, func(chosen string) { d.request.OnTheDay = chosen == pickDay })
	heading("With")
	d.check(box, "only the kind a link wants", &d.request.OwnKind)
	d.check(box, "main and backup of different kinds", &d.request.DifferentKinds)
	d.check(box, "one cable held back a position", &d.request.HoldBack)
	d.check(box, "suspect cables too", &d.request.Suspect)
	d.check(box, "may take apart cables that lie, as the last resort", &d.request.TakeApart)
	d.joinsField(box)
	heading("Kinds")
	d.kindChecks(box)
	return box
}

// joinsField takes the most joins of a link that says nothing itself.
func (d *pickDialog) joinsField(box *fyne.Container) {
	d.joins = dialogs.NewEntry(d)
	d.joins.SetText(strconv.Itoa(cabling.DefaultJoins))
	d.joins.OnChanged = func(string) { d.limitJoins() }
	box.Add(widget.NewForm(widget.NewFormItem("Most joins", d.joins)))
}

// kindChecks lets kinds of the stock be barred.
func (d *pickDialog) kindChecks(box *fyne.Container) {
	var checks []fyne.CanvasObject
	columns := 2
	for _, kind := range d.kinds() {
		check := dialogs.NewCheck(d, kind.Name, true, func(on bool) { d.bar(kind.ID, !on) })
		if 2*check.MinSize().Width+besideOptions > mostOptions {
			columns = 1
		}
		checks = append(checks, check)
	}
	box.Add(container.NewGridWithColumns(columns, checks...))
}

func (d *pickDialog) radio(box *fyne.Container, options []string, chosen string, take func(string)) {
	group := widget.NewRadioGroup(options, nil)
	group.Required, group.Selected = true, chosen
	group.OnChanged = func(chosen string) { take(chosen); d.pick() }
	box.Add(group)
}

func (d *pickDialog) check(box *fyne.Container, label string, flag *bool) {
	box.Add(dialogs.NewCheck(d, label, false, func(on bool) { *flag = on; d.pick() }))
}

func (d *pickDialog) bar(kind plan.CableKindID, barred bool) {
	d.request.Barred = slices.DeleteFunc(slices.Clone(d.request.Barred), func(k plan.CableKindID) bool { return k == kind })
	if barred {
		d.request.Barred = append(d.request.Barred, kind)
	}
	d.pick()
}

// limitJoins takes the figure typed.
func (d *pickDialog) limitJoins() {
	joins, err := strconv.Atoi(strings.TrimSpace(d.joins.Text))
	if err != nil || joins < 1 || joins > cabling.MostJoins {
		d.head.SetText(fmt.Sprintf("%q is no number of joins: type 1 to %d. A link's own figure goes before it.", d.joins.Text, cabling.MostJoins))
		return
	}
	d.request.MaxJoins = joins
	d.pick()
}
