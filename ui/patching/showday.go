package patching

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
)

// socketed are the devices that have sockets, by name.
func (p *Dialogs) socketed() (ids []plan.DeviceID, names []string) {
	view := p.Desk().Assessment().Patch
	for id := range view.ByName() {
		if view.Sockets(id, false)+view.Sockets(id, true) > 0 {
			ids, names = append(ids, id), append(names, view.Name(id))
		}
	}
	return ids, names
}

// busiest is the device with most inputs, which is proposed where none is selected.
func (p *Dialogs) busiest(ids []plan.DeviceID) int {
	counts := map[plan.DeviceID]int{}
	for _, line := range p.Desk().Assessment().Patch.House().Lines {
		counts[line.At.Device]++
	}
	best := 0
	for i, id := range ids {
		if counts[id] > counts[ids[best]] {
			best = i
		}
	}
	return best
}

// placeAmong is where a device stands in a list; the one with most inputs where it is not there.
func (p *Dialogs) placeAmong(ids []plan.DeviceID, of plan.DeviceID) int {
	if at := slices.Index(ids, of); at >= 0 {
		return at
	}
	return p.busiest(ids)
}

// BoxDead moves all that is at a dead box to sockets that are free in every act.
func (p *Dialogs) BoxDead(of plan.DeviceID) {
	ids, names := p.socketed()
	if len(ids) < 2 {
		p.Say("Two devices with sockets are needed: one that is dead, and one that takes over.")
		return
	}
	t := p.newTool("A box is dead: all it had goes to free sockets")
	dead := t.choose("Dead", names, p.placeAmong(ids, of))
	first := t.choose("To", append([]string{"the first free, nearest box first"}, names...), 0)
	second := t.choose("or to", append([]string{"none other"}, names...), 0)
	t.edit = func(e *plan.Edit) ([]patch.Left, error) {
		var to []plan.DeviceID
		for _, list := range []*dialogs.Chooser{first, second} {
			if at := list.SelectedIndex(); at > 0 && first.SelectedIndex() > 0 {
				to = append(to, ids[at-1])
			}
		}
		if slices.Contains(to, ids[dead.SelectedIndex()]) {
			return nil, fmt.Errorf("%s is the one that is dead; choose another", dead.Selected)
		}
		return patch.MoveOff(e, ids[dead.SelectedIndex()], to...)
	}
	t.name = func(counted string) string { return "Move " + counted + " off " + dead.Selected }
	t.show(dead)
}

// SwapBoxes lets two devices change places in the patch of all acts.
func (p *Dialogs) SwapBoxes(of plan.DeviceID) {
	ids, names := p.socketed()
	if len(ids) < 2 {
		p.Say("Two devices with sockets are needed to swap.")
		return
	}
	t := p.newTool("Swap two boxes in all acts")
	at := p.placeAmong(ids, of)
	one := t.choose("This", names, at)
	other := t.choose("with", names, (at+1)%len(names))
	t.edit = func(e *plan.Edit) ([]patch.Left, error) {
		return nil, patch.SwapBoxes(e, ids[one.SelectedIndex()], ids[other.SelectedIndex()])
	}
	t.name = func(counted string) string { return "Swap " + one.Selected + " and " + other.Selected + ": " + counted }
	t.show(other)
}

// moving is something that an offset moves.
type moving struct {
	name string
	move func(o patch.Offset, e *plan.Edit, from int) error
}

// Offset moves the selected inputs, all of a device or channels of a console by so many places, in one act or all.
func (p *Dialogs) Offset() {
	view, act := p.Desk().Assessment().Patch, p.actNow()
	c, _ := p.Chosen()
	movings := p.movings(c)
	if len(movings) == 0 {
		p.Say("Nothing is patched yet that could be moved.")
		return
	}
	var names []string
	for _, one := range movings {
		names = append(names, one.name)
	}
	t := p.newTool("Move by an offset")
	what := t.choose("What", names, 0)
	by := t.write("By how many", "1")
	from := t.write("Channels from", "1")
	acts := []string{"all acts"}
	if name := view.ActName(act.Act.ID); name != "" {
		acts = append(acts, name+" alone")
		if act.House() {
			acts[1] = "the house, and acts as they have it from there"
		}
	}
	in := t.choose("In", acts, 0)
	t.edit = func(e *plan.Edit) ([]patch.Left, error) {
		places, err := strconv.Atoi(strings.TrimSpace(by.Text))
		if err != nil || places == 0 {
			return nil, fmt.Errorf("%q is no offset; write for instance 4, or -4 for back", plan.Clipped(by.Text))
		}
		first, err := strconv.Atoi(strings.TrimSpace(from.Text))
		if err != nil || first < 1 {
			return nil, fmt.Errorf("%q is no channel to begin with", plan.Clipped(from.Text))
		}
		o := patch.Offset{Act: act.Act.ID, All: in.SelectedIndex() == 0, By: places, Follow: p.ChannelsFollow()}
		return nil, movings[what.SelectedIndex()].move(o, e, first)
	}
	t.name = func(counted string) string { return fmt.Sprintf("Move %s by %s", counted, strings.TrimSpace(by.Text)) }
	t.show(by)
}

// movings are what can be moved: what is selected first.
func (p *Dialogs) movings(c Chosen) (all []moving) {
	view, act := p.Desk().Assessment().Patch, p.actNow()
	if len(c.Inputs) > 0 && c.Console == "" {
		all = append(all, moving{"the selected: " + p.inputsNamed(c.Inputs), func(o patch.Offset, e *plan.Edit, _ int) error {
			return o.Inputs(e, c.Inputs)
		}})
	}
	for _, id := range view.WithSockets(false) {
		all = append(all, moving{"inputs of " + view.Name(id), func(o patch.Offset, e *plan.Edit, _ int) error { return o.Device(e, id) }})
	}
	for _, id := range view.Consoles() {
		if !act.Here(id) {
			continue
		}
		one := moving{"channels of " + view.Name(id), func(o patch.Offset, e *plan.Edit, from int) error { return o.Channels(e, id, from) }}
		if id == c.Console {
			all = slices.Insert(all, 0, one)
			continue
		}
		all = append(all, one)
	}
	return all
}

// Insert puts a new input into the list at the row that is selected.
func (p *Dialogs) Insert() {
	c, patches := p.Chosen()
	if !patches || len(c.Inputs) == 0 {
		p.Say("Select the input in the table of the patch first, in whose place the new one is to come: Ctrl 7.")
		return
	}
	if !p.Keep() {
		return
	}
	view, act := p.Desk().Assessment().Patch, p.actNow()
	line, _ := act.Line(c.Inputs[0])
	if line == nil {
		return
	}
	lists := []plan.ActID{line.Input.Act}
	names := []string{"all acts"}
	if line.Input.Act != "" {
		names = []string{view.ActName(line.Input.Act) + " alone"}
	} else if !act.House() && view.ActName(act.Act.ID) != "" {
		lists, names = append(lists, act.Act.ID), append(names, view.ActName(act.Act.ID)+" alone")
	}
	t := p.newTool(fmt.Sprintf("Insert an input at %d %s", line.Input.Number, line.Input.Name))
	name := t.write("Name", "")
	name.SetPlaceHolder("what it is called")
	in := t.choose("In the list of", names, 0)
	how := t.choose("Socket and channels", []string{"the first that are free", "these; what is below moves down, up to the first gap"}, 0)
	t.edit = func(e *plan.Edit) ([]patch.Left, error) {
		called := strings.TrimSpace(name.Text)
		if called == "" {
			return nil, errors.New("write what the new input is called")
		}
		_, err := patch.InsertInput(e, patch.Insertion{Act: lists[in.SelectedIndex()], At: line.Input.ID, Name: called, Below: how.SelectedIndex() == 1})
		return nil, err
	}
	t.name = func(string) string { return "Insert " + strings.TrimSpace(name.Text) }
	t.show(name)
}

// FirstFree plugs the selected inputs into the first free sockets of the device that they are on, or in the column of a
// console puts them on its first free channels.
func (p *Dialogs) FirstFree() {
	p.step("First free for", 1, func(e *plan.Edit, act plan.ActID, c Chosen) error {
		view, now := p.Desk().Assessment().Patch, p.actNow()
		if c.Console != "" {
			numbers, err := view.FreeChannels(now, c.Console, c.Inputs)
			if err != nil {
				return err
			}
			var wanted []patch.Wanted
			for i, id := range c.Inputs {
				wanted = append(wanted, patch.Wanted{Input: id, Channel: numbers[i]})
			}
			return patch.SetChannels(e, act, c.Console, wanted)
		}
		line, _ := now.Line(c.Inputs[0])
		device := line.At.Device
		if boxes := view.WithSockets(false); device == "" && len(boxes) > 0 {
			device = boxes[p.busiest(boxes)]
		}
		sockets, err := view.FreeSockets(now, device, c.Inputs)
		if err != nil {
			return fmt.Errorf("%w; for another device type its name and “%s” into the cell", err, patch.FreeWord)
		}
		var moves []patch.Move
		for i, id := range c.Inputs {
			moves = append(moves, patch.Move{Input: id, To: sockets[i]})
		}
		return patch.PlugAll(e, act, moves, p.ChannelsFollow())
	})
}
