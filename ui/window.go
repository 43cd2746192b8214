package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/desk"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/revision"
	"stageloom/ui/answers"
	"stageloom/ui/chart"
	"stageloom/ui/day"
	"stageloom/ui/devices"
	"stageloom/ui/dialogs"
	"stageloom/ui/drawer"
	"stageloom/ui/files"
	"stageloom/ui/laying"
	"stageloom/ui/look"
	"stageloom/ui/manual"
	"stageloom/ui/panel"
	"stageloom/ui/patching"
	"stageloom/ui/planview"
	"stageloom/ui/planview/tool"
	"stageloom/ui/pointer"
	"stageloom/ui/preferences"
	"stageloom/ui/printing"
	"stageloom/ui/settings"
	"stageloom/ui/split"
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
	parts
	frame
	joined

	palette look.Palette
	inks    look.Inks
	// preview follows a drag.
	preview text.Preview
	// level is the one level that is not faded, blank for all.
	level plan.LevelID
	// undone is the step on site up to which links are faint.
	undone string
	// library holds the user's own kinds and the stock of the house.
	library house.Library
	// fixes are what cures findings; finding is the one shown last.
	fixes   *fixes
	finding int
}

// parts are what stands in the window.
type parts struct {
	plan     *planview.Editor
	overview *panel.Overview
	title    *panel.Title
	notice   *panel.Notice
	// unread tells that the notice warns of text that cannot be read, which the next event does not take away.
	unread    bool
	card      *panel.CardView
	chart     *chart.Chart
	strip     *strip.Strip
	margins   *strip.Margins
	equipment *panel.Equipment
	stock     *panel.StockList
	drawer    *drawer.Drawer
	day       *day.View
	sign      *pointer.Sign
	tips      *pointer.Tips
}

// frame is how the parts lie beside each other.
type frame struct {
	top    fyne.CanvasObject
	body   fyne.CanvasObject // all but what lies over the window
	column *split.Split
	left   *split.Split
	across *split.Split
	down   *split.Split
	// folded stands in the place of the foot while a table is open and nothing is selected; footWanted is that somebody asked
	// for the foot all the same.
	folded     *widget.Button
	footWanted bool
}

// joined is what opens over the window or beside it.
type joined struct {
	// keys are Escape, F1 and Enter in the dialog that was opened last.
	keys *dialogs.Keys
	// stockDialogs are those of the stock and of lists that are imported.
	stockDialogs *stock.Dialogs
	// files are the dialogs of plan files, preferences those of how plans are shown.
	files       *files.Dialogs
	preferences *preferences.Dialogs
	// printing are the dialogs that hand the plan out.
	printing *printing.Dialogs
	// laying is what is done to links and their cables, devices what is done to devices and positions.
	laying  *laying.Dialogs
	devices *devices.Dialogs
	// patching are the dialogs of the patch.
	patching *patching.Dialogs
	// manual is the window of the manual.
	manual *manual.Window
}

// New returns the window of the desktop program on a desk. It is not shown yet.
func New(app fyne.App, d *desk.Desk) fyne.Window { return build(app, d).window }

// Open is New with the user's library, with plan files of which the first is opened, and with answers for tests of the
// real window.
func Open(app fyne.App, d *desk.Desk, library house.Library, paths ...string) (fyne.Window, *answers.Questions) {
	w := build(app, d)
	w.library = library
	d.SettleWith(house.Keeper{Library: func() house.Library { return w.library }, Today: text.Today})
	if len(paths) > 0 {
		w.files.Open(paths[0])
	} else if w.settings.NewPlan() != "" {
		d.NewPlan(files.FreshPlan(w.settings))
	}
	w.devices.ListKinds()
	w.files.OfferLeft(d.LeftBehind())
	w.files.TellUnread(d.Unread())
	w.files.TellTrouble()
	return w.window, answers.About(asked{w})
}

func build(app fyne.App, d *desk.Desk) *window {
	w := &window{app: app, desk: d, settings: settings.New(app.Preferences()), window: app.NewWindow("Stageloom")}
	w.keys = dialogs.NewKeys(w.window)
	w.keys.Help = func() { w.functionKey(fyne.KeyF1) }
	w.stockDialogs, w.printing, w.patching = w.newStockDialogs(), w.newPrinting(), w.newPatching()
	w.applyTheme()
	w.makeParts()
	w.files, w.preferences, w.manual = w.newFiles(), w.newPreferences(), w.newManual()
	w.guardSite()
	w.layOut()
	w.applyUnits()
	w.preferences.ApplyShown()
	w.applyLabels()
	w.listen()
	w.window.Resize(w.settings.Window())
	w.refresh(desk.Event{New: d.Plan(), Old: d.Plan(), Assessment: d.Assessment(), Opened: true})
	w.drawer.Show(w.settings.OpenTable())
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
	w.plan.Later = pointer.Later(w.app)
	w.strip, w.margins, w.sign = strip.New(noRun), strip.NewMargins(), pointer.NewSign()
	w.laying = w.newLaying()
	w.overview = panel.NewOverview(w.inks, w.desk.Selection, w.show)
	w.chart = chart.New(chart.Curves{})
	w.fixes = &fixes{Host: w, step: w.do}
	w.card = w.newCard()
	w.tips = pointer.NewTips(pointer.AfterOf(w.app))
	w.wireTips()
	w.notice = panel.NewNotice(w.tips)
	w.equipment = panel.NewEquipment(w.desk.Plan())
	w.devices = w.newDevices()
	w.title = panel.NewTitle()
	w.title.Tips = w.tips
	w.day = w.newDay()
}

// wireTips makes plan, overview, card and chart tell what the pointer rests on.
func (w *window) wireTips() {
	w.plan.Tips, w.overview.Tips, w.card.Tips, w.chart.Tips = w.tips, w.tips, w.tips, w.tips
	w.plan.Tell = func(ref plan.Ref) string {
		return text.TipOf(w.desk.Assessment(), ref, w.units(), func(b budget.Budget) string { return chart.Of(b).WorstWords() })
	}
	w.plan.Open = w.openTwice
}

// openTwice does what a double click on the plan does: what F2 does. An area is the ground that other things are on: two
// presses there are mostly about something else.
func (w *window) openTwice(ref plan.Ref) {
	if ref.Table == plan.AreasTable {
		return
	}
	w.desk.Select(ref)
	w.soon(w.rename)
}

// soon does something once the event of this moment is over.
func (w *window) soon(do func()) { pointer.Soon(w.app, do) }

// listen takes what comes from the desk, the keys and the system.
func (w *window) listen() {
	w.desk.Listen(w.heard)
	w.window.Canvas().SetOnTypedKey(w.strayKey)
	w.window.Canvas().SetOnTypedRune(w.strayRune)
	w.window.SetMainMenu(w.menu())
	w.window.SetCloseIntercept(w.close)
	w.window.SetOnDropped(w.dropped)
	w.app.Lifecycle().SetOnEnteredForeground(w.files.CheckDisk)
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
	w.down = split.Down(onPlan, container.NewStack(w.strip, w.margins))
	w.down.Offset = strip
	w.folded = newFoldedFoot(w.focusStrip)
	w.drawer = w.newDrawer(container.NewBorder(nil, w.folded, nil, nil, w.down))
	w.across = split.Across(w.drawer.Place, w.card)
	w.across.Offset = card
	w.left = split.Across(w.newColumn(), w.across)
	w.left.Offset = w.settings.Equipment()
	w.top = panel.NewTopLine(w.overview, w.title)
	top := container.NewVBox(w.top, widget.NewSeparator())
	w.body = container.NewBorder(top, nil, nil, nil, w.left)
	w.window.SetContent(container.NewStack(w.body, w.day, w.sign.Layer, w.tips.Layer))
}

func (w *window) heard(e desk.Event) {
	if !e.Opened && (e.Selection || e.PlanChanged()) && !w.unread { // what was said is of another moment
		w.notice.Clear()
	}
	w.unread = false
	w.preview = text.Preview{}
	if e.Opened {
		w.preferences.ForgetLevels()
	}
	w.refresh(e)
	if !e.Opened {
		if said := strings.TrimSpace(text.Belonging(e.Old, e.New) + " " + w.takenBack(e)); said != "" {
			w.notice.Say(said)
		}
	}
	w.files.TellTrouble()
	if e.PlanChanged() || e.File || e.Opened {
		w.window.SetMainMenu(w.menu())
	}
}

// refresh shows what an event changed: title and overview follow the plan, card and strip the selection too.
func (w *window) refresh(e desk.Event) {
	w.title.Say(w.desk.Plan().Settings.Name, w.desk.Title())
	w.window.SetTitle(w.windowTitle())
	if e.PlanChanged() || e.Opened {
		w.tellWhole(e.Assessment)
		if e.Opened {
			w.equipment.Ask()
		}
		w.equipment.SetPlan(e.New)
	}
	w.stock.Set(w.desk.Plan(), w.units())
	w.drawer.Refresh(e)
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
	w.showFoot(len(run.Parts) > 0 || run.Title != "")
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
	w.drawer.GiveBack()
	w.plan.Reveal(ref)
	w.window.Canvas().Focus(w.plan)
}
