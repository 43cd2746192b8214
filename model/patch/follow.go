package patch

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// Loss is one thing that a change takes out of the patch.
type Loss struct {
	Act   plan.ActID
	Where plan.Ref
	// Words say it to a reader: "Kick in was on SL in 3", "Kick in no longer gets to FOH 1".
	Words string
}

// Lost lists what the patch after no longer has of the patch before: inputs and outputs that lost their socket, and channels
// that lost their signal. Ask it before a change, of the plan that the change would make, and after one. What an act has
// from its house is told once. Inputs, outputs and acts that are gone themselves are no loss of the patch.
func Lost(before, after *View) []Loss {
	var lost []Loss
	told := map[Loss]bool{} // by the house, under a blank act
	tell := func(act *Act, some []Loss) {
		for _, loss := range some {
			if told[loss] {
				continue
			}
			if act.House() {
				told[loss] = true
			}
			loss.Act = act.Act.ID
			lost = append(lost, loss)
		}
	}
	for _, old := range before.Acts {
		now, found := after.Act(old.Act.ID)
		if !found {
			continue
		}
		for _, line := range old.Lines {
			if next, there := now.Line(line.Input.ID); there && next != line {
				tell(old, before.lostBy(line, next))
			}
		}
		for _, line := range old.Outputs {
			if next, there := after.output(now, line.Output.ID); there && line.Patched() && (!next.Patched() || line.Reached && !next.Reached) {
				tell(old, []Loss{{Where: plan.RefOf(line.Output), Words: "lost: " + before.OutputWords(line)}})
			}
		}
	}
	return lost
}

func (v *View) output(act *Act, id plan.OutputID) (*OutputLine, bool) {
	for _, line := range act.Outputs {
		if line.Output.ID == id {
			return line, true
		}
	}
	return nil, false
}

// lostBy compares one line before and after. A line that somebody struck is no loss.
func (v *View) lostBy(old, now *Line) []Loss {
	where := plan.RefOf(now.Input)
	switch {
	case !old.Patched() || now.Struck:
		return nil
	case now.At.None():
		words := fmt.Sprintf("%s was on %s", old.Input.Name, v.SocketWords(old.At))
		if channels := v.channelWords(old.Channels()); channels != "" {
			words += " → " + channels
		}
		return []Loss{{Where: where, Words: words}}
	}
	var gone []Channel
	for _, channel := range old.Channels() {
		kept := slices.ContainsFunc(now.Channels(), func(c Channel) bool { return c.Console == channel.Console && c.Reached })
		if channel.Reached && !kept {
			gone = append(gone, channel)
		}
	}
	if len(gone) == 0 {
		return nil
	}
	return []Loss{{Where: where, Words: fmt.Sprintf("%s no longer gets to %s", old.Input.Name, v.channelWords(gone))}}
}

func (v *View) channelWords(channels []Channel) string {
	var said []string
	for _, c := range channels {
		said = append(said, fmt.Sprintf("%s %d", v.nets.name(c.Console), c.Number))
	}
	return strings.Join(said, ", ")
}

// Rehome moves the patch of one device to another: inputs and outputs keep the numbers of their sockets, channels that
// listened there listen here, owners go along, and slots are given out anew where links lead. It refuses where the other has
// not the sockets, they are in use, or other inputs come there over multicores. The device itself stays; remove it afterwards in the same edit.
func Rehome(e *plan.Edit, from, to plan.DeviceID) error {
	now := e.Now()
	n := newNetwork(now, restOf(now))
	source, target := n.devices[from], n.devices[to]
	if source == nil || target == nil || from == to {
		return refuse("there is no such device to move the patch to")
	}
	r := rehoming{edit: e, net: n, from: from, to: to, used: map[Socket]bool{}}
	r.look()
	if r.fault != "" {
		return refuse("the patch of %s stays: %s", source.name, r.fault)
	}
	return e.Try(func() error { return meetsNothing(e, r.change) })
}

// meetsNothing makes a change of rows and refuses it where inputs meet on a socket afterwards that did not before.
func meetsNothing(e *plan.Edit, change func()) error {
	before, err := newWork(e, "")
	if err != nil {
		return err
	}
	change()
	after, err := newWork(e, "")
	if err != nil {
		return err
	}
	now := after.before
	after.before = before.before
	for _, o := range after.acts {
		if err := after.collides(o, now[o.act]); err != nil {
			return err
		}
	}
	GiveOut(e)
	return nil
}

type rehoming struct {
	edit     *plan.Edit
	net      *network
	from, to plan.DeviceID
	used     map[Socket]bool
	fault    string
}

// look finds the sockets that move, and why they cannot.
func (r *rehoming) look() {
	p := r.edit.Now()
	note := func(device plan.DeviceID, number int, output bool) {
		if device == r.from && number > 0 {
			r.used[Socket{r.to, number, output}] = true
		}
	}
	r.each(p, note)
	for s := range r.used {
		if s.Number > r.net.sockets(r.to, s.Output) {
			r.fault = "there is no " + r.net.socketWords(s)
		}
	}
	r.each(p, func(device plan.DeviceID, number int, output bool) {
		if s := (Socket{device, number, output}); r.used[s] {
			r.fault = r.net.socketWords(s) + " is in use"
		}
	})
}

// each visits every socket that rows of the patch name, slots excepted.
func (r *rehoming) each(p *plan.Plan, visit func(device plan.DeviceID, number int, output bool)) {
	for row := range p.StagePatches.All() {
		visit(row.Device, row.Socket, false)
	}
	for row := range p.ConsolePatches.All() {
		visit(row.Device, row.Socket, false)
	}
	for row := range p.OutputPatches.All() {
		visit(row.Device, row.Socket, true)
	}
	for row := range p.SocketOwners.All() {
		visit(row.Device, row.Socket, false)
	}
}

func (r *rehoming) change() {
	p := r.edit.Now()
	rewrite(r.edit, p.StagePatches, func(row *plan.StagePatch) bool { return r.turn(&row.Device) })
	rewrite(r.edit, p.ConsolePatches, func(row *plan.ConsolePatch) bool {
		device, console := r.turn(&row.Device), r.turn(&row.Console)
		return device || console
	})
	rewrite(r.edit, p.OutputPatches, func(row *plan.OutputPatch) bool {
		device, console := r.turn(&row.Device), r.turn(&row.Console)
		return device || console
	})
	rewrite(r.edit, p.SocketOwners, func(row *plan.SocketOwner) bool {
		device, gain, phantom := r.turn(&row.Device), r.turn(&row.Gain), r.turn(&row.Phantom)
		return device || gain || phantom
	})
	rewrite(r.edit, p.Inputs, func(row *plan.Input) bool { return r.turn(&row.Snake) })
	rewrite(r.edit, p.ActConsoles, func(row *plan.ActConsole) bool { return r.turn(&row.Console) })
	for row := range slices.Values(slices.Collect(p.SlotPatches.All())) {
		if row.Device == r.from {
			plan.Drop[plan.SlotPatch](r.edit, row.Key())
		}
	}
}

func (r *rehoming) turn(id *plan.DeviceID) bool {
	if *id != r.from {
		return false
	}
	*id = r.to
	return true
}

// rewrite changes the rows that with takes, under their new keys.
func rewrite[R plan.Row](e *plan.Edit, table *plan.Table[R], with func(*R) bool) {
	for _, old := range slices.Collect(table.All()) {
		row := old
		if !with(&row) {
			continue
		}
		if row.Key() != old.Key() {
			plan.Drop[R](e, old.Key())
		}
		plan.Put(e, row)
	}
}
