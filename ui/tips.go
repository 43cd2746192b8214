package ui

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/ui/chart"
	"stageloom/ui/pointer"
	"stageloom/ui/text"
)

// afterOf waits and then runs something on the goroutine of the user interface. A driver without a desktop has none, so
// nothing is told there.
func afterOf(app fyne.App) pointer.After {
	if _, real := app.Driver().(desktop.Driver); !real {
		return nil
	}
	return func(wait time.Duration, do func()) func() {
		timer := time.AfterFunc(wait, func() { fyne.Do(do) })
		return func() { timer.Stop() }
	}
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

// soon does something once the event of this moment is over: after a release the toolkit takes the focus from what a
// dialog that it opened gave it to.
func (w *window) soon(do func()) {
	if _, real := w.app.Driver().(desktop.Driver); real {
		go fyne.Do(do)
		return
	}
	do()
}
