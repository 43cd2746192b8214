package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/table/sources"
	"stageloom/ui/text"
)

// actChooser says which act the tables of the patch show; it is there only where the plan has several.
type actChooser struct {
	now     plan.ActID
	box     *fyne.Container
	list    *dialogs.Chooser
	ids     []plan.ActID
	filling bool
}

func (w *window) newActChooser() *actChooser {
	a := &actChooser{}
	a.list = dialogs.NewChooser(w, nil, func(string) {
		if at := a.list.SelectedIndex(); at >= 0 && !a.filling {
			w.showAct(a.ids[at])
		}
	})
	a.box = container.NewHBox(widget.NewLabel("Act"), a.list)
	a.box.Hide()
	return a
}

// actShown is the act that tables and edits of the patch are about: the chosen one as long as it is there, the only act
// of a plan that has one, else the house.
func (w *window) actShown() plan.ActID {
	shown := w.desk.Assessment().Patch.Shown()
	for _, act := range shown {
		if now := w.tables.acts.now; act.Act.ID == now {
			return now
		}
	}
	return shown[0].Act.ID
}

// showAct shows another act in the tables of the patch.
func (w *window) showAct(id plan.ActID) {
	if grid := w.tables.grid(); id == w.actShown() || grid != nil && !grid.Keep() {
		w.listActs()
		return
	}
	w.tables.acts.now = id
	w.listActs()
	w.tables.outdate()
	w.tables.fill()
	w.window.SetMainMenu(w.menu())
}

// listActs brings the chooser up to the plan and to the table that is open.
func (w *window) listActs() {
	a, shown := w.tables.acts, w.desk.Assessment().Patch.Shown()
	sheet, _ := sources.Named(w.tables.open)
	a.filling = true
	a.ids = nil
	a.list.Options = nil
	at := 0
	for i, act := range shown {
		if act.Act.ID == w.actShown() {
			at = i
		}
		a.ids = append(a.ids, act.Act.ID)
		a.list.Options = append(a.list.Options, text.ActLabel(act))
	}
	a.list.SetSelectedIndex(at)
	a.list.Refresh()
	a.filling = false
	if sheet.Acts && len(shown) > 1 {
		a.box.Show()
	} else {
		a.box.Hide()
	}
	if grid := w.tables.grid(); grid != nil {
		grid.SetBeside(a.box)
	}
}

// nextAct goes on in the running list, from the last act to the house again.
func (w *window) nextAct(by int) {
	shown := w.desk.Assessment().Patch.Shown()
	if len(shown) < 2 {
		w.notice.Say("There is one patch for the whole show. Acts are begun in the table of acts.")
		return
	}
	for i, act := range shown {
		if act.Act.ID == w.actShown() {
			next := shown[(i+by+len(shown))%len(shown)]
			w.showAct(next.Act.ID)
			if !w.tables.acts.box.Visible() {
				w.notice.Say("The patch is that of " + text.ActLabel(next) + " now.")
			}
			return
		}
	}
}
