package exchange

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// Patching is what the sockets and channels of an input list come to: how many inputs stand on the socket, and on the
// channels, that the list gives them, and which do not. The inputs of what is left are taken in all the same.
type Patching struct {
	Sockets, Channels int
	Left              []Fault
}

// Patching reckons what the sockets and channels come to: the good rows are put into the plan and thrown away again. It is
// nothing where no column names any, or the list cannot be put in at all.
func (in Inputs) Patching(p *plan.Plan, act plan.ActID) (got Patching) {
	if len(in.Rows) == 0 || in.sheet.layout.column(Snake) < 0 && in.sheet.layout.column(Multi) < 0 && !in.patches(patch.Of(p)) {
		return got
	}
	_, err := plan.Do(p, plan.NewIDSource(1, 1), func(e *plan.Edit) (err error) {
		got, _, err = in.GoodOnly().put(e, act)
		return err
	})
	if err != nil {
		return Patching{} // the import itself is refused, and says why
	}
	return got
}

// patches reports whether a column names sockets or channels.
func (in Inputs) patches(view *patch.View) bool {
	return in.sheet.layout.column(Box) >= 0 || in.sheet.layout.column(Socket) >= 0 || slices.ContainsFunc(view.Consoles(), func(id plan.DeviceID) bool {
		return in.sheet.layout.column(channelOf(view, id)) >= 0
	})
}

// patch plugs inputs in where the list has them and puts them on their channels; ids are those of its rows.
func (in Inputs) patch(e *plan.Edit, act plan.ActID, ids []plan.InputID) (Patching, error) {
	view := patch.Of(e.Now())
	if !in.patches(view) {
		return Patching{}, nil
	}
	t := patching{in: in, sheet: in.sheet, edit: e, act: act, ids: ids, unplugged: map[plan.InputID]bool{}}
	t.plug(view)
	for _, console := range view.Consoles() {
		if in.sheet.layout.column(channelOf(view, console)) >= 0 {
			t.tune(patch.Of(e.Now()), console)
		}
	}
	t.done.Left = t.sheet.faults
	slices.SortStableFunc(t.done.Left, func(a, b Fault) int { return a.Row - b.Row })
	return t.done, nil
}

// patching is the patch of a list in the making.
type patching struct {
	in    Inputs
	sheet sheetRows
	edit  *plan.Edit
	act   plan.ActID
	ids   []plan.InputID
	done  Patching
	// unplugged are the inputs whose socket was refused: of their channels no more is said.
	unplugged map[plan.InputID]bool
}

// want is an input of a row that is to go to a place: a socket, or a channel of the console at hand.
type want[Place comparable] struct {
	row   int
	input plan.InputID
	to    Place
}

// holder is the input that a place has now.
type holder struct {
	input plan.InputID
	name  string
}

func (t *patching) fail(row int, field string, err error) {
	t.sheet.at = row - 1
	if t.sheet.layout.column(field) < 0 {
		field = Box // a list may have both in one column
	}
	t.sheet.fail(field, err)
}

// unplug leaves an input without the socket of its row, and its channels with it.
func (t *patching) unplug(view *patch.View, row int, input plan.InputID, err error) {
	t.sheet.at = row - 1
	if slices.ContainsFunc(view.Consoles(), func(id plan.DeviceID) bool { return !saysNone(t.sheet.text(channelOf(view, id))) }) {
		err = fmt.Errorf("%w; its channels wait for that", err)
	}
	t.unplugged[input] = true
	t.fail(row, Socket, err)
}

// plug plugs the inputs in, all at once, so that they may take each other's places. Channels that have them stay with them.
func (t *patching) plug(view *patch.View) {
	act, _ := view.Act(t.act)
	held := map[patch.Socket]holder{}
	for _, line := range act.Lines {
		if line.Patched() {
			held[line.At] = holder{line.Input.ID, line.Input.Name}
		}
	}
	var wants []want[patch.Socket]
	boxes := t.sheet.downward(Box, Socket)
	for i, row := range t.in.Rows {
		t.sheet.at = row.Row - 1
		socket, said, err := t.socket(view, boxes[t.sheet.at], row.Half)
		switch {
		case err != nil:
			t.unplug(view, row.Row, t.ids[i], err)
		case said:
			t.done.Sockets++
			wants = append(wants, want[patch.Socket]{row.Row, t.ids[i], socket})
		}
	}
	refused := func(w want[patch.Socket], err error) {
		t.done.Sockets--
		t.unplug(view, w.row, w.input, err)
	}
	wants = settled(wants, held, "socket", view.SocketWords, refused)
	inHalves(wants, func(some []want[patch.Socket]) error {
		moves := make([]patch.Move, len(some))
		for i, w := range some {
			moves[i] = patch.Move{Input: w.input, To: w.to}
		}
		return patch.PlugOnly(t.edit, t.act, moves, true)
	}, refused)
}

// socket reads the socket of the row at hand, or of one of the pair that it names: "Box A 5" or "SB1-12" in either column, or
// a box and a number in two.
func (t *patching) socket(view *patch.View, box string, half int) (socket patch.Socket, said bool, err error) {
	own, number := t.sheet.text(Box), t.sheet.text(Socket)
	if saysNone(number) {
		if number != "" || saysNone(own) {
			return socket, false, nil
		}
		number, box = own, ""
	}
	number, alone := halfOf(number, half)
	if alone {
		return socket, true, errHalf
	}
	if box == "" || saysNone(box) {
		socket, err = view.ReadSocket(number, onlyBox(view), false)
		return socket, true, err
	}
	socket, err = view.ReadSocket(box+" "+number, "", false)
	if err != nil && strings.IndexFunc(number, unicode.IsLetter) >= 0 {
		if whole, wrong := view.ReadSocket(number, "", false); wrong == nil {
			return whole, true, nil
		}
	}
	return socket, true, err
}

// onlyBox is the box that a number alone means: the one with preamps that the plan has; none where it has several.
func onlyBox(view *patch.View) plan.DeviceID {
	var boxes []plan.DeviceID
	for _, id := range view.WithSockets(false) {
		if !view.Mixes(id) && view.Phantom(patch.Socket{Device: id, Number: 1}) {
			boxes = append(boxes, id)
		}
	}
	if len(boxes) == 1 {
		return boxes[0]
	}
	return ""
}

// tune puts the inputs on channels of a console, all at once.
func (t *patching) tune(view *patch.View, console plan.DeviceID) {
	act, _ := view.Act(t.act)
	field := channelOf(view, console)
	held, lines := heldChannels(act, console)
	var wants []want[int]
	for i, row := range t.in.Rows {
		t.sheet.at = row.Row - 1
		text, alone := halfOf(t.sheet.text(field), row.Half)
		if saysNone(text) && !alone || t.unplugged[t.ids[i]] {
			continue
		}
		number, err := readChannelOf(text, alone)
		if err == nil {
			err = unfit(view, act, console, number, lines[t.ids[i]])
		}
		if err != nil {
			t.fail(row.Row, field, err)
			continue
		}
		t.done.Channels++
		wants = append(wants, want[int]{row.Row, t.ids[i], number})
	}
	refused := func(w want[int], err error) {
		t.done.Channels--
		t.fail(w.row, field, err)
	}
	wants = settled(wants, held, "channel", func(number int) string { return fmt.Sprintf("%s %d", view.Name(console), number) }, refused)
	wants = slices.DeleteFunc(wants, func(w want[int]) bool { return lines[w.input].Number(console) == w.to })
	inHalves(wants, func(some []want[int]) error {
		wanted := make([]patch.Wanted, len(some))
		for i, w := range some {
			wanted[i] = patch.Wanted{Input: w.input, Channel: w.to}
		}
		return patch.ChannelsOnly(t.edit, t.act, console, wanted)
	}, refused)
}

// heldChannels says what the channels of a console have in an act, and the line of each input.
func heldChannels(act *patch.Act, console plan.DeviceID) (map[int]holder, map[plan.InputID]*patch.Line) {
	held, lines := map[int]holder{}, map[plan.InputID]*patch.Line{}
	for _, line := range act.Lines {
		lines[line.Input.ID] = line
		for _, channel := range line.Channels() {
			if channel.Console == console && !line.Struck {
				held[channel.Number] = holder{line.Input.ID, line.Input.Name}
			}
		}
	}
	return held, lines
}

// unfit says why an input can't go on a channel whoever has it.
func unfit(view *patch.View, act *patch.Act, console plan.DeviceID, number int, line *patch.Line) error {
	switch limit := view.Channels(console); {
	case !act.Here(console):
		return fmt.Errorf("%s is a guest of other acts: bring it into this one first", view.Name(console))
	case limit > 0 && number > limit:
		return fmt.Errorf("%s has channels 1 to %d and no %d: write one of these", view.Name(console), limit, number)
	case line == nil || !line.Patched():
		return errors.New("the input stands on no socket: give it one, then the channel")
	}
	return nil
}

// settled are the wants that can be met together: the first of those that want one place, and none whose place is held by
// an input that stays.
func settled[Place comparable](wants []want[Place], held map[Place]holder, noun string, words func(Place) string, refused func(want[Place], error)) []want[Place] {
	first, moving := map[Place]int{}, map[plan.InputID]bool{}
	wants = slices.DeleteFunc(wants, func(w want[Place]) bool {
		if row := first[w.to]; row > 0 {
			refused(w, fmt.Errorf("%s is given to row %d already: write another %s", words(w.to), row, noun))
			return true
		}
		first[w.to], moving[w.input] = w.row, true
		return false
	})
	for before := -1; before != len(wants); {
		before = len(wants)
		wants = slices.DeleteFunc(wants, func(w want[Place]) bool {
			has := held[w.to]
			if has.input == "" || has.input == w.input || moving[has.input] {
				return false
			}
			refused(w, fmt.Errorf("%s has %s already: free it, or write another %s", words(w.to), plan.Clipped(has.name), noun))
			delete(moving, w.input)
			return true
		})
	}
	return wants
}

// inHalves does all at once, and where that is refused, each half by itself, so that one does not keep the others out.
func inHalves[Item any](items []Item, do func([]Item) error, refused func(Item, error)) {
	if len(items) == 0 {
		return
	}
	err := do(items)
	switch {
	case err == nil:
	case len(items) == 1:
		refused(items[0], errors.New(strings.TrimPrefix(err.Error(), plan.ErrRefused.Error()+": ")))
	default:
		inHalves(items[:len(items)/2], do, refused)
		inHalves(items[len(items)/2:], do, refused)
	}
}
