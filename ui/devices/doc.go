// Package devices holds what is done to devices and positions: they are put on the plan or into the list, carried there by the
// pointer, gathered, arranged, taken off. It knows a host and the ground that devices are put on, not the window.
package devices

import (
	"fyne.io/fyne/v2"

	"stageloom/model/catalogue"
	"stageloom/model/geom"
	"stageloom/model/house"
	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/pointer"
)

// Dialogs are those of devices and positions, with what they ask of the window beside what every dialog does.
type Dialogs struct {
	dialogs.Host
	// Ground is the plan as it is drawn.
	Ground Ground
	// Sign names a kind that the pointer carries.
	Sign *pointer.Sign
	// Library holds the user's own kinds, which MakeKind makes one more of, from the kind of a device.
	Library  func() house.Library
	MakeKind func(plan.DeviceID)
	// ShowKinds lists the kinds of a plan, the catalogue and the user; InList reports whether it puts what is new into the list
	// alone.
	ShowKinds func(*plan.Plan, []catalogue.DeviceKind)
	InList    func() bool
	// Do makes an edit of the plan as one step and tells why when it is refused; Refused only tells. WarnAlso keeps what is
	// being told, Clear takes it away.
	Do       func(name string, edit func(*plan.Edit) error)
	Refused  func(error)
	WarnAlso func(words string)
	Clear    func()
	// Taken tells which devices a new position took in.
	Taken func(position string, devices []plan.DeviceID)

	own []catalogue.DeviceKind
}

// Ground is what devices are put on.
type Ground interface {
	// View is the part of the ground that is shown, Middle the place in the middle of it.
	View() picture.View
	Middle() geom.Point
	// MetresAt is the ground under a place of the window, and whether the plan is there; PlaceOf is the way back.
	MetresAt(fyne.Position) (geom.Point, bool)
	PlaceOf(geom.Point) fyne.Position
	// Snapped is the nearest place that places snap to.
	Snapped(geom.Point) geom.Point
	// Reveal brings a row into view and selects it.
	Reveal(plan.Ref)
}
