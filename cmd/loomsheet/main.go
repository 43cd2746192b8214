// Loomsheet is Stageloom without a window: it reckons chains of cable, checks plan files, mends them and prints their
// cable schedules. It exits with 0 when all is well, 1 when something stops the show, and 2 when it could not do what it
// was asked, with one sentence on standard error that says what is wrong, where, and what to do.
package main

import (
	"io"
	"os"
	"strings"
)

// What the program exits with.
const (
	clean    = 0 // all is well
	stopped  = 1 // a plan holds something that stops the show
	unusable = 2 // bad flags, a file that cannot be used
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run does what the arguments ask and returns what to exit with.
func run(arguments []string, stdout, stderr io.Writer) int {
	var a answer
	if err := a.to(arguments); err != nil {
		a.complain(err)
	}
	if _, err := io.WriteString(stdout, printable(a.text())); err != nil {
		a.complain(err)
	}
	for _, complaint := range a.complaints {
		// A standard error that is gone leaves nobody to tell; the exit code says it all the same.
		_, _ = io.WriteString(stderr, printable("loomsheet: "+complaint+"\n"))
	}
	return a.status
}

// answer gathers what the program has to say, so that nothing is written before all of it is known.
type answer struct {
	page
	complaints []string
	status     int
}

// complain says in one sentence what could not be done.
func (a *answer) complain(err error) {
	a.complaints = append(a.complaints, trueMinus(strings.TrimSpace(err.Error())))
	a.worsen(unusable)
}

// remark says something beside the answer that changes nothing about it.
func (a *answer) remark(text string) { a.complaints = append(a.complaints, trueMinus(text)) }

// worsen raises what the program exits with, never lowers it.
func (a *answer) worsen(status int) { a.status = max(a.status, status) }
