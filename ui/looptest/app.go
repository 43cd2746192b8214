package looptest

import (
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// App is an app of the toolkit's test driver whose user interface has one goroutine: the test's.
type App struct {
	fyne.App
	mutex   sync.Mutex
	waiting []func()
	came    chan struct{} // holds one thing once something waits
}

// NewApp returns an app for one test. What is still handed over when the test has ended is never run.
func NewApp(t testing.TB) *App {
	t.Helper()
	a := &App{App: test.NewApp(), came: make(chan struct{}, 1)}
	fyne.SetCurrentApp(a)
	return a
}

// Driver returns the test driver with a loop.
func (a *App) Driver() fyne.Driver { return driver{a.App.Driver(), a} }

type driver struct {
	fyne.Driver
	app *App
}

// DoFromGoroutine hands something over to the test's next turn. A caller that waits for it is a part of the toolkit on
// the test's own goroutine: it is served at once.
func (d driver) DoFromGoroutine(do func(), wait bool) {
	if wait {
		do()
		return
	}
	d.app.mutex.Lock()
	d.app.waiting = append(d.app.waiting, do)
	d.app.mutex.Unlock()
	select {
	case d.app.came <- struct{}{}:
	default:
	}
}

// Turn does what was handed over so far, in order, and what comes of it.
func (a *App) Turn() {
	for {
		a.mutex.Lock()
		waiting := a.waiting
		a.waiting = nil
		a.mutex.Unlock()
		if len(waiting) == 0 {
			return
		}
		for _, do := range waiting {
			do()
		}
	}
}

// patience is how long a test waits for work beside the window before it says that none came.
const patience = time.Minute

// Until takes turns until something is so, and fails the test when it never is.
func (a *App) Until(t testing.TB, what string, so func() bool) {
	t.Helper()
	end := time.After(patience)
	for {
		a.Turn()
		if so() {
			return
		}
		select {
		case <-a.came:
		case <-end:
			t.Fatalf("waited in vain: %s", what)
		}
	}
}
