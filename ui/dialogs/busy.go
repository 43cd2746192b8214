package dialogs

import (
	"context"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Noticeable is how long a person waits without being told what for.
const Noticeable = 100 * time.Millisecond

// Busy does work beside the window and hands its error to done. Where it takes long enough to be noticed, it says what is
// being done and lets it be given up: then the context ends.
func Busy(host Host, what string, work func(context.Context) error, done func(error)) {
	ctx, stop := context.WithCancel(context.Background())
	finished := make(chan error, 1)
	go func() { finished <- work(ctx) }()
	select {
	case err := <-finished:
		stop()
		done(err)
		return
	case <-time.After(Noticeable):
	}
	bar := widget.NewProgressBarInfinite()
	d := New(host, what, bar)
	d.SetButtons([]fyne.CanvasObject{NewAnswer(host, "Cancel", stop)})
	d.Fit(QuestionWidth, 0)
	host.Keys().Escapable(stop)
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
