package ui

import (
	"context"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// noticeable is how long a person waits without being told what for.
const noticeable = 100 * time.Millisecond

// busy does work beside the window and hands its error to done. Where it takes long enough to be noticed, it says what is
// being done and lets it be given up: then the context ends.
func (w *window) busy(what string, work func(context.Context) error, done func(error)) {
	ctx, stop := context.WithCancel(context.Background())
	finished := make(chan error, 1)
	go func() { finished <- work(ctx) }()
	select {
	case err := <-finished:
		stop()
		done(err)
		return
	case <-time.After(noticeable):
	}
	bar := widget.NewProgressBarInfinite()
	d := dialog.NewCustomWithoutButtons(what, bar, w.window)
	d.SetButtons([]fyne.CanvasObject{w.newAnswer("Cancel", stop)})
	d.Resize(fyne.NewSize(360, 140))
	w.escapable(stop)
	d.Show()
	go func() {
		err := <-finished
		stop()
		fyne.Do(func() {
			bar.Stop()
			d.Hide()
			done(err)
		})
	}()
}
