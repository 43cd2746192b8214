package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/catalogue"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/ui/panel"
	"stageloom/ui/split"
	"stageloom/ui/stock"
	"stageloom/ui/strip"
	"stageloom/ui/text"
)

// newStockDialogs hands the dialogs of the stock what they ask of the window.
func (w *window) newStockDialogs() *stock.Dialogs {
	return &stock.Dialogs{
		Host:         w,
		Library:      func() house.Library { return w.library },
		Chosen:       func() (text.StockRow, bool) { return w.stock.Selected() },
		OwnKinds:     func() []catalogue.DeviceKind { return w.devices.OwnKinds() },
		UseKind:      func(e *plan.Edit, id plan.KindID) error { return w.devices.Use(e, id) },
		KindsChanged: func() { w.devices.ListKinds() },
		Refused:      w.refused,
		Lay:          func(offer text.CableOffer) { w.laying.LayOffered(offer) },
		ActShown:     func() plan.ActID { return w.drawer.ActShown() },
		Columns:      w.settings,
		Replace:      func(order int) { w.laying.LayBy(strip.Change{Doing: strip.Replace, Order: order}) },
	}
}

// askHouseLine asks for a new house line like the one selected link.
func (w *window) askHouseLine(made func(plan.Ref)) {
	var link plan.LinkID
	if links := w.selectedLinks(); len(links) == 1 {
		link = links[0]
	}
	w.stockDialogs.AskHouseLine(link, made)
}

// newColumn puts the equipment above the stock.
func (w *window) newColumn() fyne.CanvasObject {
	w.stock = panel.NewStockList(w.desk.Plan(), func() { w.stockDialogs.AddReels(w.stockDialogs.OfPlan()) })
	w.stock.Lay, w.stock.Carry, w.stock.Drop = w.laying.LayOffered, w.laying.CarryCable, w.laying.DropCable
	w.stock.Menu, w.stock.Tips = w.reelMenu, w.tips
	w.stock.Leave = func() { w.window.Canvas().Focus(w.plan) }
	w.stock.Key = w.functionKey
	w.stock.None = func(row text.StockRow) {
		if row.Faulty {
			w.notice.Say(row.Name + " is faulty and stays out of the show. Right click says what can be done with it.")
			return
		}
		if row.Away != "" && row.Left == 0 {
			w.notice.Say("Nothing of " + row.Name + " can be laid: what links do not hold is not there. It " + row.Away + ".")
			return
		}
		w.notice.Say("Nothing of " + row.Name + " is left: links hold all of them.")
	}
	w.column = split.Down(w.equipment, w.stock)
	w.column.Offset = w.settings.Stock()
	return w.column
}

// stockMenu is what can be done to the stock as a whole.
func (w *window) stockMenu() *fyne.Menu {
	return fyne.NewMenu("Stock",
		w.item("Pick cables…", key(fyne.KeyM, control), w.laying.PickCables),
		w.item("What can replace this cable…", key(fyne.KeyY, control|shift), w.laying.OfferReplacements),
		fyne.NewMenuItemSeparator(),
		w.item("Find a cable of the stock", key(fyne.KeyE, control|shift), func() { w.stock.Focus(w.window.Canvas()) }),
		w.item("Add reels…", key(fyne.KeyN, control|shift), func() { w.stockDialogs.AddReels(w.stockDialogs.OfPlan()) }),
		w.item("Own kind of cable…", nil, w.stockDialogs.OwnCable),
		w.item("Edit reel…", key(fyne.KeyI, control|shift), func() {
			w.stockDialogs.OnReel("Edit…", func(id plan.ReelID) { w.stockDialogs.EditReel(w.stockDialogs.OfPlan(), id) })
		}),
		w.item("Mark reel faulty…", key(fyne.KeyM, control|shift), func() { w.stockDialogs.OnReel("Mark faulty…", w.stockDialogs.MarkFaulty) }),
		w.item("Take reel out of the stock…", nil, func() { w.stockDialogs.OnReel("Take out", w.stockDialogs.RemoveReel) }),
		fyne.NewMenuItemSeparator(),
		w.item("Import a stock list…", key(fyne.KeyO, control|shift), func() { w.stockDialogs.ImportStock(w.stockDialogs.OfPlan(), "") }),
		w.item("Export the stock…", key(fyne.KeyX, control|shift), func() { w.stockDialogs.Export(w.stockDialogs.OfPlan()) }),
		w.item("Import an input list…", nil, w.stockDialogs.ImportInputs),
		fyne.NewMenuItemSeparator(),
		w.item("House stock…", key(fyne.KeyH, control|shift), w.stockDialogs.ShowHouse),
		w.item("House lists…", nil, w.printing.HouseLists),
	)
}

// reelMenu is what can be done to a line of the stock list.
func (w *window) reelMenu(row text.StockRow, at fyne.Position) {
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", w.stockDialogs.ReelItems(row)...), w.window.Canvas(), at)
}
