package ui

import (
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// ownKind makes a kind of the user's own from that of the selected device, which becomes of it.
func (w *window) ownKind() {
	devices := w.selectedDevices()
	if len(devices) != 1 {
		w.notice.Say("Select one device to make a kind of your own from its kind.")
		return
	}
	w.stockDialogs.OwnKind(devices[0])
}

// listEquipment shows the kinds of catalogue, plan and library.
func (w *window) listEquipment() {
	own, err := w.library.Kinds()
	if err != nil {
		w.warnAlso(words.Sentence(err))
	}
	w.ownKinds = own
	w.equipment.SetKinds(w.desk.Plan(), own)
}

// use copies a kind into the plan from the catalogue or from the user's library.
func (w *window) use(e *plan.Edit, id plan.KindID) error {
	for _, kind := range w.ownKinds {
		if kind.Kind.ID == id {
			kind.Put(e)
			return nil
		}
	}
	return catalogue.Use(e, id)
}
