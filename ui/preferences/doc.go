// Package preferences holds the dialogs that say how plans are shown, what of them is left out, and how new plans begin. No
// figure of an open plan follows from any of it.
package preferences

import (
	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/settings"
)

// Dialogs are those of the preferences, with what they ask of the window beside what every dialog does.
type Dialogs struct {
	dialogs.Host
	// Settings keep what is chosen.
	Settings *settings.Settings
	// Changed is called after units or dragging were chosen, LabelsChanged after what labels of links say; SetLook is what
	// chooses a look.
	Changed       func()
	LabelsChanged func()
	SetLook       func(name string)
	// Draw draws the plan without what is hidden, with a note in its corner that says so.
	Draw func(leftOut picture.LeftOut, note string)
	// Leave gives the keys to the plan.
	Leave func()

	// hiddenLevels are levels that are not shown at all.
	hiddenLevels map[plan.LevelID]bool
}
