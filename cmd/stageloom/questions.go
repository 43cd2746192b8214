package main

import (
	"bufio"
	"fmt"
	"net"
	"os"

	"fyne.io/fyne/v2"

	"stageloom/ui"
)

// listen answers questions of a test on a local socket, one line for one line, from the start of the app on.
func listen(a fyne.App, path string, questions *ui.Questions) {
	_ = os.Remove(path) // one that a killed run left
	listener, err := net.Listen("unix", path)
	if err != nil {
		fail("The socket of STAGELOOM_QUESTIONS cannot be made: " + err.Error())
	}
	a.Lifecycle().SetOnStarted(func() { fmt.Println("READY") })
	a.Lifecycle().SetOnStopped(func() { _ = listener.Close() })
	go func() {
		for {
			connection, err := listener.Accept()
			if err != nil {
				return
			}
			go answer(connection, questions)
		}
	}()
}

func answer(connection net.Conn, questions *ui.Questions) {
	defer connection.Close()
	lines := bufio.NewScanner(connection)
	for lines.Scan() {
		var reply []byte
		fyne.DoAndWait(func() { reply = questions.Answer(lines.Bytes()) })
		if _, err := connection.Write(append(reply, '\n')); err != nil {
			return
		}
	}
}
