package planfile

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"stageloom/model/plan"
)

// Fault is one thing in a file that cannot be read.
type Fault struct {
	// Line counts from 1; 0 where the fault has no line.
	Line int
	// Place is a JSON Pointer (RFC 6901), e.g. "/devices/0/x_m"; blank for the file as a whole.
	Place string
	// Reason goes on from the place: "is 12 km, but must be a number".
	Reason string
}

// String says the fault with its place.
func (f Fault) String() string {
	switch {
	case f.Line == 0:
		return f.said()
	case f.Place == "":
		return fmt.Sprintf("line %d: %s", f.Line, f.said())
	}
	return fmt.Sprintf("line %d, %s %s", f.Line, plan.ClippedTo(f.Place, longestPlace), f.said())
}

// said is the reason, in bounds whatever it quotes.
func (f Fault) said() string { return plan.ClippedTo(f.Reason, longestReason) }

// The most signs of a place and of a reason in a message; what the program says of itself is always shorter.
const longestPlace, longestReason = 120, 400

// Unreadable is the error of a file that is not a plan, or not one that can stand.
type Unreadable struct {
	// Name is the file's name, or blank.
	Name string
	// Faults are in the order of the file, at least one.
	Faults []Fault
	// Remedy says what to do.
	Remedy string
	// Repairable is true when Repair makes a plan of the file by leaving out what cannot stand.
	Repairable bool
	// Newer is true when a newer Stageloom made the file; nothing is wrong with it.
	Newer bool
}

// mostTold is how many faults a message names; mostKept is how many are gathered at all.
const (
	mostTold = 3
	mostKept = 100
)

// Error names the first faults and says what to do.
func (u *Unreadable) Error() string {
	var b strings.Builder
	if u.Name == "" {
		b.WriteString("the plan")
	} else {
		b.WriteString(u.Name)
	}
	b.WriteString(" cannot be read: ")
	for i, fault := range u.Faults {
		if i == mostTold {
			fmt.Fprintf(&b, " (and %d more)", len(u.Faults)-i)
			break
		}
		if i > 0 {
			b.WriteString("; ")
		}
		b.WriteString(fault.String())
	}
	b.WriteString(". " + u.Remedy + ".")
	return b.String()
}

const (
	remedyEdit   = "Put it right in a text editor, or go back to an older copy"
	remedyCopy   = "Go back to an older copy"
	remedyRepair = "A repaired copy can be made that leaves out what cannot stand and lists it; or put it right in a text editor"
	remedyUpdate = "Update Stageloom to read it, or ask for a copy saved by your edition"
	remedyOther  = "Choose a file whose name ends in .stageloom"
	remedyMerge  = "Choose one side for every marked part and delete the marker lines"
)

// named puts the file's name into the error of a reading.
func named(err error, name string) error {
	var unreadable *Unreadable
	if errors.As(err, &unreadable) {
		unreadable.Name = name
	}
	return err
}

// lineOf counts from 1.
func lineOf(data []byte, at int) int {
	return 1 + bytes.Count(data[:min(max(at, 0), len(data))], []byte{'\n'})
}
