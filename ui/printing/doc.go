// Package printing holds the dialogs that hand a plan out: as a print, as a spreadsheet, as a revision.
package printing

import (
	"net/url"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/report"
	"stageloom/ui/dialogs"
	"stageloom/ui/pointer"
)

// Dialogs are those that hand a plan out, with what they ask of the window beside what every dialog does.
type Dialogs struct {
	dialogs.Host
	// Tips makes tips for a dialog.
	Tips func() *pointer.Tips
	// Library is the house's, of whose stock lists are printed.
	Library func() house.Library
	// OpenURL shows a file in the program that the desktop has for it.
	OpenURL func(*url.URL) error
	// Do makes a step, and tells where it is refused.
	Do func(name string, edit func(*plan.Edit) error)

	last []report.Pack // printed last in this window
}
