package answers

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"os"
)

// Listen answers questions on a local socket of that path until it is closed. Each is answered inside of onScreen, which
// runs what it is given on the goroutine of the user interface and waits for it.
func (q *Questions) Listen(path string, onScreen func(func())) (io.Closer, error) {
	_ = os.Remove(path) // one that a killed run left
	listener, err := net.Listen("unix", path)
	if err != nil {
		return nil, fmt.Errorf("socket for questions: %w", err)
	}
	go func() {
		for {
			connection, err := listener.Accept()
			if err != nil {
				return
			}
			go q.serve(connection, onScreen)
		}
	}()
	return listener, nil
}

func (q *Questions) serve(connection net.Conn, onScreen func(func())) {
	defer connection.Close()
	lines := bufio.NewScanner(connection)
	for lines.Scan() {
		var reply []byte
		onScreen(func() { reply = q.Answer(lines.Bytes()) })
		if _, err := connection.Write(append(reply, '\n')); err != nil {
			return
		}
	}
}
