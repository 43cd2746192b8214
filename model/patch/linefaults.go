package patch

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"stageloom/model/plan"
)

// Fault is what was heard of an input in an act that was not OK, and is the last that was heard of it there.
type Fault struct {
	Check plan.LineCheck
	Act   *Act
	// Line is the input as the act has it now.
	Line *Line
}

// Open reports whether nobody cleared it.
func (f Fault) Open() bool { return f.Check.Fault() }

// Faults lists the faults of all acts: the open ones as they came, then those that were cleared, the last cleared first. One
// that something else was heard after is told no more.
func (v *View) Faults() (open, cleared []Fault) {
	for act := range v.checked() {
		for _, line := range act.Lines {
			for _, row := range v.told(act, line) {
				fault := Fault{row, act, line}
				if fault.Open() {
					open = append(open, fault)
				} else {
					cleared = append(cleared, fault)
				}
			}
		}
	}
	slices.SortStableFunc(open, func(a, b Fault) int { return a.Check.When().Compare(b.Check.When()) })
	slices.SortStableFunc(cleared, func(a, b Fault) int { return b.Check.ClearedAt().Compare(a.Check.ClearedAt()) })
	return open, cleared
}

// checked yields the acts of which something was heard, in their order.
func (v *View) checked() func(yield func(*Act) bool) {
	heard := map[plan.ActID]bool{}
	for row := range v.Plan.LineChecks.All() {
		heard[row.Act] = true
	}
	return func(yield func(*Act) bool) {
		for _, act := range v.Acts {
			if heard[act.Act.ID] && !yield(act) {
				return
			}
		}
	}
}

// told are the faults of an input in an act: the open one, where the last that was heard is one, and all that were cleared.
func (v *View) told(act *Act, line *Line) (rows []plan.LineCheck) {
	all := v.Plan.ChecksOf(act.Act.ID, line.Input.ID)
	for i, row := range all {
		if row.Result != plan.HeardOK && (row.Cleared != "" || i == len(all)-1) {
			rows = append(rows, row)
		}
	}
	return rows
}

// FaultsElsewhere lists the open faults of other acts that an input has to do with: its own, and those of what is plugged
// into one of its sockets there. An act that comes later counts too: line checks are not made in the order of the show.
func (v *View) FaultsElsewhere(act *Act, line *Line) (list []Fault) {
	open, _ := v.Faults()
	for _, fault := range open {
		if fault.Act.Act.ID == act.Act.ID || line.Struck {
			continue
		}
		if _, shared := commonSocket(fault.Line, line); shared || fault.Check.Input == line.Input.ID {
			list = append(list, fault)
		}
	}
	return list
}

// FaultWords say a fault of another act to who stands at an input: "socket SL in 3 was dead in Opening band at 16:31, not
// cleared".
func (v *View) FaultWords(fault Fault, line *Line) string {
	what := plan.Clipped(line.Input.Name)
	if socket, shared := commonSocket(fault.Line, line); shared {
		what = "socket " + v.SocketWords(socket)
	}
	in := ""
	if name := v.ActName(fault.Act.Act.ID); name != "" {
		in = " in " + plan.Clipped(name)
	}
	said := fmt.Sprintf("%s was %s%s at %s, not cleared", what, fault.Check.Result, in, ClockOf(fault.Check.At))
	if fault.Check.Input != line.Input.ID {
		said += " (" + plan.Clipped(fault.Line.Input.Name) + ")"
	}
	return said
}

// commonSocket is a socket on the stage or of a box that two lines have in common.
func commonSocket(a, b *Line) (Socket, bool) {
	theirs := b.sockets()
	for _, socket := range a.sockets() {
		if slices.Contains(theirs, socket) {
			return socket, true
		}
	}
	return Socket{}, false
}

// sockets are those of a line: of its boxes first, then where it is plugged in on stage.
func (l *Line) sockets() (list []Socket) {
	if l.Struck {
		return nil
	}
	for i := range l.Legs {
		list = append(list, l.Legs[i].Socket)
	}
	return slices.DeleteFunc(append(list, l.At, l.Snake), Socket.None)
}

// mostOfChain is how much of the way of an input a line check keeps.
const mostOfChain = 1000

// Chain is the way of an input as a line check keeps it: "SL in 3 → FOH 1, Mon 1".
func (v *View) Chain(line *Line) string {
	return plan.ClippedTo(strings.TrimPrefix(v.Words(line), line.Input.Name+arrow), mostOfChain)
}

// ChangedSince says where the way of an input is another than when it was heard: "was SL in 3, is SL in 7"; blank where it is
// the same, and where nothing says what it was.
func (v *View) ChangedSince(line *Line, heard plan.LineCheck) string {
	now := v.Chain(line)
	if heard.Chain == "" || heard.Chain == now || line.Struck {
		return ""
	}
	was, is := strings.Split(heard.Chain, arrow), strings.Split(now, arrow)
	for len(was) > 1 && len(is) > 1 && was[0] == is[0] {
		was, is = was[1:], is[1:]
	}
	for len(was) > 1 && len(is) > 1 && was[len(was)-1] == is[len(is)-1] {
		was, is = was[:len(was)-1], is[:len(is)-1]
	}
	return fmt.Sprintf("was %s, is %s", strings.Join(was, arrow), strings.Join(is, arrow))
}

// CheckTally counts how a line check stands. Changed are those that were OK, whose patch is another since.
type CheckTally struct{ Inputs, OK, Open, Cleared, Changed, Left int }

// CheckTally counts the line check of an act.
func (v *View) CheckTally(act *Act) (t CheckTally) {
	for _, line := range act.Lines {
		if line.Struck {
			continue
		}
		t.Inputs++
		last, heard := v.Plan.Checked(act.Act.ID, line.Input.ID)
		switch {
		case !heard:
			t.Left++
		case last.Result == plan.HeardOK && v.ChangedSince(line, last) != "":
			t.Changed++
		case last.Result == plan.HeardOK:
			t.OK++
		case last.Fault():
			t.Open++
		default:
			t.Cleared++
		}
	}
	return t
}

// Begun reports whether anything was heard.
func (t CheckTally) Begun() bool { return t.Left < t.Inputs }

// String says it: "31 of 36 OK, 3 faults open, 2 not yet heard".
func (t CheckTally) String() string {
	said := []string{fmt.Sprintf("%d of %d OK", t.OK, t.Inputs)}
	switch {
	case t.Open == 1:
		said = append(said, "1 fault open")
	case t.Open > 1:
		said = append(said, fmt.Sprintf("%d faults open", t.Open))
	}
	if t.Cleared > 0 {
		said = append(said, fmt.Sprintf("%d to hear again", t.Cleared))
	}
	if t.Changed > 0 {
		said = append(said, fmt.Sprintf("%d to hear again (patch changed since)", t.Changed))
	}
	if t.Left > 0 {
		said = append(said, fmt.Sprintf("%d not yet heard", t.Left))
	}
	return strings.Join(said, ", ")
}

// ClockOf is the time of day of a line check as it was where it was noted: "16:31"; what cannot be read is told as it stands.
func ClockOf(at string) string {
	when, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return plan.Clipped(at)
	}
	return when.Format("15:04")
}

// HeardWords say a result with its time: "OK 16:20", "noisy 16:31", "noisy 16:31, cleared 16:45".
func HeardWords(row plan.LineCheck) string {
	said := row.Result + " " + ClockOf(row.At)
	if row.Cleared != "" && row.Result != plan.HeardOK {
		said += ", cleared " + ClockOf(row.Cleared)
	}
	return said
}

// SinceWords say since when something is so, and how long that is until now: "since 16:31, 12 min". Another day is told with
// its date; a time that is not past yet, by a clock that was set back, has no length.
func SinceWords(at string, now time.Time) string {
	when, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return "since " + plan.Clipped(at)
	}
	said := "since " + when.Format("15:04")
	if when.Format(time.DateOnly) != now.In(when.Location()).Format(time.DateOnly) {
		said = "since " + when.Format("2006-01-02 15:04")
	}
	switch length := now.Sub(when); {
	case length < 0:
		return said
	case length < 2*time.Hour:
		return said + fmt.Sprintf(", %d min", int(length.Minutes()))
	case length < 48*time.Hour:
		return said + fmt.Sprintf(", %d h %02d min", int(length.Hours()), int(length.Minutes())%60)
	default:
		return said + fmt.Sprintf(", %d days", int(length.Hours())/24)
	}
}
