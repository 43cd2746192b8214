package preferences

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
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
func (p *Dialogs) parts() (things, grades, transports []part) {
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
	for _, b := range p.Desk().Assessment().Budgets {
		if !named[b.Transport] {
			named[b.Transport] = true
			transports = append(transports, part{settings.HiddenTransport(string(b.Transport)), b.TransportName})
		}
	}
	slices.SortFunc(transports, func(a, b part) int { return strings.Compare(a.name, b.name) })
	return things, grades, transports
}

// without is what the settings and the levels switched off leave out of the picture.
func (p *Dialogs) leftOut() picture.LeftOut {
	leftOut := picture.LeftOut{Grades: map[string]bool{}, Transports: map[plan.TransportID]bool{}, Levels: p.hiddenLevels}
	for _, id := range p.Settings.Hidden() {
		if grade, is := settings.Grade(id); is {
			leftOut.Grades[grade] = true
		}
		if transport, is := settings.Transport(id); is {
			leftOut.Transports[plan.TransportID(transport)] = true
		}
		switch id {
		case settings.PartLabels:
			leftOut.Labels = true
		case settings.PartNames:
			leftOut.Names = true
		case settings.PartOutlines:
			leftOut.Outlines = true
		case settings.PartAreas:
			leftOut.Areas = true
		case settings.PartLooms:
			leftOut.Looms = true
		}
	}
	return leftOut
}

// ApplyShown draws the plan without what is hidden, and says so in its corner.
func (p *Dialogs) ApplyShown() {
	var names []string
	hidden := p.Settings.Hidden()
	things, grades, transports := p.parts()
	for _, each := range slices.Concat(things, grades, transports) {
		if slices.Contains(hidden, each.id) {
			names = append(names, each.name)
		}
	}
	for level := range p.Desk().Plan().Levels.All() {
		if p.hiddenLevels[level.ID] {
			names = append(names, level.Name)
		}
	}
	note := ""
	if len(names) > 0 {
		note = "hidden: " + strings.Join(names, ", ") + "   F7"
	}
	p.Draw(p.leftOut(), note)
}

// ShowAll hides nothing any more.
func (p *Dialogs) ShowAll() {
	p.Settings.ShowAll()
	p.hiddenLevels = nil
	p.ApplyShown()
}

// ForgetLevels shows all levels again, which are another plan's now.
func (p *Dialogs) ForgetLevels() {
	if len(p.hiddenLevels) > 0 {
		p.hiddenLevels = nil
		p.ApplyShown()
	}
}

// ticks are what can be hidden, each with its tick; each holds at once.
type ticks struct {
	*Dialogs
	all []*dialogs.Check
}

func (t *ticks) tick(name string, shown bool, set func(shown bool)) *dialogs.Check {
	c := dialogs.NewCheck(t, name, shown, func(on bool) {
		set(on)
		t.ApplyShown()
	})
	t.all = append(t.all, c)
	return c
}

func (t *ticks) column(head string, parts []part) *fyne.Container {
	box := container.NewVBox(widget.NewLabelWithStyle(head, fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
	for _, each := range parts {
		box.Add(t.tick(each.name, !slices.Contains(t.Settings.Hidden(), each.id), func(on bool) { t.Settings.SetHidden(each.id, !on) }))
	}
	return box
}

// AskShown lists what can be hidden.
func (p *Dialogs) AskShown() {
	t := &ticks{Dialogs: p}
	things, grades, transports := p.parts()
	first := t.column("On the plan", things)
	levels := container.NewVBox()
	for level := range p.Desk().Plan().Levels.All() {
		levels.Add(t.tick(level.Name, !p.hiddenLevels[level.ID], func(on bool) { p.hideLevel(level.ID, !on) }))
	}
	if len(levels.Objects) > 0 {
		first.Add(widget.NewLabelWithStyle("Levels", fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
		first.Add(levels)
	}
	columns := container.NewGridWithColumns(3, first, t.column("Links by grade", grades), t.column("Links by transport", transports))
	d := dialogs.New(p, "What is shown", container.NewVScroll(columns))
	done := func() {
		d.Hide()
		p.Leave()
	}
	everything := dialogs.NewAnswer(p, "Show everything", func() {
		for _, c := range t.all {
			c.SetChecked(true)
		}
	})
	shut := dialogs.NewAnswer(p, "Close", done)
	shut.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{everything, shut})
	d.Fit(dialogs.FormWidth, 440)
	p.Keys().Escapable(done)
	d.Show()
	dialogs.Focus(p, t.all[0])
}

// hideLevel hides a level or shows it again; levels belong to a plan, so this is not kept.
func (p *Dialogs) hideLevel(id plan.LevelID, hidden bool) {
	levels := map[plan.LevelID]bool{}
	for other := range p.hiddenLevels {
		levels[other] = true
	}
	if levels[id] = hidden; !hidden {
		delete(levels, id)
	}
	p.hiddenLevels = levels
}
