// Package files holds the dialogs of plan files: opened, saved, recovered, taken over from another window, and what new
// plans begin with.
package files

import (
	"stageloom/model/house"
	"stageloom/ui/dialogs"
	"stageloom/ui/settings"
)

// Notice is the line of the window that tells what was done, as far as files ask it.
type Notice interface {
	// Text is what it says, blank where nothing; Clear takes that away.
	Text() string
	Clear()
}

// Dialogs are those of files, with what they ask of the window beside what every dialog does.
type Dialogs struct {
	dialogs.Host
	// Settings hold the files used last, and what new plans begin with.
	Settings *settings.Settings
	Notice   Notice
	// Library holds the house's stock, which lends plans its cables; nil for none.
	Library func() house.Library
	// Opened is called after a file was put on the desk.
	Opened func()

	// trouble with the journal that was told last.
	trouble string
}
