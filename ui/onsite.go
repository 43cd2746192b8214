package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stageloom/model/desk"
	"stageloom/model/plan"
	"stageloom/ui/answers"
	"stageloom/ui/day"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// guardSite has every edit of this window that touches what is laid, joined or tested asked about first, wherever it comes
// from: a drag at its drop, the strip, a table, a form, a fix.
func (w *window) guardSite() { w.desk.SetGuard(w.askOnSite) }

// askOnSite names the links that an edit touches on site and asks; where it touches none, the edit stands.
func (w *window) askOnSite(name string, before, after *plan.Plan, anyway func() error) error {
	lines := text.OnSite(before, after)
	if len(lines) == 0 {
		return nil
	}
	dialogs.AskTouching(w, name, lines, func() {
		if err := anyway(); err != nil {
			w.refused(err)
		}
	})
	return desk.ErrAsked
}

// newDay makes the day view, hidden yet.
func (w *window) newDay() *day.View {
	v := day.New(w.desk.Assessment(), w.units())
	v.Do = w.desk.DoAnyway // its lists name what lies before they take it
	v.Undo = func() string {
		name := w.desk.NextUndo()
		w.undo()
		return name
	}
	v.Shown = func(id plan.LinkID) {
		if id != "" {
			w.desk.Select(plan.Ref{Table: plan.LinksTable, Key: plan.Key(id)})
		}
	}
	v.Leave = w.leaveDay
	v.Key = w.functionKey
	v.Today, v.Now = text.Today, text.Now
	v.ActShown = func() plan.ActID { return w.drawer.ActShown() }
	v.Hide()
	return v
}

// toggleDay shows the day view over the whole window, on the selected link or the first that is not done, or where an input
// is selected the line check; or leaves it.
func (w *window) toggleDay() {
	if w.day.Visible() {
		w.leaveDay()
		return
	}
	if w.selectedInput() != "" {
		w.openLineCheck()
		return
	}
	w.keepTyped()
	var id plan.LinkID
	if links := w.selectedLinks(); len(links) > 0 {
		id = links[0]
	}
	w.showDay()
	w.day.Begin(id)
	w.window.Canvas().Focus(w.day)
}

func (w *window) showDay() {
	w.day.Set(w.desk.Assessment(), w.units())
	w.body.Hide()
	w.day.Show()
}

// leaveDay goes back to the plan, where the link or the input is selected that was shown.
func (w *window) leaveDay() {
	if !w.day.Visible() {
		return
	}
	w.day.Hide()
	w.body.Show()
	if act, input, checking := w.day.Checking(); checking {
		w.leaveLineCheck(act, input)
		return
	}
	if id := w.day.Link(); id != "" {
		w.show(plan.Ref{Table: plan.LinksTable, Key: plan.Key(id)})
		return
	}
	w.window.Canvas().Focus(w.plan)
}

// beforeCommand leaves the day view for a command that works on what lies under it.
func (w *window) beforeCommand(shortcut fyne.Shortcut) {
	if w.day.Visible() && !staysOnDay(shortcut) {
		w.leaveDay()
	}
}

// staysOnDay reports whether a command of the menu is the whole plan's, and needs nothing that the day view hides.
func staysOnDay(shortcut fyne.Shortcut) bool {
	switch s := shortcut.(type) {
	case *fyne.ShortcutUndo, *fyne.ShortcutRedo:
		return true
	case *desktop.CustomShortcut:
		switch s.KeyName {
		case fyne.KeyS:
			return true
		case fyne.KeyP, fyne.KeyQ, fyne.KeyN, fyne.KeyO, fyne.KeyH:
			return s.Modifier == control
		}
	}
	return false
}

// strayKey gets the keys while nothing has the focus, as after a look into the menu.
func (w *window) strayKey(event *fyne.KeyEvent) {
	if w.day.Visible() && len(w.window.Canvas().Overlays().List()) == 0 {
		w.window.Canvas().Focus(w.day)
		w.day.TypedKey(event)
		return
	}
	w.functionKey(event.Name)
}

// strayRune gets the letters while nothing has the focus.
func (w *window) strayRune(r rune) {
	if w.day.Visible() && len(w.window.Canvas().Overlays().List()) == 0 {
		w.window.Canvas().Focus(w.day)
		w.day.TypedRune(r)
	}
}

// takenBack says what an edit takes back of the work on site; the day view says it by itself.
func (w *window) takenBack(e desk.Event) string {
	if w.day.Visible() || !e.PlanChanged() {
		return ""
	}
	return day.TakenBack(e.Old, e.Assessment)
}

func (w *window) dayState() answers.Day {
	if !w.day.Visible() {
		return answers.Day{}
	}
	link, _ := w.desk.Plan().Link(w.day.Link())
	return answers.Day{Link: link.Name, Done: link.Done, Said: w.day.Said(), Cable: w.day.Chosen()}
}
