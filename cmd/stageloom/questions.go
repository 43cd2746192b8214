package main

import (
	"fmt"

	"fyne.io/fyne/v2"

	"stageloom/ui/answers"
)

// listen answers questions of a test on a local socket from the start of the app on.
func listen(a fyne.App, path string, questions *answers.Questions) {
	socket, err := questions.Listen(path, fyne.DoAndWait)
	if err != nil {
		fail("STAGELOOM_QUESTIONS: " + err.Error())
	}
	a.Lifecycle().SetOnStarted(func() { fmt.Println("READY") })
	a.Lifecycle().SetOnStopped(func() { _ = socket.Close() })
}
