package ui

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// atRest is how long nothing has happened when work for the next gesture is done ahead of it.
const atRest = 180 * time.Millisecond

// later runs what is given to it when the window has been at rest for a moment. A driver without a desktop has no
// goroutine of its own for the user interface, so nothing runs there.
func later(app fyne.App) func(func()) {
	if _, real := app.Driver().(desktop.Driver); !real {
		return nil
	}
	return func(do func()) { time.AfterFunc(atRest, func() { fyne.Do(do) }) }
}
