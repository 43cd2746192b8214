package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/budget"
	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/settings"
	"stageloom/ui/text"
)

// part is one thing on the plan that can be hidden, with what it is called.
type part struct{ id, name string }

// parts lists what can be hidden of the plan, in groups.
func (w *window) parts() (things, grades, transports []part) {
	things = []part{
		{settings.PartLabels, "labels of links"},
		{settings.PartNames, "devices' names"},
		{settings.PartOutlines, "positions"},
		{settings.PartAreas, "areas"},
		{settings.PartLooms, "looms"},
	}
	for _, grade := range append(budget.Standings(), budget.Ungraded) {
		grades = append(grades, part{settings.HiddenGrade(string(grade)), text.GradeWord(grade)})
	}
	named := map[plan.TransportID]bool{}
	for _, b := range w.desk.Assessment().Budgets {
		if !named[b.Transport] {
			named[b.Transport] = true
			transports = append(transports, part{settings.HiddenTransport(string(b.Transport)), b.TransportName})
		}
	}
	slices.SortFunc(transports, func(a, b part) int { return strings.Compare(a.name, b.name) })
	return things, grades, transports
}

// without is what the settings and the levels switched off leave out of the picture.
func (w *window) without() picture.Without {
	without := picture.Without{Grades: map[string]bool{}, Transports: map[plan.TransportID]bool{}, Levels: w.hiddenLevels}
	for _, id := range w.settings.Hidden() {
		if grade, is := settings.Grade(id); is {
			without.Grades[grade] = true
		}
		if transport, is := settings.Transport(id); is {
			without.Transports[plan.TransportID(transport)] = true
		}
		switch id {
		case settings.PartLabels:
			without.Labels = true
		case settings.PartNames:
			without.Names = true
		case settings.PartOutlines:
			without.Outlines = true
		case settings.PartAreas:
			without.Areas = true
		case settings.PartLooms:
			without.Looms = true
		}
	}
	return without
}

// applyShown draws the plan without what is hidden, and says so in its corner.
func (w *window) applyShown() {
	var names []string
	hidden := w.settings.Hidden()
	things, grades, transports := w.parts()
	for _, each := range slices.Concat(things, grades, transports) {
		if slices.Contains(hidden, each.id) {
			names = append(names, each.name)
		}
	}
	for level := range w.desk.Plan().Levels.All() {
		if w.hiddenLevels[level.ID] {
			names = append(names, level.Name)
		}
	}
	note := ""
	if len(names) > 0 {
		note = "hidden: " + strings.Join(names, ", ") + "   F7"
	}
	w.plan.SetWithout(w.without(), note)
}

// showAll hides nothing any more.
func (w *window) showAll() {
	w.settings.ShowAll()
	w.hiddenLevels = nil
	w.applyShown()
}

// ticks are what can be hidden, each with its tick; each holds at once.
type ticks struct {
	*window
	all []*dialogs.Check
}

func (t *ticks) tick(name string, shown bool, set func(shown bool)) *dialogs.Check {
	c := dialogs.NewCheck(t, name, shown, func(on bool) {
		set(on)
		t.applyShown()
	})
	t.all = append(t.all, c)
	return c
}

func (t *ticks) column(head string, parts []part) *fyne.Container {
	box := container.NewVBox(widget.NewLabelWithStyle(head, fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
	for _, each := range parts {
		box.Add(t.tick(each.name, !slices.Contains(t.settings.Hidden(), each.id), func(on bool) { t.settings.SetHidden(each.id, !on) }))
	}
	return box
}

// askShown lists what can be hidden.
func (w *window) askShown() {
	t := &ticks{window: w}
	things, grades, transports := w.parts()
	first := t.column("On the plan", things)
	levels := container.NewVBox()
	for level := range w.desk.Plan().Levels.All() {
		levels.Add(t.tick(level.Name, !w.hiddenLevels[level.ID], func(on bool) { w.hideLevel(level.ID, !on) }))
	}
	if len(levels.Objects) > 0 {
		first.Add(widget.NewLabelWithStyle("Levels", fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
		first.Add(levels)
	}
	columns := container.NewGridWithColumns(3, first, t.column("Links by grade", grades), t.column("Links by transport", transports))
	d := dialog.NewCustomWithoutButtons("What is shown", container.NewVScroll(columns), w.window)
	done := func() {
		d.Hide()
		w.window.Canvas().Focus(w.plan)
	}
	everything := widget.NewButton("Show everything", func() {
		for _, c := range t.all {
			c.SetChecked(true)
		}
	})
	shut := dialogs.NewAnswer(w, "Close", done)
	shut.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{everything, shut})
	d.Resize(fyne.NewSize(620, 360))
	w.Keys().Escapable(done)
	d.Show()
	w.window.Canvas().Focus(t.all[0])
}

// hideLevel hides a level or shows it again; levels belong to a plan, so this is not kept.
func (w *window) hideLevel(id plan.LevelID, hidden bool) {
	levels := map[plan.LevelID]bool{}
	for other := range w.hiddenLevels {
		levels[other] = true
	}
	if levels[id] = hidden; !hidden {
		delete(levels, id)
	}
	w.hiddenLevels = levels
}
