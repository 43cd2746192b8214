// Package stock holds the dialogs of the stock, of the house and of the venue's lines: reels that are added, edited, marked
// faulty and exported, lists that are imported, kinds of the user's own.
package stock

import (
	"time"

	"stageloom/model/catalogue"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// Dialogs are those of the stock, with what they ask of the window beside what every dialog does.
type Dialogs struct {
	dialogs.Host
	// Library holds the user's own kinds and the stock of the house.
	Library func() house.Library
	// Chosen is the line under the hand in the stock list.
	Chosen func() (text.StockRow, bool)
	// OwnKinds are the user's own kinds of device, UseKind copies a kind into a plan, KindsChanged is called after the library
	// got one.
	OwnKinds     func() []catalogue.DeviceKind
	UseKind      func(*plan.Edit, plan.KindID) error
	KindsChanged func()
	// Lay lays a cable of the list on the selected link; Refused says why a step was refused.
	Lay     func(text.CableOffer)
	Refused func(error)
	// ActShown is the act that the tables of the patch show.
	ActShown func() plan.ActID
	// Columns keeps what the columns of lists mean.
	Columns Columns
	// Replace asks for another cable in the place of one of the selected link.
	Replace func(order int)
	// Ticks says when the dialog of the house looks whether its stock was changed elsewhere; nil is each second.
	Ticks func() (ticks <-chan time.Time, stop func())

	kept keptChoices
}
