package stock

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// mostFaults is how many faults are listed, mostWords how many words are asked about at a time.
const mostFaults, mostWords = 200, 40

// reckon reads the rows as the choices have it, and says what comes of it.
func (d *importDialog) reckon() {
	grid, found := d.grid()
	if !found || d.filling {
		return
	}
	d.showChoices()
	switch d.holds.Selected {
	case holdsCases:
		d.reckonCases(grid)
	case holdsInputs:
		d.reckonInputs(grid)
	case holdsDevices:
		d.reckonDevices(grid)
	default:
		d.reckonReels(grid)
	}
}

func (d *importDialog) reckonCases(grid exchange.Grid) {
	taken := map[string]bool{}
	for box := range d.place.now().Cases.All() {
		taken[strings.ToLower(box.Name)] = true
	}
	d.askNothing()
	list := exchange.ReadCases(grid, d.layout, func(name string) bool { return taken[strings.ToLower(name)] })
	d.add = func(e *plan.Edit, goodOnly bool) error {
		if goodOnly {
			list = list.GoodOnly()
		}
		return list.Add(e)
	}
	d.conclude(fmt.Sprintf("%d cases", len(list.Rows)), len(list.Rows), list.Faults)
}

// conclude says what can be imported and lists what is wrong, and what is left of rows that are taken.
func (d *importDialog) conclude(good string, rows int, faults []exchange.Fault, left ...exchange.Fault) {
	d.said = good
	d.aside.SetText("")
	d.faults.SetText(text.FaultsTold(slices.Concat(faults, left), mostFaults))
	d.all.Disable()
	d.good.Disable()
	switch bad := exchange.BadRows(faults); {
	case rows == 0 && bad == 0:
		d.told.SetText("No row holds anything below the column heads.")
	case rows == 0:
		d.told.SetText("No row can be taken yet:")
	case bad == 0:
		d.told.SetText("All rows are good: " + good + ".")
		d.all.Enable()
	default:
		d.told.SetText(fmt.Sprintf("Can be taken: %s. %s: correct the file, say what a column means, or leave them out.",
			good, text.RowsWithFaults(bad)))
		d.good.Enable()
	}
	d.handKeys()
}

// handKeys gives the keys to what can be done with a file that Return has read, so that Return does it.
func (d *importDialog) handKeys() {
	if !d.returned {
		return
	}
	d.returned = false
	d.toAsked()
}

// toAsked gives the keys to the first question that is not answered, else to what can be done with the list.
func (d *importDialog) toAsked() {
	for _, question := range d.asked.questions {
		if question.Selected == text.Unanswered {
			dialogs.Focus(d, question)
			return
		}
	}
	for _, button := range []*dialogs.Answer{d.all, d.good} {
		if !button.Disabled() {
			dialogs.Focus(d, button)
			return
		}
	}
}

// askNothing takes away what was asked about another list.
func (d *importDialog) askNothing() {
	if len(d.words)+len(d.asked.shown) > 0 {
		d.words, d.asked.shown = nil, nil
		d.words2kinds.RemoveAll()
	}
}

// take puts the rows into the plan or the house as one step: all of them, or the good ones by the user's own choice.
func (d *importDialog) take(goodOnly bool) {
	err := d.place.do("Import "+d.file.Name, func(e *plan.Edit) error { return d.add(e, goodOnly) })
	if err != nil {
		d.told.SetText(words.Sentence(err))
		return
	}
	d.dialog.Hide()
	d.place.changed()
	d.remember()
	d.Say("Imported " + d.said + ", from " + d.file.Name + ".")
}

// ListFile reports whether a file dropped on the window is a list and no plan.
func ListFile(uri fyne.URI) bool {
	switch strings.ToLower(uri.Extension()) {
	case ".csv", ".tsv", ".xlsx", ".xlsm":
		return true
	}
	return false
}

func labelled(name string, object fyne.CanvasObject) fyne.CanvasObject {
	return container.NewBorder(nil, nil, widget.NewLabel(name), nil, object)
}

// onTop keeps an object as high as it is where its row is higher.
func onTop(object fyne.CanvasObject) fyne.CanvasObject { return container.NewVBox(object) }

func kindNames(kinds []plan.CableKind) []string {
	names := make([]string, len(kinds))
	for i, kind := range kinds {
		names[i] = kind.Name
	}
	return names
}
