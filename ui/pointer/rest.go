package pointer

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// AtRest is how long nothing has happened when work for the next gesture is done ahead of it.
const AtRest = 180 * time.Millisecond

// hasLoop reports whether a driver has a goroutine of its own for the user interface; one without a desktop has none, so
// what waits is not run there.
func hasLoop(app fyne.App) bool {
	_, real := app.Driver().(desktop.Driver)
	return real
}

// AfterOf waits and then runs something on the goroutine of the user interface; nil without a desktop.
func AfterOf(app fyne.App) After {
	if !hasLoop(app) {
		return nil
	}
	return func(wait time.Duration, do func()) func() {
		timer := time.AfterFunc(wait, func() { fyne.Do(do) })
		return func() { timer.Stop() }
	}
}

// Later runs what is given to it when the window has been at rest for a moment; nil without a desktop.
func Later(app fyne.App) func(func()) {
	after := AfterOf(app)
	if after == nil {
		return nil
	}
	return func(do func()) { after(AtRest, do) }
}

// Soon does something once the event of this moment is over: after a release the toolkit takes the focus from what a
// dialog that it opened gave it to. Without a desktop it is done at once.
func Soon(app fyne.App, do func()) {
	if hasLoop(app) {
		go fyne.Do(do)
		return
	}
	do()
}
