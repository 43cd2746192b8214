package devices

import (
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// OwnKind makes a kind of the user's own from that of the selected device, which becomes of it.
func (k *Dialogs) OwnKind() {
	devices := k.Desk().SelectedDevices()
	if len(devices) != 1 {
		k.Say("Select one device to make a kind of your own from its kind.")
		return
	}
	k.MakeKind(devices[0])
}

// ListKinds reads the user's own kinds and shows them with those of plan and catalogue.
func (k *Dialogs) ListKinds() {
	own, err := k.Library().Kinds()
	if err != nil {
		k.WarnAlso(words.Sentence(err))
	}
	k.own = own
	k.ShowKinds(k.Desk().Plan(), own)
}

// OwnKinds are the user's own kinds as they were read last.
func (k *Dialogs) OwnKinds() []catalogue.DeviceKind { return k.own }

// Use copies a kind into the plan from the user's library or from the catalogue.
func (k *Dialogs) Use(e *plan.Edit, id plan.KindID) error { return catalogue.UseKind(e, k.own, id) }
