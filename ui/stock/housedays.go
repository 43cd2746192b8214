package stock

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// dayEntry is a field for a day of the show.
func (d *houseDialog) dayEntry(day, blank string) *dialogs.Entry {
	f := dialogs.NewEntry(d)
	f.SetText(day)
	f.SetPlaceHolder(blank)
	f.OnSubmitted = func(string) { d.keepDays(); d.toScan() }
	f.Left = d.keepDays
	return f
}

// keepDays takes the days of the show as they are typed into the plan.
func (d *houseDialog) keepDays() {
	now := d.Desk().Plan().Settings
	next, err := text.StockDays(now, d.out.Text, d.until.Text)
	if err == nil && next == now {
		return
	}
	var back func() error
	if err == nil {
		back, err = d.edited("Days of the stock", func(e *plan.Edit) error { e.SetSettings(next); return nil })
	}
	if err != nil {
		d.tell(words.Sentence(err), true)
		return
	}
	d.done(houseStep{told: "The days of the stock are kept" + d.conflictsTold() + ".", back: func() error {
		err := back()
		d.out.SetText(d.Desk().Plan().Settings.OutOn)
		d.until.SetText(d.Desk().Plan().Settings.BackOn)
		return err
	}})
}

func (d *houseDialog) conflictsNow() []string {
	return text.HouseConflicts(&d.stock, d.Desk().Plan(), text.Today(), d.Units())
}

func (d *houseDialog) conflictsTold() string {
	all := d.conflictsNow()
	if len(all) == 0 {
		return ""
	}
	return "; " + words.Counted(len(all), "conflict", "conflicts") + ": " + strings.TrimSuffix(all[0], ".")
}

// fillDays says how many conflicts there are.
func (d *houseDialog) fillDays() {
	all := d.conflictsNow()
	d.conflicts.Importance = widget.MediumImportance
	d.conflicts.Text = "No conflicts"
	if len(all) > 0 {
		d.conflicts.Importance = widget.WarningImportance
		d.conflicts.Text = words.Counted(len(all), "conflict", "conflicts") + "…"
	}
	d.conflicts.Refresh()
}

// showConflicts lists what this show cannot have on its days.
func (d *houseDialog) showConflicts() {
	all := d.conflictsNow()
	if len(all) == 0 {
		d.tell("The house has all that this show takes, on its days.", false)
		d.toScan()
		return
	}
	list := dialogs.NewManyList(d, "conflicts")
	var lines []dialogs.Line
	for i, said := range all {
		lines = append(lines, dialogs.Line{ID: fmt.Sprint(i), Words: said})
	}
	list.Fill(lines, "")
	show := dialogs.New(d, "What this show cannot have on its days", container.NewStack(list))
	show.SetButtons([]fyne.CanvasObject{d.button("Close", show.Hide)})
	show.Fit(dialogs.WideWidth, 360)
	d.Keys().Escapable(show.Hide)
	show.Show()
	dialogs.Focus(d, list)
}
