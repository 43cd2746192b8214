// Package patching changes the patch from the window: what is selected in a table of the patch, what is dragged there, and
// the dialogs for inputs plugged in order, for the patch of a device moved to another, and for what is done to all acts on the
// show day, with a preview.
package patching

import (
	"fyne.io/fyne/v2"

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
	// Chosen is what the open table has selected, where it is one of the patch; Keep keeps what is being typed there, and
	// reports whether it could be read.
	Chosen func() (Chosen, bool)
	Keep   func() bool
	// Rows are the rows that are selected in the open table: inputs, outputs, or what is none of them.
	Rows func() []plan.Ref
	// Leave gives the keys back to the table.
	Leave func()
	// Do makes a step, or says why it is refused.
	Do func(name string, edit func(*plan.Edit) error)
	// RowAt is what is drawn at a place of the window.
	RowAt func(at fyne.Position) (plan.Ref, bool)
	// Carry shows under the pointer what is dragged, Hide takes that away.
	Carry func(words string, at fyne.Position)
	Hide  func()
}

// actNow is the patch of the act that is shown.
func (p *Dialogs) actNow() *patch.Act {
	act, _ := p.Desk().Assessment().Patch.Act(p.ActShown())
	return act
}
