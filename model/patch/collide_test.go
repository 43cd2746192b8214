package patch_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// wired is a sub-snake on a splitter with two racks, five inputs and two consoles: input 1 on way 1 of the sub-snake, which
// comes out at the splitter's 17, inputs 2 to 4 on the splitter, input 5 nowhere.
func wired(t require.TestingT) (*rig, []plan.InputID) {
	r := newRig(t)
	for name, kind := range map[string]plan.KindID{
		"Snake": "sub-snake-12-4", "Split": "splitter-48", "SL": "stage-rack-48-20", "MR": "stage-rack-48-20", "FOH": "console-72", "Mon": "console-56", "RF": "rf-rack-8",
	} {
		r.device(name, kind)
	}
	for _, l := range [][5]string{
		{"M01", "Snake", "M", "Split", "IN2"},
		{"M02", "Split", "A1", "SL", "M1"},
		{"M03", "Split", "A2", "SL", "M2"},
		{"M04", "Split", "B2", "MR", "M1"},
		{"M05", "RF", "M", "SL", "M3"},
		{"L01", "SL", "AES50 1", "FOH", "AES50 1"},
		{"L02", "MR", "AES50 1", "Mon", "AES50 1"},
	} {
		r.link(l[0], l[1], l[2], l[3], l[4])
	}
	names := []string{"Organ low", "Hat", "Ride", "Tom", "Kick in"}
	var ids []plan.InputID
	for i, name := range names {
		r.input(i+1, name)
		ids = append(ids, r.inputs[name])
	}
	r.do(func(e *plan.Edit) error { return patch.SetSnake(e, ids[0], r.devices["Snake"], 1) })
	r.do(func(e *plan.Edit) error { return patch.Fill(e, "", ids[1:4], r.socket("Split", 18), true) })
	r.do(func(e *plan.Edit) error { return patch.FillChannels(e, "", r.devices["FOH"], ids[:4], 1) })
	r.do(func(e *plan.Edit) error { return patch.FillChannels(e, "", r.devices["Mon"], ids[:4], 1) })
	return r, ids
}

func TestASocketThatWiringFeedsIsRefusedToAnotherInput(t *testing.T) {
	r, ids := wired(t)
	brass := r.act(1, "Brass")
	organ := "is fed by Snake in 1, Organ low: unplug that first or choose "
	plug := func(input int, device string, socket int) func(*plan.Edit) error {
		return func(e *plan.Edit) error {
			return patch.Plug(e, "", ids[input], r.socket(device, socket), true)
		}
	}
	for _, c := range []struct {
		name, reason string
		edit         func(*plan.Edit) error
	}{
		{"typed", "Split in 17 " + organ + "21", plug(4, "Split", 17)},
		{"typed behind the splitter", "SL in 17 " + organ + "21", plug(4, "SL", 17)},
		{"typed at another leg", "MR in 1 " + organ + "5", plug(4, "MR", 1)},
		{"typed where the other is itself", "Snake in 1 holds Organ low already: unplug that first or choose 5", plug(4, "Snake", 1)},
		{"typed before the other", "Snake in 2 leads to Split in 18, which holds Hat already: unplug that first or choose 5", plug(4, "Snake", 2)},
		{"moved together", "Split in 17 " + organ + "18", func(e *plan.Edit) error {
			return patch.PlugAll(e, "", []patch.Move{{Input: ids[1], To: r.socket("Split", 17)}, {Input: ids[4], To: r.socket("Split", 21)}}, true)
		}},
		{"swapped in an act with what lies elsewhere there", "Split in 19 holds Kick in already in Brass", func(e *plan.Edit) error {
			if err := patch.Plug(e, brass, ids[2], r.socket("SL", 1), true); err != nil {
				return err
			}
			if err := patch.Plug(e, brass, ids[4], r.socket("Split", 19), true); err != nil {
				return err
			}
			return patch.Swap(e, "", ids[1], ids[2], true)
		}},
		{"sorted, where an act has another there", "Split in 18 holds Kick in already in Brass", func(e *plan.Edit) error {
			if err := patch.Swap(e, "", ids[1], ids[2], true); err != nil {
				return err
			}
			if err := patch.Plug(e, brass, ids[2], r.socket("SL", 1), true); err != nil {
				return err
			}
			if err := patch.Plug(e, brass, ids[4], r.socket("Split", 18), true); err != nil {
				return err
			}
			return patch.Sort(e, "", ids[1:3], true)
		}},
		{"shifted", "Split in 17 " + organ + "20", func(e *plan.Edit) error { return patch.Shift(e, "", ids[1:4], -1, true) }},
		{"filled", "Split in 17 holds Kick in already: unplug that first", func(e *plan.Edit) error {
			if err := patch.Unplug(e, "", ids[0]); err != nil {
				return err
			}
			if err := patch.Plug(e, "", ids[4], r.socket("Split", 17), true); err != nil {
				return err
			}
			return patch.Fill(e, "", ids[:4], r.socket("Split", 17), true)
		}},
		{"typed before a box where another is", "Split in 22 leads to MR in 6, which holds Kick in already: unplug that first or choose 23", func(e *plan.Edit) error {
			if err := patch.Plug(e, "", ids[4], r.socket("MR", 6), true); err != nil {
				return err
			}
			return patch.Plug(e, "", ids[3], r.socket("Split", 22), true)
		}},
		{"a sub-snake's way", "Snake in 2 leads to Split in 18, which holds Hat already", func(e *plan.Edit) error {
			return patch.SetSnake(e, ids[4], r.devices["Snake"], 2)
		}},
		{"the house's, onto what an act has", "Split in 30 holds Hat already in Brass: unplug that first or choose 31", func(e *plan.Edit) error {
			if err := patch.Plug(e, brass, ids[1], r.socket("Split", 30), true); err != nil {
				return err
			}
			return patch.Plug(e, "", ids[4], r.socket("Split", 30), true)
		}},
		{"taken up again, where another is by now", "Split in 18 holds Kick in already", func(e *plan.Edit) error {
			if err := patch.Strike(e, brass, ids[1]); err != nil {
				return err
			}
			if err := patch.Plug(e, brass, ids[4], r.socket("Split", 18), true); err != nil {
				return err
			}
			return patch.Clear(e, brass, ids[1])
		}},
	} {
		t.Run(c.name, func(t *testing.T) { r.refused(t, c.reason, c.edit) })
	}
	t.Run("a refusal leaves the edit as it was", func(t *testing.T) {
		before := r.plan
		r.do(func(e *plan.Edit) error { _ = plug(4, "Split", 17)(e); return nil })
		require.True(t, plan.Between(before, r.plan).Empty())
	})
	t.Run("what is free by wiring too is taken", func(t *testing.T) {
		for _, socket := range []patch.Socket{r.socket("Split", 21), r.socket("SL", 1), r.socket("MR", 5), r.socket("Snake", 12)} {
			_, err := plan.Do(r.plan, r.ids, func(e *plan.Edit) error { return patch.Plug(e, "", ids[4], socket, true) })
			require.NoError(t, err, socket)
		}
	})
	t.Run("what has no socket free says so", func(t *testing.T) {
		for n := 1; n <= 8; n++ {
			r.input(n+10, fmt.Sprint("Radio ", n))
			r.do(func(e *plan.Edit) error {
				return patch.Plug(e, "", r.inputs[fmt.Sprint("Radio ", n)], patch.Socket{Device: r.devices["RF"], Number: n, Output: true}, true)
			})
		}
		r.refused(t, "RF out 8 holds Radio 8 already: unplug that first or choose another device; RF has none free", func(e *plan.Edit) error {
			return patch.Plug(e, "", ids[4], patch.Socket{Device: r.devices["RF"], Number: 8, Output: true}, true)
		})
	})
}

func TestAPatchIsNotMovedOntoWhatWiringFeeds(t *testing.T) {
	r, ids := wired(t)
	r.device("SR", "stagebox-24-12")
	r.input(6, "Cello")
	r.do(func(e *plan.Edit) error { return patch.Plug(e, "", r.inputs["Cello"], r.socket("Split", 21), true) })
	r.do(func(e *plan.Edit) error { return patch.Plug(e, "", ids[4], r.socket("SR", 21), true) })
	r.refused(t, "SL in 21 is fed by Split in 21, Cello: unplug that first or choose 22", func(e *plan.Edit) error {
		return patch.Rehome(e, r.devices["SR"], r.devices["SL"])
	})
	stands, err := plan.Do(r.plan, nil, func(e *plan.Edit) error {
		require.Error(t, patch.Rehome(e, r.devices["SR"], r.devices["SL"]))
		return nil
	})
	require.NoError(t, err)
	require.Equal(t, r.plan, stands, "what is refused writes nothing")
	r.do(func(e *plan.Edit) error { return patch.Plug(e, "", ids[4], r.socket("SR", 22), true) })
	r.do(func(e *plan.Edit) error { return patch.Rehome(e, r.devices["SR"], r.devices["SL"]) })
	require.Equal(t, "Kick in → SL in 22", r.all("")[4])
}

// A channel stays with its input, in the house and in the acts that inherit, also where they say something themselves.
func TestAMoveTakesNoOthersChannels(t *testing.T) {
	r, ids := wired(t)
	brass := r.act(1, "Brass")
	r.do(func(e *plan.Edit) error { return patch.SetChannel(e, brass, ids[1], r.devices["FOH"], 9) })
	r.do(func(e *plan.Edit) error { return patch.Plug(e, brass, ids[2], r.socket("Snake", 3), true) })
	r.do(func(e *plan.Edit) error { return patch.Plug(e, "", ids[1], r.socket("SL", 1), true) })
	require.Equal(t, "Hat → SL in 1 → FOH 2, Mon 2 not reached", r.all("")[1])
	require.Equal(t, "Hat → SL in 1 → FOH 9, Mon 2 not reached", r.all(brass)[1], "the act's own channel goes along")
	r.do(func(e *plan.Edit) error { return patch.Plug(e, "", ids[2], r.socket("SL", 2), true) })
	require.Equal(t, "Ride → SL in 2 → FOH 3, Mon 3 not reached", r.all("")[2])
	require.Equal(t, "Ride → Snake in 3 → SL in 19 → FOH 3; → MR in 3 → Mon 3", r.all(brass)[2], "the act keeps what it had from the house")
	r.do(func(e *plan.Edit) error { return patch.Unplug(e, "", ids[0]) })
	r.do(func(e *plan.Edit) error { return patch.Plug(e, "", ids[4], r.socket("Split", 17), true) })
	require.Equal(t, "Kick in → Split in 17 → SL in 17; → MR in 1", r.all("")[4], "channels of what was there are none of its own")
}
