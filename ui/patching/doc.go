// Package patching holds the dialogs of the patch: inputs plugged in order, and the patch of a device moved to another.
package patching

import (
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
)

// Chosen is what the open table of the patch has selected.
type Chosen struct {
	// Inputs in the order shown, Sockets where the table lists those.
	Inputs  []plan.InputID
	Sockets []patch.Socket
	// Console is the one in whose column the cursor stands, if it stands in one.
	Console plan.DeviceID
}

// Dialogs are those of the patch, with what they ask of the window beside what every dialog does.
type Dialogs struct {
	dialogs.Host
	// ActShown is the act that the tables of the patch show.
	ActShown func() plan.ActID
	// Listed are the inputs of the open table, as it is sorted and filtered.
	Listed func() []plan.InputID
	// ChannelsFollow reports whether channels stay with inputs that move.
	ChannelsFollow func() bool
	// Leave gives the keys back to the table.
	Leave func()
}

// actNow is the patch of the act that is shown.
func (p *Dialogs) actNow() *patch.Act {
	act, _ := p.Desk().Assessment().Patch.Act(p.ActShown())
	return act
}
