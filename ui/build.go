package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/ui/devices"
	"stageloom/ui/laying"
	"stageloom/ui/strip"
	"stageloom/ui/text"
)

// newLaying hands what is done to links and their cables what it asks of the window, and joins the run strip to it.
func (w *window) newLaying() *laying.Dialogs {
	l := &laying.Dialogs{
		Host:         w,
		Strip:        w.strip,
		EnterStrip:   w.focusStrip,
		Ground:       w.plan,
		Sign:         w.sign,
		Do:           w.do,
		Refused:      w.refused,
		Foresee:      w.foresee,
		AddHired:     func(what []cabling.Hire, done func()) { w.stockDialogs.AddHired(what, done) },
		Library:      func() house.Library { return w.library },
		PickFrom:     w.settings.PickFrom,
		KeepPickFrom: w.settings.SetPickFrom,
	}
	w.strip.Do, w.strip.Try, w.strip.Menu, w.strip.Couplers, w.strip.Choose = l.Change, l.Try, l.CableMenu, l.CouplerMenu, l.LayBy
	w.strip.Open = func(c strip.Change) { w.soon(func() { l.LayBy(c) }) }
	w.strip.Leave = func() { w.window.Canvas().Focus(w.plan) }
	w.strip.Key = w.functionKey
	w.margins.Key, w.margins.Leave = w.functionKey, w.strip.Leave
	w.margins.Chosen = func(id plan.LinkID) { w.show(plan.Ref{Table: plan.LinksTable, Key: plan.Key(id)}) }
	return l
}

// newDevices hands what is done to devices and positions what it asks of the window, and joins the list of equipment to it.
func (w *window) newDevices() *devices.Dialogs {
	k := &devices.Dialogs{
		Host:      w,
		Ground:    w.plan,
		Sign:      w.sign,
		Library:   func() house.Library { return w.library },
		MakeKind:  w.stockDialogs.OwnKind,
		ShowKinds: w.equipment.SetKinds,
		InList:    w.equipment.InList,
		Do:        w.do,
		Refused:   w.refused,
		WarnAlso:  w.warnAlso,
		Clear:     w.notice.Clear,
		Taken:     w.tellTaken,
	}
	w.equipment.Place, w.equipment.Carry, w.equipment.Drop = k.Place, k.Carry, k.Drop
	w.equipment.Leave = func() { w.window.Canvas().Focus(w.plan) }
	w.equipment.Key = w.functionKey
	return k
}

// foresee shows figures of links as they would be; without any the plan's again.
func (w *window) foresee(budgets ...budget.Budget) {
	w.preview = text.Preview{Budgets: budgets}
	w.tellWhole(w.desk.Assessment())
	w.showCard()
}

// linkButtons are what one does most to a link, on its card.
func (w *window) linkButtons() fyne.CanvasObject {
	return container.NewGridWithColumns(3,
		widget.NewButton("Lay…", w.laying.LayCable), widget.NewButton("Take off", w.laying.TakeLastOff), widget.NewButton("Curves…", w.showStudy))
}

// do makes an edit of the plan and tells why when it is refused.
func (w *window) do(name string, edit func(*plan.Edit) error) {
	if err := w.desk.Do(name, edit); err != nil {
		w.refused(err)
	}
}

func (w *window) selectedLinks() []plan.LinkID { return w.desk.SelectedLinks() }

func (w *window) selectedDevices() []plan.DeviceID { return w.desk.SelectedDevices() }
