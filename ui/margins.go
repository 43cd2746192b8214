package ui

import (
	"cmp"
	"slices"

	"stageloom/model/words"
	"stageloom/ui/strip"
	"stageloom/ui/text"
)

// marginBars lists every graded link by its margin of this moment, the least first; those without one are last.
func (w *window) marginBars() (bars []strip.Bar) {
	for link := range w.desk.Plan().Links.All() {
		b, found := text.BudgetOf(w.desk.Assessment(), link.ID, w.preview)
		if found && b.Graded && !link.IsSpare() {
			bars = append(bars, strip.Bar{Link: link.ID, Name: link.Name, Standing: b.Standing(), MarginDB: b.MarginDB, WantedDB: b.WantedDB, Known: b.HasMargin()})
		}
	}
	slices.SortStableFunc(bars, func(x, y strip.Bar) int {
		if x.Known != y.Known {
			if x.Known {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(x.MarginDB, y.MarginDB), words.Natural(x.Name, y.Name))
	})
	return bars
}

// showFoot shows the run of the selected link at the foot, or the margins of all while none is selected.
func (w *window) showFoot(run bool) {
	if run {
		w.margins.Hide()
		w.strip.Show()
		return
	}
	w.margins.Set(w.marginBars())
	w.strip.Hide()
	w.margins.Show()
}

// focusStrip gives the keys to what is at the foot.
func (w *window) focusStrip() {
	w.leaveDay()
	if w.margins.Visible() {
		w.window.Canvas().Focus(w.margins)
		return
	}
	w.window.Canvas().Focus(w.strip)
}
