package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/desk"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/revision"
	"stageloom/model/words"
	"stageloom/ui/answers"
	"stageloom/ui/chart"
	"stageloom/ui/day"
	"stageloom/ui/dialogs"
	"stageloom/ui/look"
	"stageloom/ui/manual"
	"stageloom/ui/panel"
	"stageloom/ui/patching"
	"stageloom/ui/planview"
	"stageloom/ui/planview/tool"
	"stageloom/ui/pointer"
	"stageloom/ui/printing"
	"stageloom/ui/settings"
	"stageloom/ui/stock"
	"stageloom/ui/strip"
	"stageloom/ui/text"
)

// window is one window on one desk.
type window struct {
	app      fyne.App
	window   fyne.Window
	desk     *desk.Desk
	settings *settings.Settings

	plan      *planview.Editor
	overview  *panel.Overview
	card      *panel.CardView
	chart     *chart.Chart
	strip     *strip.Strip
	palette   look.Palette
	inks      look.Inks
	notice    *panel.Notice
	ghost     *ghost
	tips      *pointer.Tips
	tables    *tables
	day       *day.View
	equipment *panel.Equipment
	stock     *panel.StockList
	column    *container.Split
	title     *panel.Title
	top       fyne.CanvasObject
	body      fyne.CanvasObject // all but what lies over the window
	left      *container.Split
	across    *container.Split
	down      *container.Split

	// preview follows a drag.
	preview text.Preview
	// level is the one level that is not faded, blank for all.
	level plan.LevelID
	// hiddenLevels are levels that are not shown at all.
	hiddenLevels map[plan.LevelID]bool
	// keys are Escape, F1 and Enter in the dialog that was opened last.
	keys *dialogs.Keys
	// stockDialogs are those of the stock and of lists that are imported.
	stockDialogs *stock.Dialogs
	// printing are the dialogs that hand the plan out.
	printing *printing.Dialogs
	// patching are the dialogs of the patch.
	patching *patching.Dialogs
	// library holds the user's own kinds and the stock of the house; ownKinds are the kinds read last.
	library  house.Library
	ownKinds []catalogue.DeviceKind
	// trouble with the journal that was told last.
	trouble string
	// finding is the one shown last.
	finding int
	// fixes are those that were asked for on the plan fixesFor.
	fixes    []fixed
	fixesFor *plan.Plan
	// manual is the window of the manual while it is open, manualReader what it shows.
	manual       fyne.Window
	manualReader *manual.Reader
}

// New returns the window of the desktop program on a desk. It is not shown yet.
func New(app fyne.App, d *desk.Desk) fyne.Window { return build(app, d).window }

// Open is New with the user's library, with plan files of which the first is opened, and with answers for tests of the
// real window.
func Open(app fyne.App, d *desk.Desk, library house.Library, paths ...string) (fyne.Window, *answers.Questions) {
	w := build(app, d)
	w.library = library
	if len(paths) > 0 {
		w.open(paths[0])
	} else if w.settings.NewPlan() != "" {
		d.NewPlan(w.freshPlan())
	}
	w.listEquipment()
	w.offerLeft(d.LeftBehind())
	w.tellUnread(d.Unread())
	w.tellTrouble()
	return w.window, answers.About(asked{w})
}

func build(app fyne.App, d *desk.Desk) *window {
	w := &window{app: app, desk: d, settings: settings.New(app.Preferences()), window: app.NewWindow("Stageloom")}
	w.keys = dialogs.NewKeys(w.window)
	w.keys.Help = func() { w.functionKey(fyne.KeyF1) }
	w.stockDialogs, w.printing, w.patching = w.newStockDialogs(), w.newPrinting(), w.newPatching()
	w.applyTheme()
	w.makeParts()
	w.guardSite()
	w.layOut()
	w.applyUnits()
	w.applyShown()
	w.applyLabels()
	w.listen()
	w.window.Resize(w.settings.Window())
	w.refresh(desk.Event{New: d.Plan(), Old: d.Plan(), Assessment: d.Assessment(), Opened: true})
	w.tables.show(w.settings.OpenTable())
	w.window.Canvas().Focus(w.plan)
	return w
}

// makeParts makes what stands in the window, each joined to what it does.
func (w *window) makeParts() {
	w.plan = planview.NewEditor(w.desk, w.inks)
	w.plan.Refused = w.refused
	w.plan.Previewed = w.previewed
	w.plan.Menu = w.contextMenu
	w.plan.Remove = w.remove
	w.plan.Key = w.functionKey
	w.plan.Later = later(w.app)
	w.overview = panel.NewOverview(w.inks, w.selection, w.show)
	w.chart = chart.New(chart.Curves{})
	w.card = w.newCard()
	w.strip = strip.New(noRun)
	w.wireStrip()
	w.tips = pointer.NewTips(afterOf(w.app))
	w.wireTips()
	w.notice = panel.NewNotice(w.tips)
	w.equipment = panel.NewEquipment(w.desk.Plan())
	w.equipment.Place, w.equipment.Carry, w.equipment.Drop = w.placeOrList, w.carry, w.drop
	w.equipment.Leave = func() { w.window.Canvas().Focus(w.plan) }
	w.equipment.Key = w.functionKey
	w.ghost = newGhost()
	w.title = panel.NewTitle()
	w.title.Tips = w.tips
	w.day = w.newDay()
}

// listen takes what comes from the desk, the keys and the system.
func (w *window) listen() {
	w.desk.Listen(w.heard)
	w.window.Canvas().SetOnTypedKey(w.strayKey)
	w.window.Canvas().SetOnTypedRune(w.strayRune)
	w.window.SetMainMenu(w.menu())
	w.window.SetCloseIntercept(w.close)
	w.window.SetOnDropped(w.dropped)
	w.app.Lifecycle().SetOnEnteredForeground(w.checkDisk)
	// The menu's redo is the toolkit's own shortcut; this one is the other that hands know.
	w.window.Canvas().AddShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyZ, Modifier: control | shift}, func(fyne.Shortcut) {
		w.desk.Redo()
	})
}

// layOut puts the plan in the middle, the overview above, the card to the right and the run strip below. The
// notice lies over the plan, so that the plan does not jump when it comes and goes.
func (w *window) layOut() {
	card, strip := w.settings.Splits()
	onPlan := container.NewStack(w.plan, container.NewBorder(w.notice, nil, nil, nil))
	w.down = container.NewVSplit(onPlan, w.strip)
	w.down.Offset = strip
	w.tables = w.newTables(w.down)
	w.across = container.NewHSplit(w.tables.place, w.card)
	w.across.Offset = card
	w.left = container.NewHSplit(w.newColumn(), w.across)
	w.left.Offset = w.settings.Equipment()
	w.top = panel.NewTopLine(w.overview, w.title)
	top := container.NewVBox(w.top, widget.NewSeparator())
	w.body = container.NewBorder(top, nil, nil, nil, w.left)
	w.window.SetContent(container.NewStack(w.body, w.day, w.ghost.layer, w.tips.Layer))
}

func (w *window) heard(e desk.Event) {
	w.preview = text.Preview{}
	if e.Opened && len(w.hiddenLevels) > 0 {
		w.hiddenLevels = nil // they were another plan's
		w.applyShown()
	}
	w.refresh(e)
	if !e.Opened {
		if said := strings.TrimSpace(text.Belonging(e.Old, e.New) + " " + w.takenBack(e)); said != "" {
			w.notice.Say(said)
		}
	}
	w.tellTrouble()
	if e.PlanChanged() || e.File || e.Opened {
		w.window.SetMainMenu(w.menu())
	}
}

// refresh shows what an event changed: title and overview follow the plan, card and strip the selection too.
func (w *window) refresh(e desk.Event) {
	w.title.SetText(w.desk.Title())
	w.window.SetTitle(w.windowTitle())
	if e.PlanChanged() || e.Opened {
		w.tellWhole(e.Assessment)
		if e.Opened {
			w.equipment.Ask()
		}
		w.equipment.SetPlan(e.New)
	}
	w.stock.Set(w.desk.Plan(), w.units())
	w.tables.refresh(e)
	if w.day.Visible() && (e.PlanChanged() || e.Opened) {
		w.day.Set(e.Assessment, w.units())
	}
	w.showSelection()
}

// tellWhole sets the overview; the title gives way to it.
func (w *window) tellWhole(a *assess.Assessment) {
	if w.overview.Set(text.OverviewOf(a, w.preview)) {
		w.top.Refresh()
	}
}

func (w *window) windowTitle() string {
	mark := ""
	if w.desk.Unsaved() {
		mark = "* "
	}
	return mark + w.desk.Plan().Settings.Name + " · " + revision.StandingOf(w.desk.Plan()).String() + " – Stageloom"
}

// noRun is the run strip while no link is selected.
var noRun = strip.Run{Hint: "Select a link to see its run: each cable to scale, and where its loss goes."}

// showSelection sets card and run strip, with the budgets of this moment while something moves.
func (w *window) showSelection() {
	run := noRun
	if link, found := w.desk.Plan().Link(w.showCard()); found {
		b, _ := text.BudgetOf(w.desk.Assessment(), link.ID, w.preview)
		run = strip.Of(w.desk.Plan(), link, b, w.units().Length)
	}
	w.strip.Set(run)
	w.showForm()
}

// showCard sets the card and returns the link it is about, if it is about one.
func (w *window) showCard() plan.LinkID {
	card := text.CardOf(w.desk.Assessment(), w.desk.Selection(), w.units(), w.preview)
	if b, found := text.BudgetOf(w.desk.Assessment(), card.Link, w.preview); found {
		w.chart.Set(chart.Of(b))
	}
	w.card.Set(card)
	return card.Link
}

// previewed follows a drag: overview, card and strip show figures of this moment, and the plan's again at its end.
func (w *window) previewed(drag *tool.Drag) {
	if drag == nil && w.preview.Moving.Empty() && w.preview.Budgets == nil {
		return
	}
	w.preview = text.Preview{}
	if drag != nil {
		w.preview = text.Preview{Moving: drag.Moving, By: drag.By, Budgets: drag.Budgets}
	}
	w.tellWhole(w.desk.Assessment())
	w.showSelection()
}

func (w *window) show(ref plan.Ref) {
	w.plan.Reveal(ref)
	w.window.Canvas().Focus(w.plan)
}

func (w *window) units() words.Units {
	u := words.Units{}
	if w.settings.Length() == settings.Feet {
		u.Length = quantity.Imperial
	}
	if w.settings.Temperature() == settings.Fahrenheit {
		u.Temperature = quantity.Imperial
	}
	return u
}

// feet is the length of a foot in metres.
const foot = 0.3048

func (w *window) applyUnits() {
	unit, name, step := 1.0, "m", 0.5
	if w.settings.Length() == settings.Feet {
		unit, name, step = foot, "ft", foot
	}
	if !w.settings.Snap() {
		step = 0
	}
	w.plan.SetUnit(unit, name)
	w.plan.SetSnap(step)
	w.stock.Set(w.desk.Plan(), w.units())
	w.tables.outdate()
	w.tables.refresh(desk.Event{})
	w.showSelection()
	w.day.Set(w.desk.Assessment(), w.units())
}
