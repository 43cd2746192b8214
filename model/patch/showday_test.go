package patch_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// showDay is two boxes and two consoles, six inputs on the left box in the house, the third of which an act has on the right
// box, and another does without the fourth; the first act has an input of its own on the left box.
func showDay(t require.TestingT) (r *rig, ids []plan.InputID, brass, strings plan.ActID) {
	r, ids = hall(t)
	r.do(func(e *plan.Edit) error { return patch.Fill(e, "", ids[:6], r.socket("SL", 1), true) })
	for _, console := range []string{"FOH", "Mon"} {
		r.do(func(e *plan.Edit) error { return patch.FillChannels(e, "", r.devices[console], ids[:6], 1) })
	}
	brass, strings = r.act(1, "Brass"), r.act(2, "Strings")
	r.do(func(e *plan.Edit) error { return patch.Plug(e, brass, ids[2], r.socket("SR", 1), true) })
	r.do(func(e *plan.Edit) error { return patch.Strike(e, strings, ids[3]) })
	r.input(9, "Tuba", func(i *plan.Input) { i.Act = brass })
	r.do(func(e *plan.Edit) error { return patch.Plug(e, brass, r.inputs["Tuba"], r.socket("SL", 9), true) })
	r.do(func(e *plan.Edit) error { return patch.SetChannel(e, brass, r.inputs["Tuba"], r.devices["FOH"], 9) })
	return r, ids, brass, strings
}

// channels are the inputs that channels of a console have in an act, by number.
func (r *rig) channels(act plan.ActID, console string) map[int]string {
	v := patch.Of(r.plan)
	a, _ := v.Act(act)
	all := map[int]string{}
	for _, row := range v.ConsoleRows(a)[r.devices[console]] {
		for _, line := range row.Lines {
			all[row.Number] += line.Input.Name
			if !row.Channel.Reached {
				all[row.Number] += " ×"
			}
		}
	}
	return all
}

func TestADeadBoxIsMovedOffInEveryAct(t *testing.T) {
	r, ids, brass, strings := showDay(t)
	before := map[string]map[int]string{}
	for _, act := range []plan.ActID{"", brass, strings} {
		for _, console := range []string{"FOH", "Mon"} {
			before[string(act)+console] = r.channels(act, console)
		}
	}
	r.do(func(e *plan.Edit) error {
		patch.Own(e, "", r.socket("SL", 2), r.devices["Mon"], r.devices["FOH"])
		return nil
	})
	was := patch.Of(r.plan)
	var left []patch.Left
	r.do(func(e *plan.Edit) (err error) { left, err = patch.MoveOff(e, r.devices["SL"]); return err })
	require.Empty(t, left)
	require.Equal(t, []string{
		"In 1 → SR in 2 → FOH 1, Mon 1", "In 2 → SR in 3 → FOH 2, Mon 2", "In 3 → SR in 1 → FOH 3, Mon 3",
		"In 4 → SR in 4 → FOH 4, Mon 4", "In 5 → SR in 5 → FOH 5, Mon 5", "In 6 → SR in 6 → FOH 6, Mon 6",
	}, r.all("")[:6], "past the socket that another input has in one act")
	r.says(t, brass, "In 3", "In 3 → SR in 1 → FOH 3, Mon 3")
	r.says(t, strings, "In 4", "In 4 → not used")
	r.says(t, brass, "Tuba", "Tuba → SR in 7 → FOH 9")
	for _, act := range []plan.ActID{"", brass, strings} {
		for _, console := range []string{"FOH", "Mon"} {
			require.Equal(t, before[string(act)+console], r.channels(act, console), "%s of %q", console, act)
		}
	}
	line := r.line("", "In 2")
	require.Equal(t, r.devices["Mon"], line.Legs[0].Gain, "who sets the gain goes along")
	require.Equal(t, r.devices["FOH"], line.Legs[0].Phantom)
	for row := range r.plan.SlotPatches.All() {
		require.False(t, row.Device == r.devices["SL"] && row.Socket < 7, "channels on links are free again: %v", row)
	}
	changes := patch.Changes(was, patch.Of(r.plan))
	require.Len(t, changes, 7, "six of the house, told once, and one of an act: %v", changes)
	require.Equal(t, brass, changes[6].Act)
	require.Equal(t, r.socket("SL", 1), changes[0].From)
	require.Equal(t, r.socket("SR", 2), changes[0].To)
	require.Empty(t, changes[0].Lost)
	_ = ids
}

func TestWhatADeadBoxHadStaysWhereNothingTakesIt(t *testing.T) {
	r, ids, brass, _ := showDay(t)
	r.do(func(e *plan.Edit) error {
		for n := range 18 {
			id := e.AddInput(plan.Input{Number: 20 + n, Name: fmt.Sprintf("Full %d", n)})
			if err := patch.Plug(e, "", id, r.socket("SR", 2+n), true); err != nil {
				return err
			}
		}
		return nil
	})
	var left []patch.Left
	r.do(func(e *plan.Edit) (err error) {
		left, err = patch.MoveOff(e, r.devices["SL"], r.devices["SR"])
		return err
	})
	require.Equal(t, []patch.Left{
		{Act: brass, Where: plan.Ref{Table: plan.InputsTable, Key: plan.Key(r.inputs["Tuba"])}, Words: "Tuba stays on SL in 9: no socket is free"},
	}, left)
	r.says(t, brass, "Tuba", "Tuba → SL in 9 → FOH 9")
	r.says(t, "", "In 6", "In 6 → SR in 24 → FOH 6, Mon 6")
	_ = ids
	t.Run("where every input of the box finds no place", func(t *testing.T) {
		r, ids, _, _ := showDay(t)
		r.do(func(e *plan.Edit) error {
			return plan.Update(e, plan.Key(ids[0]), func(i *plan.Input) { i.Phantom = true })
		})
		r.device("Amp", "amplifier-rack-8")
		next, err := plan.Do(r.plan, r.ids, func(e *plan.Edit) error {
			left, err := patch.MoveOff(e, r.devices["SL"], r.devices["Amp"])
			require.NotEmpty(t, left)
			require.Contains(t, left[0].Words, "In 1 stays on SL in 1: no free socket has 48 V")
			return err
		})
		require.NoError(t, err)
		require.Equal(t, r.plan.StagePatches, next.StagePatches)
	})
	t.Run("where nothing is patched", func(t *testing.T) {
		r, _ := hall(t)
		r.refused(t, "nothing is patched at SL", func(e *plan.Edit) error { _, err := patch.MoveOff(e, r.devices["SL"]); return err })
	})
}

func TestAnInputOfASplitterStaysAndIsHeardOverTheOtherBox(t *testing.T) {
	r, _ := wired(t)
	r.link("L03", "MR", "AES50 2", "FOH", "AES50 2")
	var left []patch.Left
	r.do(func(e *plan.Edit) (err error) { left, err = patch.MoveOff(e, r.devices["SL"]); return err })
	require.Empty(t, left)
	r.says(t, "", "Hat", "Hat → Split in 18 → SL in 18; → MR in 2 → FOH 2, Mon 2")
}

func TestOutputsOfADeadBoxLeaveElsewhere(t *testing.T) {
	r, _, brass, _ := showDay(t)
	r.do(func(e *plan.Edit) error {
		for n, at := range []patch.Socket{r.socket("SL", 1), r.socket("SR", 1)} {
			id := e.AddOutput(plan.Output{Number: n + 1, Name: fmt.Sprintf("Wedge %d", n+1)})
			if err := patch.SetOutput(e, "", id, r.devices["Mon"], at); err != nil {
				return err
			}
		}
		return nil
	})
	r.do(func(e *plan.Edit) error { _, err := patch.MoveOff(e, r.devices["SL"]); return err })
	v := patch.Of(r.plan)
	for _, id := range []plan.ActID{"", brass} {
		act, _ := v.Act(id)
		require.Equal(t, "Wedge 1 → Mon → SR out 2", v.OutputWords(act.Outputs[0]))
		require.Equal(t, "Wedge 2 → Mon → SR out 1", v.OutputWords(act.Outputs[1]))
	}
}

func TestTwoBoxesChangePlacesInEveryAct(t *testing.T) {
	r, ids, brass, strings := showDay(t)
	patched := r.channels(brass, "FOH")
	r.do(func(e *plan.Edit) error {
		patch.Own(e, "", r.socket("SL", 2), r.devices["SL"], r.devices["FOH"])
		id := e.AddOutput(plan.Output{Number: 1, Name: "Wedge"})
		return patch.SetOutput(e, "", id, r.devices["Mon"], r.socket("SL", 3))
	})
	first := r.plan
	swap := func(e *plan.Edit) error { return patch.SwapBoxes(e, r.devices["SL"], r.devices["SR"]) }
	r.do(swap)
	r.says(t, "", "In 3", "In 3 → SR in 3 → FOH 3, Mon 3")
	r.says(t, brass, "In 3", "In 3 → SL in 1 → FOH 3, Mon 3")
	r.says(t, strings, "In 4", "In 4 → not used")
	r.says(t, brass, "Tuba", "Tuba → SR in 9 → FOH 9")
	require.Equal(t, patched, r.channels(brass, "FOH"))
	require.Equal(t, r.devices["SR"], r.line("", "In 2").Legs[0].Gain, "a box that sets its own gain is its own still")
	v := patch.Of(r.plan)
	require.Equal(t, "Wedge → Mon → SR out 3", v.OutputWords(v.House().Outputs[0]))
	r.do(swap)
	require.Empty(t, patch.Changes(patch.Of(first), patch.Of(r.plan)), "twice is as before")
	r.do(func(e *plan.Edit) error { return patch.Plug(e, strings, ids[7], r.socket("SL", 30), true) })
	r.refused(t, "there is no SR in 30: In 8 in Strings is on SL in 30", swap)
}

func TestAnOffsetMovesOverAllActsOrOne(t *testing.T) {
	all := patch.Offset{All: true, By: 2, Follow: true}
	r, ids, brass, strings := showDay(t)
	start := r.plan
	r.do(func(e *plan.Edit) error { return all.Inputs(e, ids[3:6]) })
	r.says(t, "", "In 4", "In 4 → SL in 6 → FOH 4, Mon 4")
	r.refused(t, "SL in 9 holds Tuba already in Brass", func(e *plan.Edit) error { return all.Inputs(e, ids[3:6]) })
	r.plan = start
	r.do(func(e *plan.Edit) error { return all.Device(e, r.devices["SL"]) })
	r.says(t, "", "In 1", "In 1 → SL in 3 → FOH 1, Mon 1")
	r.says(t, brass, "In 3", "In 3 → SR in 1 → FOH 3, Mon 3")
	r.says(t, brass, "Tuba", "Tuba → SL in 11 → FOH 9")
	r.plan = start
	r.do(func(e *plan.Edit) error {
		return patch.Offset{Act: brass, By: 10, Follow: true}.Device(e, r.devices["SL"])
	})
	r.says(t, "", "In 1", "In 1 → SL in 1 → FOH 1, Mon 1")
	r.says(t, strings, "In 1", "In 1 → SL in 1 → FOH 1, Mon 1")
	r.says(t, brass, "In 1", "In 1 → SL in 11 → FOH 1, Mon 1")
	r.plan = start
	r.do(func(e *plan.Edit) error { return all.Channels(e, r.devices["FOH"], 4) })
	require.Equal(t, map[int]string{1: "In 1", 2: "In 2", 3: "In 3", 6: "In 4", 7: "In 5", 8: "In 6", 11: "Tuba"}, r.channels(brass, "FOH"))
	require.Equal(t, map[int]string{1: "In 1", 2: "In 2", 3: "In 3", 7: "In 5", 8: "In 6"}, r.channels(strings, "FOH"))
	r.refused(t, "FOH 1 is in use: it listens to SL in 1", func(e *plan.Edit) error {
		return patch.Offset{All: true, By: -5}.Channels(e, r.devices["FOH"], 6)
	})
	r.refused(t, "no channel of FOH is patched from 60 on", func(e *plan.Edit) error { return all.Channels(e, r.devices["FOH"], 60) })
	r.refused(t, "there is no SL in 41 for Tuba in Brass", func(e *plan.Edit) error {
		return patch.Offset{All: true, By: 32}.Device(e, r.devices["SL"])
	})
}

func TestAnInputIsPutInAtARow(t *testing.T) {
	for name, c := range map[string]struct {
		below       bool
		socket, was string
		foh         map[int]string
	}{
		"to the first free":                     {false, "New → SL in 7 → FOH 7, Mon 7", "In 3 → SL in 3 → FOH 3, Mon 3", map[int]string{1: "In 1", 2: "In 2", 3: "In 3", 4: "In 4", 5: "In 5", 6: "In 6", 7: "New"}},
		"everything below moves, up to the gap": {true, "New → SL in 3 → FOH 3, Mon 3", "In 3 → SL in 4 → FOH 4, Mon 4", map[int]string{1: "In 1", 2: "In 2", 3: "New", 4: "In 3", 5: "In 4", 6: "In 5", 7: "In 6"}},
	} {
		t.Run(name, func(t *testing.T) {
			r, ids, brass, strings := showDay(t)
			before := patch.Of(r.plan)
			r.do(func(e *plan.Edit) (err error) {
				r.inputs["New"], err = patch.InsertInput(e, patch.Insertion{At: ids[2], Name: "New", Below: c.below})
				return err
			})
			r.says(t, "", "New", c.socket)
			r.says(t, strings, "New", c.socket)
			r.says(t, "", "In 3", c.was)
			require.Equal(t, c.foh, r.channels("", "FOH"))
			require.Equal(t, "Tuba", r.channels(brass, "FOH")[9])
			numbers := map[int]string{}
			for input := range r.plan.Inputs.All() {
				numbers[input.Number] += input.Name
			}
			require.Equal(t, map[int]string{1: "In 1", 2: "In 2", 3: "New", 4: "In 3", 5: "In 4", 6: "In 5", 7: "In 6", 8: "In 7", 9: "In 8", 10: "Tuba"}, numbers)
			changes := patch.Changes(before, patch.Of(r.plan))
			require.Equal(t, "New", changes[0].Name)
			require.Zero(t, changes[0].Was)
			require.True(t, changes[0].Moved())
		})
	}
	t.Run("for one act, past the numbers of the house", func(t *testing.T) {
		r, ids, brass, strings := showDay(t)
		r.do(func(e *plan.Edit) (err error) {
			r.inputs["New"], err = patch.InsertInput(e, patch.Insertion{Act: brass, At: ids[1], Name: "New", Below: true})
			return err
		})
		r.says(t, brass, "New", "New → SL in 2 → FOH 2, Mon 2")
		r.says(t, brass, "In 2", "In 2 → SL in 3 → FOH 3, Mon 3")
		r.says(t, brass, "In 4", "In 4 → SL in 4 → FOH 5, Mon 5")
		r.says(t, strings, "In 2", "In 2 → SL in 2 → FOH 2, Mon 2")
		require.Equal(t, 9, r.line(brass, "New").Input.Number)
		require.Equal(t, 10, r.line(brass, "Tuba").Input.Number)
	})
	t.Run("refused without a gap, and nothing is written", func(t *testing.T) {
		r, ids, _, _ := showDay(t)
		_, err := plan.Do(r.plan, r.ids, func(e *plan.Edit) error {
			require.NoError(t, patch.Plug(e, "", ids[6], r.socket("SL", 40), true))
			stands := e.Now().Inputs.Len()
			_, err := patch.InsertInput(e, patch.Insertion{At: ids[6], Name: "New", Below: true})
			require.ErrorContains(t, err, "SL has no gap from SL in 40 on: choose the first free socket")
			require.Equal(t, stands, e.Now().Inputs.Len())
			return nil
		})
		require.NoError(t, err)
	})
}
