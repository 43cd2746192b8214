package patch_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// hall is two boxes, two consoles and eight inputs, unpatched.
func hall(t require.TestingT) (*rig, []plan.InputID) {
	r := newRig(t)
	r.device("SL", "stagebox-40-20")
	r.device("SR", "stagebox-24-12")
	r.device("FOH", "console-72")
	r.device("Mon", "console-56")
	r.link("L01", "SL", "AES50 1", "FOH", "AES50 1")
	r.link("L02", "SL", "AES50 2", "Mon", "AES50 1")
	r.link("L03", "SR", "AES50 1", "FOH", "AES50 2")
	r.link("L04", "SR", "AES50 2", "Mon", "AES50 2")
	var ids []plan.InputID
	for n := 1; n <= 8; n++ {
		name := fmt.Sprintf("In %d", n)
		r.input(n, name)
		ids = append(ids, r.inputs[name])
	}
	return r, ids
}

func (r *rig) socket(device string, number int) patch.Socket {
	return patch.Socket{Device: r.devices[device], Number: number}
}

func (r *rig) refused(t *testing.T, reason string, edit func(*plan.Edit) error) {
	t.Helper()
	_, err := plan.Do(r.plan, r.ids, edit)
	require.ErrorIs(t, err, plan.ErrRefused)
	require.ErrorContains(t, err, reason)
}

func (r *rig) all(act plan.ActID) (words []string) {
	v := patch.Of(r.plan)
	a, _ := v.Act(act)
	for _, line := range a.Lines {
		words = append(words, v.Words(line))
	}
	return words
}

func TestFillingAndWhoGetsWhat(t *testing.T) {
	r, ids := hall(t)
	r.do(func(e *plan.Edit) error { return patch.Fill(e, "", ids[:3], r.socket("SL", 38), true) })
	r.do(func(e *plan.Edit) error { return patch.FillChannels(e, "", r.devices["FOH"], ids[:3], 1) })
	r.do(func(e *plan.Edit) error { return patch.SetChannel(e, "", ids[1], r.devices["Mon"], 7) })
	require.Equal(t, []string{
		"In 1 → SL in 38 → FOH 1", "In 2 → SL in 39 → FOH 2, Mon 7", "In 3 → SL in 40 → FOH 3",
		"In 4 → not patched", "In 5 → not patched", "In 6 → not patched", "In 7 → not patched", "In 8 → not patched",
	}, r.all(""), "slots were given out on the way")
	t.Run("what does not fit is refused, with what would", func(t *testing.T) {
		r.refused(t, "SL has room for 2 from SL in 39 on; 3 are wanted", func(e *plan.Edit) error {
			return patch.Fill(e, "", ids[:3], r.socket("SL", 39), true)
		})
		r.refused(t, "SL in 40 holds In 3 already", func(e *plan.Edit) error { return patch.Plug(e, "", ids[4], r.socket("SL", 40), true) })
		r.refused(t, "there is no SR in 25", func(e *plan.Edit) error { return patch.Plug(e, "", ids[4], r.socket("SR", 25), true) })
		r.refused(t, "In 5 is not patched here", func(e *plan.Edit) error { return patch.SetChannel(e, "", ids[4], r.devices["FOH"], 5) })
		r.refused(t, "FOH 2 has In 2 already", func(e *plan.Edit) error { return patch.SetChannel(e, "", ids[0], r.devices["FOH"], 2) })
		r.refused(t, "FOH has channels 1 to 72", func(e *plan.Edit) error { return patch.SetChannel(e, "", ids[0], r.devices["FOH"], 73) })
	})
	t.Run("0 takes it off, and another number moves it", func(t *testing.T) {
		r.do(func(e *plan.Edit) error { return patch.SetChannel(e, "", ids[1], r.devices["Mon"], 0) })
		r.do(func(e *plan.Edit) error { return patch.SetChannel(e, "", ids[0], r.devices["FOH"], 9) })
		require.Equal(t, []string{"In 1 → SL in 38 → FOH 9", "In 2 → SL in 39 → FOH 2"}, r.all("")[:2])
	})
}

func TestMovingInputsTakesTheirChannelsAlongOrNot(t *testing.T) {
	r, ids := hall(t)
	r.do(func(e *plan.Edit) error { return patch.Fill(e, "", ids[:4], r.socket("SL", 1), true) })
	r.do(func(e *plan.Edit) error { return patch.FillChannels(e, "", r.devices["FOH"], ids[:4], 1) })
	for name, c := range map[string]struct {
		edit func(*plan.Edit) error
		want []string
	}{
		"dragged to the other box": {
			func(e *plan.Edit) error { return patch.Plug(e, "", ids[0], r.socket("SR", 2), true) },
			[]string{"In 1 → SR in 2 → FOH 1", "In 2 → SL in 2 → FOH 2", "In 3 → SL in 3 → FOH 3", "In 4 → SL in 4 → FOH 4"},
		},
		"dragged, the channel stays with the socket": {
			func(e *plan.Edit) error { return patch.Plug(e, "", ids[0], r.socket("SR", 2), false) },
			[]string{"In 1 → SR in 2", "In 2 → SL in 2 → FOH 2", "In 3 → SL in 3 → FOH 3", "In 4 → SL in 4 → FOH 4"},
		},
		"swapped": {
			func(e *plan.Edit) error { return patch.Swap(e, "", ids[0], ids[3], true) },
			[]string{"In 1 → SL in 4 → FOH 1", "In 2 → SL in 2 → FOH 2", "In 3 → SL in 3 → FOH 3", "In 4 → SL in 1 → FOH 4"},
		},
		"swapped, the channels stay": {
			func(e *plan.Edit) error { return patch.Swap(e, "", ids[0], ids[3], false) },
			[]string{"In 1 → SL in 4 → FOH 4", "In 2 → SL in 2 → FOH 2", "In 3 → SL in 3 → FOH 3", "In 4 → SL in 1 → FOH 1"},
		},
		"shifted over each other": {
			func(e *plan.Edit) error { return patch.Shift(e, "", ids[:4], 2, true) },
			[]string{"In 1 → SL in 3 → FOH 1", "In 2 → SL in 4 → FOH 2", "In 3 → SL in 5 → FOH 3", "In 4 → SL in 6 → FOH 4"},
		},
		"channels swapped": {
			func(e *plan.Edit) error { return patch.SwapChannels(e, "", r.devices["FOH"], 1, 40) },
			[]string{"In 1 → SL in 1 → FOH 40", "In 2 → SL in 2 → FOH 2", "In 3 → SL in 3 → FOH 3", "In 4 → SL in 4 → FOH 4"},
		},
		"channels shifted over each other": {
			func(e *plan.Edit) error {
				return patch.ShiftChannels(e, "", r.devices["FOH"], []int{1, 2, 3, 4}, 1)
			},
			[]string{"In 1 → SL in 1 → FOH 2", "In 2 → SL in 2 → FOH 3", "In 3 → SL in 3 → FOH 4", "In 4 → SL in 4 → FOH 5"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			before := r.plan
			r.do(c.edit)
			require.Equal(t, c.want, r.all("")[:4])
			r.plan = before
		})
	}
	t.Run("sorted again", func(t *testing.T) {
		r.do(func(e *plan.Edit) error { return patch.Swap(e, "", ids[0], ids[3], true) })
		r.do(func(e *plan.Edit) error {
			return patch.Sort(e, "", []plan.InputID{ids[3], ids[1], ids[0], ids[2]}, true)
		})
		require.Equal(t, []string{"In 1 → SL in 1 → FOH 1", "In 2 → SL in 2 → FOH 2", "In 3 → SL in 3 → FOH 3", "In 4 → SL in 4 → FOH 4"}, r.all("")[:4])
	})
	t.Run("onto channels in use is refused", func(t *testing.T) {
		r.refused(t, "FOH 3 is in use: it listens to SL in 3", func(e *plan.Edit) error {
			return patch.ShiftChannels(e, "", r.devices["FOH"], []int{1, 2}, 1)
		})
	})
}

func TestEditsOfAnActStoreOnlyWhatDiffers(t *testing.T) {
	r, ids := hall(t)
	r.do(func(e *plan.Edit) error { return patch.Fill(e, "", ids, r.socket("SL", 1), true) })
	r.do(func(e *plan.Edit) error { return patch.FillChannels(e, "", r.devices["FOH"], ids, 1) })
	brass := r.act(1, "Brass")
	r.do(func(e *plan.Edit) error { return patch.Plug(e, brass, ids[0], r.socket("SR", 1), true) })
	require.Equal(t, "In 1 → SR in 1 → FOH 1", r.all(brass)[0])
	require.Equal(t, "In 1 → SL in 1 → FOH 1", r.all("")[0])
	require.Equal(t, 9, r.plan.StagePatches.Len())
	require.Equal(t, 9, r.plan.ConsolePatches.Len())
	r.do(func(e *plan.Edit) error { return patch.Plug(e, brass, ids[0], r.socket("SL", 1), true) })
	require.Equal(t, 8, r.plan.StagePatches.Len(), "back where the house has it, the act says nothing")
	require.Equal(t, 8, r.plan.ConsolePatches.Len())
	t.Run("off a channel, an act strikes what the house has", func(t *testing.T) {
		r.do(func(e *plan.Edit) error { return patch.SetChannel(e, brass, ids[1], r.devices["FOH"], 0) })
		require.Equal(t, "In 2 → SL in 2", r.all(brass)[1])
		require.Equal(t, "In 2 → SL in 2 → FOH 2", r.all("")[1])
		r.do(func(e *plan.Edit) error { patch.ClearChannels(e, brass, r.devices["FOH"], 2); return nil })
		require.Equal(t, r.all(""), r.all(brass))
	})
	t.Run("struck and cleared", func(t *testing.T) {
		r.do(func(e *plan.Edit) error { patch.Strike(e, brass, ids[2]); return nil })
		require.Equal(t, "In 3 → not used", r.all(brass)[2])
		r.do(func(e *plan.Edit) error { patch.Clear(e, brass, ids[2]); return nil })
		require.Equal(t, r.all(""), r.all(brass))
	})
	t.Run("an input of another act is refused", func(t *testing.T) {
		strings := r.act(2, "Strings")
		r.input(9, "Harp", func(i *plan.Input) { i.Act = strings })
		r.refused(t, "Harp is an input of Strings alone", func(e *plan.Edit) error {
			return patch.Plug(e, brass, r.inputs["Harp"], r.socket("SR", 1), true)
		})
	})
}

func TestOwnersAndOutputsAreSet(t *testing.T) {
	r, ids := hall(t)
	r.do(func(e *plan.Edit) error { return patch.Fill(e, "", ids[:1], r.socket("SL", 1), true) })
	r.do(func(e *plan.Edit) error {
		patch.Own(e, "", r.socket("SL", 1), r.devices["FOH"], r.devices["Mon"])
		return nil
	})
	leg := r.line("", "In 1").Legs[0]
	require.Equal(t, [2]plan.DeviceID{r.devices["FOH"], r.devices["Mon"]}, [2]plan.DeviceID{leg.Gain, leg.Phantom})
	put(r, plan.Output{ID: "o-22222", Number: 1, Name: "Wedge 1"}, plan.Output{ID: "o-33333", Number: 2, Name: "Wedge 2"})
	r.do(func(e *plan.Edit) error {
		return patch.SetOutput(e, "", "o-22222", r.devices["Mon"], r.socket("SR", 3))
	})
	v := patch.Of(r.plan)
	require.Equal(t, "Wedge 1 → Mon → SR out 3", v.OutputWords(v.House().Outputs[0]))
	r.refused(t, "SR out 3 is fed by Wedge 1 already", func(e *plan.Edit) error {
		return patch.SetOutput(e, "", "o-33333", r.devices["FOH"], r.socket("SR", 3))
	})
}

func TestByBoxByConsoleAndByLink(t *testing.T) {
	r, ids := hall(t)
	r.do(func(e *plan.Edit) error { return patch.Fill(e, "", ids[:2], r.socket("SR", 3), true) })
	r.do(func(e *plan.Edit) error { return patch.FillChannels(e, "", r.devices["FOH"], ids[:2], 5) })
	r.do(func(e *plan.Edit) error {
		_, err := patch.Keep(e, r.links["L03"], patch.Return, "talkback")
		return err
	})
	v := patch.Of(r.plan)
	box := v.Box(v.House(), r.devices["SR"])
	require.Len(t, box, 36, "free sockets too")
	require.Equal(t, "In 1", box[2].Lines[0].Input.Name)
	require.Empty(t, box[4].Lines)
	console := v.ConsoleRows(v.House())[r.devices["FOH"]]
	require.Len(t, console, 2)
	require.Equal(t, 5, console[0].Number)
	require.Equal(t, "In 1", console[0].Lines[0].Input.Name)
	require.True(t, console[0].Channel.Reached)
	slots, capacity := v.Slots(v.House(), r.links["L03"])
	require.Equal(t, 48, capacity, "AES50 at 48 kHz")
	require.Len(t, slots, 25)
	require.Equal(t, "In 1", slots[2].Lines[0].Input.Name)
	require.Equal(t, "talkback", slots[24].Use)
	require.Equal(t, patch.Hop{Link: r.links["L03"], Direction: patch.Return, Slot: 48}, slots[24].Hop)
}
