package patch

import (
	"slices"

	"stageloom/model/plan"
)

// Change is what one input or output has otherwise after an edit in one act; what an act has from the house stands under the
// house alone.
type Change struct {
	Act plan.ActID
	// Where is the input or output, Name what it is called.
	Where plan.Ref
	Name  string
	// Number is that in its list, Was the one before; 0 where it was not there.
	Number, Was int
	// From and To are its sockets before and after, none where it is not patched.
	From, To Socket
	// Before and After are the channels of an input that list it.
	Before, After []Channel
	// Unused tells that the act does without it now.
	Unused bool
	// Lost says to a reader what it no longer has: its socket, or consoles that it no longer gets to.
	Lost []string
}

// Moved reports whether a socket or a channel is another; a change that only gives another number in the list does not.
func (c Change) Moved() bool {
	return c.From != c.To || c.Was == 0 || c.Number == 0 || c.Unused || !slices.EqualFunc(c.Before, c.After, sameArrival)
}

// Changes lists what two patches of a plan say otherwise of inputs and outputs, act by act in the order of the list. An edit
// is shown beforehand by the plan that it would make.
func Changes(before, after *View) (all []Change) {
	for _, now := range after.Acts {
		old, found := before.Act(now.Act.ID)
		if !found {
			old = before.House()
		}
		d := difference{before, after, old, now}
		for _, line := range now.Lines {
			all = d.input(all, line)
		}
		for _, line := range old.Lines {
			if _, stays := now.Line(line.Input.ID); !stays && (old.House() || line.Input.Act != "") {
				all = append(all, Change{Act: now.Act.ID, Where: plan.RefOf(line.Input), Name: line.Input.Name, Was: line.Input.Number, From: line.At, Before: line.Channels()})
			}
		}
		for _, line := range now.Outputs {
			all = d.output(all, line)
		}
	}
	return all
}

// difference compares one act before and after.
type difference struct {
	before, after *View
	old, now      *Act
}

func (d difference) input(all []Change, line *Line) []Change {
	was, there := d.old.Line(line.Input.ID)
	c := Change{
		Act: d.now.Act.ID, Where: plan.RefOf(line.Input), Name: line.Input.Name, Number: line.Input.Number,
		To: line.At, After: line.Channels(), Unused: line.Struck,
	}
	if there {
		c.Was, c.From, c.Before, c.Unused = was.Input.Number, was.At, was.Channels(), line.Struck && !was.Struck
	}
	inherits := !d.now.House() && !d.after.Differs(d.now, line) && (!there || !d.before.Differs(d.old, was))
	if inherits || there && c.Was == c.Number && !c.Moved() {
		return all
	}
	if there {
		for _, loss := range d.before.lostBy(was, line) {
			c.Lost = append(c.Lost, loss.Words)
		}
	}
	return append(all, c)
}

func (d difference) output(all []Change, line *OutputLine) []Change {
	id := line.Output.ID
	was, there := d.before.output(d.old, id)
	c := Change{Act: d.now.Act.ID, Where: plan.RefOf(line.Output), Name: line.Output.Name, Number: line.Output.Number, To: line.Socket, Unused: line.Struck}
	if there {
		c.Was, c.From, c.Unused = was.Output.Number, was.Socket, line.Struck && !was.Struck
		if was.Patched() && !line.Struck && (!line.Patched() || was.Reached && !line.Reached) {
			c.Lost = []string{"lost: " + d.before.OutputWords(was)}
		}
	}
	if d.inherits(line, was, there) || there && c.Was == c.Number && !c.Moved() && len(c.Lost) == 0 {
		return all
	}
	return append(all, c)
}

// inherits reports whether an act has an output as the house has it, before and after.
func (d difference) inherits(line, was *OutputLine, there bool) bool {
	if d.now.House() {
		return false
	}
	above, has := d.after.output(d.after.House(), line.Output.ID)
	house, had := d.before.output(d.before.House(), line.Output.ID)
	return has && above == line && (!there || had && house == was)
}

// sameArrival reports whether two channels are one, with or without its signal.
func sameArrival(a, b Channel) bool {
	return a.Console == b.Console && a.Number == b.Number && a.Reached == b.Reached
}
