package patch_test

import (
	"cmp"
	"errors"
	"fmt"
	"math/rand/v2"
	"runtime/debug"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/patch"
	"stageloom/model/patch/patchtest"
	"stageloom/model/plan"
)

// moves is how many operations are tried in all, over a number of rigs.
const moves, rigsOfMoves = 100_000, 50

// movesRig is a sub-snake and a receiver rack before a splitter with two boxes, one box alone, two consoles, two acts, eight
// inputs of the house and one of each act; small, so that most operations meet something.
func movesRig(t require.TestingT) *plan.Plan {
	p, err := plan.Do(plan.New("Moves"), plan.NewIDSource(1, 1), func(e *plan.Edit) error {
		ways := func(kind plan.KindID, port, direction string, first, count, socket int) {
			plan.Put(e, plan.KindPort{Kind: kind, Name: port, Transport: "analogue-multicore"})
			plan.Put(e, plan.KindWay{Kind: kind, Port: port, First: first, Count: count, Direction: direction, Socket: socket})
		}
		plan.Put(e, plan.Kind{ID: "snake", Name: "Snake", Group: "Stage", Inputs: 3, Passive: true})
		ways("snake", "M", "in", 1, 3, 1)
		plan.Put(e, plan.Kind{ID: "split", Name: "Split", Group: "Stage", Inputs: 6, Passive: true, Splitter: "direct"})
		ways("split", "IN", "in", 1, 3, 2)
		ways("split", "A", "in", 1, 6, 1)
		ways("split", "B", "in", 1, 4, 1)
		plan.Put(e, plan.Kind{ID: "radio", Name: "Radio", Group: "Radio", Outputs: 2})
		ways("radio", "M", "out", 1, 2, 1)
		plan.Put(e, plan.Kind{ID: "rack", Name: "Rack", Group: "Stage", Inputs: 8})
		ways("rack", "M", "in", 1, 6, 1)
		ways("rack", "N", "in", 1, 2, 7)
		plan.Put(e, plan.KindPort{Kind: "rack", Name: "D", Transport: "aes50"})
		plan.Put(e, plan.Kind{ID: "desk", Name: "Desk", Group: "Mixing", Channels: 12})
		for _, port := range []string{"D1", "D2", "D3"} {
			plan.Put(e, plan.KindPort{Kind: "desk", Name: port, Transport: "aes50"})
		}
		for i, d := range []struct {
			name string
			kind plan.KindID
		}{{"Snake", "snake"}, {"Split", "split"}, {"RF", "radio"}, {"SL", "rack"}, {"MR", "rack"}, {"SR", "rack"}, {"FOH", "desk"}, {"Mon", "desk"}} {
			plan.Put(e, plan.Device{ID: movesDevice(i), Name: d.name, Kind: d.kind})
		}
		for _, l := range []plan.Link{
			{From: movesDevice(0), FromPort: "M", To: movesDevice(1), ToPort: "IN"},
			{From: movesDevice(1), FromPort: "A", To: movesDevice(3), ToPort: "M"},
			{From: movesDevice(1), FromPort: "B", To: movesDevice(4), ToPort: "M"},
			{From: movesDevice(2), FromPort: "M", To: movesDevice(3), ToPort: "N"},
			{From: movesDevice(3), FromPort: "D", To: movesDevice(6), ToPort: "D1", Transport: "aes50"},
			{From: movesDevice(4), FromPort: "D", To: movesDevice(7), ToPort: "D1", Transport: "aes50"},
			{From: movesDevice(5), FromPort: "D", To: movesDevice(6), ToPort: "D2", Transport: "aes50"},
			{From: movesDevice(6), FromPort: "D3", To: movesDevice(7), ToPort: "D2", Transport: "aes50"},
		} {
			if l.Transport == "" {
				l.Transport = "analogue-multicore"
			}
			id := e.AddLink(l)
			for n := 0; n < 20 && l.Transport == "aes50"; n++ { // so that blocks on it lie across the 24th channel
				plan.Put(e, plan.SlotPatch{Link: id, Direction: patch.Forward, Slot: n + 1, Use: "talkback"})
			}
		}
		for n := range 10 {
			plan.Put(e, plan.Input{ID: movesInput(n), Number: n + 1, Name: fmt.Sprintf("In %d", n+1), Act: []plan.ActID{"", first2, second2}[max(0, n-7)]})
		}
		plan.Put(e, plan.Act{ID: first2, Name: "Brass", Order: 1})
		plan.Put(e, plan.Act{ID: second2, Name: "Strings", Order: 2})
		return nil
	})
	require.NoError(t, err)
	p, err = plan.Do(p, nil, func(e *plan.Edit) error {
		house := []plan.InputID{movesInput(0), movesInput(1), movesInput(2), movesInput(3), movesInput(4), movesInput(5), movesInput(6), movesInput(7)}
		return errors.Join(
			patch.PairInputs(e, house[4], house[5]), patch.PairInputs(e, house[2], house[3]),
			patch.Fill(e, "", house[:4], patch.Socket{Device: movesDevice(1), Number: 1}, true),
			patch.Fill(e, "", house[4:], patch.Socket{Device: movesDevice(5), Number: 2}, true),
			patch.FillChannels(e, "", movesDevice(6), house, 1), patch.FillChannels(e, "", movesDevice(7), house[:4], 3),
		)
	})
	require.NoError(t, err)
	return p
}

const first2, second2 = plan.ActID("n-22222"), plan.ActID("n-22223")

func movesDevice(n int) plan.DeviceID { return plan.DeviceID("d-2222" + plan.Signs[n:n+1]) }
func movesInput(n int) plan.InputID   { return plan.InputID("i-2222" + plan.Signs[n:n+1]) }

// operation is what one operation names: inputs whose channels it says, and channels.
type operation struct {
	words    string
	edit     func(*plan.Edit) error
	act      plan.ActID
	inputs   []plan.InputID
	channels []patchtest.Spot
	tunes    bool // says which channels its inputs have
	stays    bool // lets channels stay with the sockets
	adds     bool // adds an input
}

// mover draws operations.
type mover struct{ *rand.Rand }

func (m mover) input() plan.InputID { return movesInput(m.IntN(10)) }

func (m mover) some() (all []plan.InputID) {
	for n := range 10 {
		if m.IntN(4) == 0 {
			all = append(all, movesInput(n))
		}
	}
	return all
}

func (m mover) socket() patch.Socket {
	at := []int{0, 1, 1, 3, 3, 4, 5, 5, 2}[m.IntN(9)]
	return patch.Socket{Device: movesDevice(at), Number: 1 + m.IntN([]int{3, 6, 2, 8, 8, 8}[at]), Output: at == 2}
}

func (m mover) draw() operation {
	act := []plan.ActID{"", "", first2, second2}[m.IntN(4)]
	one, other, socket, follow := m.input(), m.input(), m.socket(), m.IntN(5) > 0
	console, number, by := movesDevice(6+m.IntN(2)), 1+m.IntN(12), m.IntN(5)-2
	on := func(numbers ...int) (all []patchtest.Spot) {
		for _, n := range numbers {
			all = append(all, patchtest.Spot{Console: console, Number: n})
		}
		return all
	}
	switch m.IntN(19) {
	default:
		return operation{"plug", func(e *plan.Edit) error { return patch.Plug(e, act, one, socket, follow) }, act, []plan.InputID{one}, nil, false, !follow, false}
	case 3, 4:
		return operation{"swap", func(e *plan.Edit) error { return patch.Swap(e, act, one, other, follow) }, act, []plan.InputID{one, other}, nil, false, !follow, false}
	case 5:
		some := m.some()
		return operation{"shift", func(e *plan.Edit) error { return patch.Shift(e, act, some, by, follow) }, act, some, nil, false, !follow, false}
	case 6:
		some := m.some()
		return operation{"sort", func(e *plan.Edit) error { return patch.Sort(e, act, some, follow) }, act, some, nil, false, !follow, false}
	case 7:
		some := m.some()
		return operation{"fill", func(e *plan.Edit) error { return patch.Fill(e, act, some, socket, follow) }, act, some, nil, false, !follow, false}
	case 8:
		return operation{"strike", func(e *plan.Edit) error { return patch.Strike(e, act, one) }, act, []plan.InputID{one}, nil, false, false, false}
	case 9:
		return operation{"clear", func(e *plan.Edit) error { return patch.Clear(e, act, one) }, act, []plan.InputID{one}, nil, false, false, false}
	case 10:
		return operation{"unplug", func(e *plan.Edit) error { return patch.Unplug(e, act, one, other) }, act, []plan.InputID{one, other}, nil, false, false, false}
	case 11:
		return operation{"sub-snake", func(e *plan.Edit) error { return patch.SetSnake(e, one, movesDevice(0), 1+number%3) }, act, []plan.InputID{one}, nil, false, false, false}
	case 12, 13:
		wanted := []patch.Wanted{{Input: one, Channel: number}, {Input: other, Channel: max(0, number+by)}}
		return operation{"tune", func(e *plan.Edit) error { return patch.SetChannels(e, act, console, wanted) }, act, []plan.InputID{one, other}, nil, true, false, false}
	case 14:
		if by == 0 {
			return operation{"swap channels", func(e *plan.Edit) error { return patch.SwapChannels(e, act, console, number, 13-number) }, act, nil, on(number, 13-number), false, false, false}
		}
		return operation{"shift channels", func(e *plan.Edit) error { return patch.ShiftChannels(e, act, console, []int{number}, by) }, act, nil, on(number, number+by), false, false, false}
	case 18:
		return operation{"stereo", func(e *plan.Edit) error {
			if by > 0 {
				other = ""
			}
			return patch.PairInputs(e, one, other)
		}, act, nil, nil, false, false, false}
	case 15:
		return operation{"channels of an act", func(e *plan.Edit) error {
			if follow {
				patch.ClearChannels(e, act, console, number)
			} else {
				patch.StrikeChannels(e, act, console, number)
			}
			_ = patch.MoveAct(e, second2, 1+m.IntN(2))
			return nil
		}, act, nil, on(number), false, false, false}
	}
}

// withRights are the inputs that an operation names, and the right sides that go along with them.
func (o operation) withRights(p *plan.Plan, before *patchtest.ByHand) operation {
	o.inputs = slices.Clone(o.inputs)
	for _, id := range o.inputs {
		if input, _ := p.Inputs.Get(plan.Key(id)); input.Right != "" {
			o.inputs = append(o.inputs, input.Right)
		}
	}
	behind := slices.ContainsFunc(o.channels, func(at patchtest.Spot) bool {
		input, _ := p.Inputs.Get(plan.Key(patchtest.First(before.Has[at])))
		return input.Right != "" && input.Right == patchtest.First(before.Has[patchtest.Spot{Console: at.Console, Number: at.Number + 1}])
	})
	if behind {
		for _, at := range slices.Clone(o.channels) {
			o.channels = append(o.channels, patchtest.Spot{Console: at.Console, Number: at.Number + 1})
		}
	}
	return o
}

// parted says which pair stood on neighbours, does not any more after its left side was moved, and is not told; blank where
// none does so.
func (o operation) parted(p *plan.Plan, before, now *patchtest.ByHand, told []string) string {
	for _, id := range o.inputs {
		input, _ := p.Inputs.Get(plan.Key(id))
		if input.Right == "" || slices.Contains(o.inputs, input.Right) || o.words == "unplug" {
			continue
		}
		beside := func(b *patchtest.ByHand) bool {
			left, right := b.At[id], b.At[input.Right]
			return left.Number > 0 && right == patch.Socket{Device: left.Device, Number: left.Number + 1, Output: left.Output}
		}
		right, _ := p.Inputs.Get(plan.Key(input.Right))
		says := slices.ContainsFunc(told, func(words string) bool { return strings.HasPrefix(words, right.Name+" stays on ") })
		_, stays := now.At[input.Right]
		if _, plugged := now.At[id]; before.At[id] != now.At[id] && beside(before) && !beside(now) && !says && plugged && stays {
			return fmt.Sprintf("%s went to %v and left %s on %v", id, now.At[id], input.Right, now.At[input.Right])
		}
	}
	return ""
}

// may reports whether a channel of an act may have another input after an operation.
func (o operation) may(before, now *patchtest.ByHand) func(patchtest.Spot, plan.InputID, plan.InputID) bool {
	named := func(id plan.InputID) bool { return id == "" || slices.Contains(o.inputs, id) }
	return func(at patchtest.Spot, was, is plan.InputID) bool {
		_, stays := now.At[was]
		_, stood := before.At[is]
		switch {
		case slices.Contains(o.channels, at), o.tunes && named(was) && named(is), o.stays && named(was) && named(is):
			return true
		case is == "": // it left with its input
			return named(was) && !stays
		case was == "": // it came back with its input
			return (named(is) || o.adds) && !stood
		}
		return false
	}
}

// Over random operations every channel keeps its input unless the operation names it, no two inputs of an act meet on a socket
// or a channel, and who reads the rows by hand finds what the view says.
func TestMovesAreSafe(t *testing.T) {
	defer debug.SetGCPercent(debug.SetGCPercent(800)) // little of it lives long
	base, known, done, refused := movesRig(t), patchtest.Wires{}, map[string]int{}, 0
	ids := plan.NewIDSource(3, 5)
	count := moves / rigsOfMoves
	if testing.Short() {
		count /= 20
	}
	for seed := range uint64(rigsOfMoves) {
		m := mover{rand.New(rand.NewPCG(seed, 3))}
		p, view := base, patch.Of(base)
		before := map[plan.ActID]*patchtest.ByHand{}
		for _, act := range view.Acts {
			before[act.Act.ID] = known.Read(p, act.Act.ID)
		}
		for n := range count {
			if n%10 == 0 {
				p = m.turned(p)
				view = patch.Next(view, p)
			}
			o := m.drawAny(p)
			next, err := plan.Do(p, ids, o.edit)
			if err != nil {
				require.ErrorIs(t, err, plan.ErrRefused)
				refused++
				continue
			}
			done[o.words]++
			old, all := view, o.withRights(p, before[o.act])
			p, view = next, patch.Next(view, next)
			for _, act := range view.Acts {
				now := known.Read(p, act.Act.ID)
				wrong := cmp.Or(now.Alone(), now.Agrees(view, act), arrives(now, p, act), before[act.Act.ID].Moved(now, all.may(before[act.Act.ID], now)))
				if act.Act.ID == o.act && wrong == "" && o.words != "take out" {
					wrong = o.parted(p, before[act.Act.ID], now, old.Stayed(view, o.act, o.inputs))
				}
				if wrong != "" {
					t.Fatalf("rig %d, operation %d, %s in %q of %v, seen in %q: %s", seed, n, o.words, o.act, o.inputs, act.Act.ID, wrong)
				}
				before[act.Act.ID] = now
			}
		}
	}
	t.Log(done, "refused", refused)
	for _, words := range []string{"plug", "swap", "shift", "sort", "fill", "strike", "clear", "unplug", "sub-snake", "tune", "swap channels", "shift channels", "channels of an act", "stereo", "move off", "swap boxes", "shift inputs of all acts", "shift a device", "shift all channels", "insert", "insert above"} {
		require.Greater(t, done[words], count/20, words)
	}
}
