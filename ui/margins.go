package ui

import (
	"cmp"
	"fmt"
	"slices"

	"fyne.io/fyne/v2/widget"

	"stageloom/model/budget"
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

// newFoldedFoot is the line that the foot is folded to; a press on it brings the foot back.
func newFoldedFoot(open func()) *widget.Button {
	b := widget.NewButton("", open)
	b.Importance, b.Alignment = widget.LowImportance, widget.ButtonAlignLeading
	b.Hide()
	return b
}

// foldedWords say in a line what the folded foot shows.
func foldedWords(bars []strip.Bar) string {
	switch {
	case len(bars) == 0:
		return "No link is graded yet   F6"
	case !bars[0].Known:
		return words.Counted(len(bars), "graded link", "graded links") + ", none with a margin yet   F6"
	}
	least := bars[0]
	return fmt.Sprintf("Margins of %s, the least %s %s   F6", words.Counted(len(bars), "link", "links"), least.Name, budget.TenthDB(least.MarginDB)+" dB")
}

// foldFoot folds the foot to a line, or brings it back.
func (w *window) foldFoot(fold bool) {
	if fold {
		w.folded.SetText(foldedWords(w.margins.Bars()))
	}
	if fold == w.folded.Visible() {
		return
	}
	if fold {
		w.folded.Show()
		w.down.Trailing.Hide()
	} else {
		w.folded.Hide()
		w.down.Trailing.Show()
	}
	w.down.Refresh()
	w.drawer.LayAbove()
}

// showFoot shows the run of the selected link at the foot, or the margins of all while none is selected; with a table open,
// those are a line.
func (w *window) showFoot(run bool) {
	defer func() { w.foldFoot(!run && w.drawer.Open() && !w.footWanted) }()
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
	w.drawer.GiveBack()
	if w.folded.Visible() {
		w.footWanted = true
		w.foldFoot(false)
	}
	if w.margins.Visible() {
		w.window.Canvas().Focus(w.margins)
		return
	}
	w.window.Canvas().Focus(w.strip)
}
