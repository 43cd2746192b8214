package looptest_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"stageloom/ui/looptest"
)

// The count is the test's alone: under the race detector this fails where a driver does things in place.
func TestWhatIsHandedOverWaitsForATurn(t *testing.T) {
	app := looptest.NewApp(t)
	count, handed := 0, make(chan struct{})
	go func() {
		fyne.Do(func() {
			count++
			go fyne.Do(func() { count++ })
		})
		close(handed)
	}()
	<-handed
	require.Zero(t, count, "nothing is done beside the test")
	app.Turn()
	require.NotZero(t, count)
	app.Until(t, "what came of it is done too", func() bool { return count == 2 })
}

func TestWhoWaitsIsServedAtOnce(t *testing.T) {
	looptest.NewApp(t)
	done := false
	fyne.CurrentApp().Driver().DoFromGoroutine(func() { done = true }, true)
	require.True(t, done)
}
