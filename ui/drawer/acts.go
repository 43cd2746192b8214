package drawer

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/patch"
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

func (t *Drawer) newActChooser() *actChooser {
	a := &actChooser{}
	a.list = dialogs.NewChooser(t, nil, func(string) {
		if at := a.list.SelectedIndex(); at >= 0 && !a.filling {
			t.ShowAct(a.ids[at])
		}
	})
	a.box = container.NewHBox(widget.NewLabel("Act"), a.list)
	a.box.Hide()
	return a
}

// ActShown is the act that tables and edits of the patch are about: the chosen one as long as it is there, the only act
// of a plan that has one, else the house.
func (t *Drawer) ActShown() plan.ActID {
	shown := t.Desk().Assessment().Patch.Shown()
	for _, act := range shown {
		if now := t.acts.now; act.Act.ID == now {
			return now
		}
	}
	return shown[0].Act.ID
}

// actNow is the patch of the act that is shown.
func (t *Drawer) actNow() *patch.Act {
	act, _ := t.Desk().Assessment().Patch.Act(t.ActShown())
	return act
}

// ShowAct shows another act in the tables of the patch.
func (t *Drawer) ShowAct(id plan.ActID) {
	if id == t.ActShown() || !t.Keep() {
		t.listActs()
		return
	}
	t.acts.now = id
	t.listActs()
	t.Fill()
	t.ActChanged()
}

// HideUnused leaves out of the tables of the patch what the house has and the act that is shown does not use, or shows it
// again.
func (t *Drawer) HideUnused() {
	if !t.Keep() {
		return
	}
	hide := !t.Settings.UnusedHidden()
	t.Settings.SetUnusedHidden(hide)
	t.Fill()
	t.ActChanged()
	if hide {
		t.Say("What the house has and an act does not use is hidden in the tables of the patch.")
		return
	}
	t.Say("The tables of the patch show all that the house has.")
}

// listActs brings the chooser up to the plan and to the table that is open.
func (t *Drawer) listActs() {
	a, shown := t.acts, t.Desk().Assessment().Patch.Shown()
	sheet, _ := sources.Named(t.open)
	a.filling = true
	a.ids = nil
	a.list.Options = nil
	at := 0
	for i, act := range shown {
		if act.Act.ID == t.ActShown() {
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
	if grid := t.grid(); grid != nil {
		grid.SetBeside(a.box)
	}
}

// NextAct goes on in the running list, from the last act to the house again.
func (t *Drawer) NextAct(by int) {
	shown := t.Desk().Assessment().Patch.Shown()
	if len(shown) < 2 {
		t.Say("There is one patch for the whole show. Acts are begun in the table of acts.")
		return
	}
	for i, act := range shown {
		if act.Act.ID == t.ActShown() {
			next := shown[(i+by+len(shown))%len(shown)]
			t.ShowAct(next.Act.ID)
			if !t.acts.box.Visible() {
				t.Say("The patch is that of " + text.ActLabel(next) + " now.")
			}
			return
		}
	}
}
