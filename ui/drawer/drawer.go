package drawer

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/checks"
	"stageloom/model/desk"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/patching"
	"stageloom/ui/pointer"
	"stageloom/ui/settings"
	"stageloom/ui/split"
	"stageloom/ui/table"
	"stageloom/ui/table/sources"
)

// Plan is the plan above the drawer, as far as tables ask it.
type Plan interface {
	// Where is where a row is drawn, and whether it is.
	Where(plan.Ref) (geom.Box, bool)
	// Reveal selects a row and brings it into view.
	Reveal(plan.Ref)
}

// Joined is what the drawer asks of the window beside what every dialog does.
type Joined struct {
	dialogs.Host
	// Settings keep which table is open, how high, and how each is laid out.
	Settings *settings.Settings
	Tips     *pointer.Tips
	Plan     Plan
	// Leave gives the keys to the plan; Reveal brings a row of it into view before.
	Leave  func()
	Reveal func(plan.Ref)
	// Key and Shortcut take function keys and key combinations that are none of a table's.
	Key      func(fyne.KeyName)
	Shortcut func(fyne.Shortcut)
	// Remove takes what is selected out of the plan.
	Remove func()
	// NewRow asks by the name of a table for a new row that the table cannot begin by itself.
	NewRow map[string]func(made func(plan.Ref))
	// Fixes are what mends a finding, as items of a menu; Fix does the first of them, or says that there is none.
	Fixes func(checks.Finding) []*fyne.MenuItem
	Fix   func(checks.Finding)
	// LinkItems and PatchItems are what the context menu offers about rows of links and of the patch.
	LinkItems, PatchItems func() []*fyne.MenuItem
	// Patch does what is dragged in the tables of the patch.
	Patch *patching.Dialogs
	// Changed is called after the drawer was opened or closed or took another size; nil for nothing.
	Changed func()
	// ActChanged is called after another act was chosen.
	ActChanged func()
}

// Drawer is the drawer, closed at first.
type Drawer struct {
	Joined
	// Place holds the plan alone, or the plan above the table that is open.
	Place *fyne.Container

	split  *split.Split
	tabs   *fyne.Container
	middle *fyne.Container
	grids  map[string]*table.Grid
	stale  map[string]bool
	open   string
	// last is the table that was open before the drawer was closed.
	last string
	acts *actChooser
}

// New puts a drawer, closed yet, under something.
func New(joined Joined, above fyne.CanvasObject) *Drawer {
	t := &Drawer{Joined: joined, grids: map[string]*table.Grid{}, stale: map[string]bool{}}
	t.tabs, t.middle = container.New(layout.NewCustomPaddedHBoxLayout(0)), container.NewStack()
	t.acts = t.newActChooser()
	shut := pointer.NewIconButton(theme.CancelIcon(), "close the tables", t.Tips, func() { t.Shut() })
	shut.Importance = widget.LowImportance
	head := container.NewBorder(nil, nil, nil, shut, container.NewHScroll(t.tabs))
	t.split = split.Down(above, container.NewBorder(container.NewVBox(widget.NewSeparator(), head), nil, nil, nil, t.middle))
	t.split.Offset = t.Settings.Drawer()
	t.Place = container.NewStack(above)
	t.listTabs()
	return t
}

func (t *Drawer) listTabs() {
	if len(t.tabs.Objects) == 0 {
		for _, sheet := range sources.All() {
			t.tabs.Add(newTab(sheet.Title, func(second bool) { t.pressed(sheet.Name, second) }))
		}
	}
	for i, sheet := range sources.All() {
		tab := t.tabs.Objects[i].(*tab)
		tab.open = sheet.Name == t.open
		tab.Refresh()
	}
}

// Open reports whether a table is open.
func (t *Drawer) Open() bool { return t.open != "" }

// Toggle opens a table with the keys in it; the second time it closes the drawer.
func (t *Drawer) Toggle(name string) {
	if grid := t.grid(); t.open == name && grid != nil && grid.Focused() {
		t.Shut()
		return
	}
	t.Show(name)
}

// Show opens a table and gives it the keys; a name that no table has opens none.
func (t *Drawer) Show(name string) {
	if _, known := sources.Named(name); !known || !t.Keep() {
		return
	}
	opened := t.open == ""
	if grid := t.grid(); grid != nil {
		grid.SetBeside(nil)
	}
	t.open = name
	grid := t.made(name)
	grid.SetBeside(t.acts.box)
	t.middle.Objects = []fyne.CanvasObject{grid}
	if opened {
		t.Place.Objects = []fyne.CanvasObject{t.split}
	}
	t.listTabs()
	t.listActs()
	t.fill()
	t.middle.Refresh()
	t.Place.Refresh()
	grid.SetSelection(t.Desk().Selection())
	t.Place.MinSize() // makes what the toolkit else makes at the first frame: before that it finds nothing to give the focus to
	grid.Focus()
	t.Settings.SetOpenTable(name)
	if opened {
		t.changed()
	}
}

// Shut closes the drawer and gives the keys to the plan.
func (t *Drawer) Shut() {
	if grid := t.grid(); grid == nil || !grid.Keep() {
		return
	}
	t.setWhole(false)
	t.last, t.open = t.open, ""
	t.KeepShape()
	t.Settings.SetOpenTable("")
	t.Place.Objects = []fyne.CanvasObject{t.split.Leading}
	t.Place.Refresh()
	t.changed()
	t.Leave()
}

// GiveBack shows what is above the table again.
func (t *Drawer) GiveBack() { t.setWhole(false) }

// LayAbove lays what is above the table out anew.
func (t *Drawer) LayAbove() {
	if above, is := t.split.Leading.(*fyne.Container); is {
		above.Layout.Layout(above.Objects, above.Size())
	}
}

// leave gives the keys to the plan, which is seen again.
func (t *Drawer) leave() {
	t.setWhole(false)
	t.Leave()
}

// KeepShape keeps how high the drawer is.
func (t *Drawer) KeepShape() { t.Settings.SetDrawer(t.split.Offset) }

// grid is the table that is open, nil where none is.
func (t *Drawer) grid() *table.Grid { return t.grids[t.open] }

// Keep keeps what is being typed into the open table, and reports whether it could be read.
func (t *Drawer) Keep() bool {
	grid := t.grid()
	return grid == nil || grid.Keep()
}

// Holding is the table that has the keys, blank where none has.
func (t *Drawer) Holding() string {
	if grid := t.grid(); grid != nil && grid.Holds(t.Window().Canvas().Focused()) {
		return t.open
	}
	return ""
}

// Focus gives the keys to the table that is open, FocusFilter to the line that filters it.
func (t *Drawer) Focus() {
	if grid := t.grid(); grid != nil {
		grid.Focus()
	}
}

// FocusFilter gives the keys to the line that filters the table that is open.
func (t *Drawer) FocusFilter() {
	if grid := t.grid(); grid != nil {
		grid.FocusFilter()
	}
}

// ShowOnly opens a table at the rows that hold some words.
func (t *Drawer) ShowOnly(name, words string) {
	t.Show(name)
	if t.open == name {
		t.grid().SetFilter(words)
		t.grid().Focus()
	}
}

// source is what a table holds of the plan as it is.
func (t *Drawer) source(name string) table.Source {
	sheet, _ := sources.Named(name)
	return sheet.Of(t.Desk().Assessment(), sources.View{Units: t.Units(), Act: t.ActShown(), Channels: t.Settings.ChannelsFollow(), Used: t.Settings.UnusedHidden()})
}

// made is the grid of a table, made at the first call.
func (t *Drawer) made(name string) *table.Grid {
	if grid := t.grids[name]; grid != nil {
		return grid
	}
	sheet := table.NewSheet(t.source(name), t.do)
	sheet.SetLook(t.Settings.Table(name))
	grid := table.NewGrid(sheet)
	grid.Canvas = t.Window().Canvas()
	grid.Laid = func(look settings.TableLook) { t.Settings.SetTable(name, look) }
	grid.Say, grid.Leave, grid.Key, grid.Shortcut = t.Say, t.leave, t.Key, t.Shortcut
	grid.Chosen = func(refs []plan.Ref) { t.chosen(grid, refs) }
	grid.Open = t.openRow
	grid.Enter = func(source table.Source, row int, column string) bool { return t.enter(grid, source, row, column) }
	grid.Actions = t.rowActions
	t.drag(grid)
	if slices.Contains([]string{plan.LinksTable, plan.DevicesTable, plan.PositionsTable}, name) { // what they take along is told first; rows of the patch are no rows of the plan
		grid.Remove = func() {
			t.Desk().Select(grid.Sheet().Refs()...)
			t.Remove()
		}
	}
	if ask := t.NewRow[name]; ask != nil {
		grid.NewRow = func() { ask(func(ref plan.Ref) { t.madeRow(grid, ref) }) }
	}
	t.grids[name] = grid
	return grid
}

// drag hands what is dragged out of a table of the patch to who plugs it.
func (t *Drawer) drag(grid *table.Grid) {
	inputs := func() []plan.InputID {
		c, _ := t.Chosen()
		return c.Inputs
	}
	grid.Moved = func(_ table.Source, column string, from, to plan.Ref) { t.Patch.Moved(column, from, to) }
	grid.DroppedBeside = func(_ table.Source, _ []plan.Ref, at fyne.Position) { t.Patch.Dropped(inputs(), at) }
	grid.Dragging = func(_ table.Source, _ []plan.Ref, at fyne.Position, outside bool) {
		t.Patch.Dragging(inputs(), at, outside)
	}
}

// madeRow shows a row that a dialog made.
func (t *Drawer) madeRow(grid *table.Grid, ref plan.Ref) {
	t.Desk().Select(ref)
	grid.SetSelection([]plan.Ref{ref})
	grid.GoToName()
	grid.Focus()
}

// chosen selects on the plan what the table selects, and brings the first of it into view.
func (t *Drawer) chosen(grid *table.Grid, refs []plan.Ref) {
	if len(refs) > 0 {
		if _, drawn := t.Plan.Where(refs[0]); drawn {
			t.Plan.Reveal(refs[0])
		}
	}
	t.Desk().Select(refs...)
	grid.Settle(t.Desk().Selection())
}

// enter offers what mends a finding, in the column that says so.
func (t *Drawer) enter(grid *table.Grid, source table.Source, row int, column string) bool {
	finding, found := sources.FindingAt(source, row)
	if !found || column != sources.FixColumn {
		return false
	}
	items := t.Fixes(finding)
	if len(items) == 0 {
		t.Fix(finding)
		return true
	}
	grid.Offer(items)
	return true
}

// Refresh brings the table that is open up to the plan; the others are when they are opened.
func (t *Drawer) Refresh(e desk.Event) {
	if e.PlanChanged() || e.Opened {
		t.Outdate()
		t.listActs()
	}
	if grid := t.grid(); grid != nil {
		t.fill()
		grid.SetSelection(t.Desk().Selection())
	}
}

// Outdate marks all tables as showing an older plan, or other units.
func (t *Drawer) Outdate() {
	for name := range t.grids {
		t.stale[name] = true
	}
}

// Fill gives the open table its rows anew, as tables look at the plan now.
func (t *Drawer) Fill() {
	t.Outdate()
	t.fill()
}

// fill gives the open table its rows anew where they are older than the plan.
func (t *Drawer) fill() {
	if t.stale[t.open] {
		t.stale[t.open] = false
		t.grid().SetSource(t.source(t.open))
	}
}
