package patching_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/patching"
)

func TestTwoSelectedRowsBecomeAPairAndPartAgain(t *testing.T) {
	h, d := open(t, demo.Weekender())
	d.Do = func(name string, edit func(*plan.Edit) error) { require.NoError(t, h.Desk().Do(name, edit)) }
	ref := func(n int) plan.Ref { return plan.Ref{Table: plan.InputsTable, Key: plan.Key(h.inputs()[n])} }
	right := func() plan.InputID {
		row, _ := h.Desk().Plan().Inputs.Get(plan.Key(h.inputs()[0]))
		return row.Right
	}
	d.Rows = func() []plan.Ref { return []plan.Ref{ref(1), ref(0)} }
	d.Stereo()
	require.Equal(t, h.inputs()[1], right(), "the lower number is the left side")
	d.Stereo()
	require.Empty(t, right())
	d.Stereo()
	d.Rows = func() []plan.Ref { return []plan.Ref{ref(1)} }
	d.Stereo()
	require.Empty(t, right(), "one side alone parts its pair")
	d.Stereo()
	require.Empty(t, right(), "one alone makes none")
	out := func(n int) plan.Ref { return plan.RefOf(h.Desk().Plan().Outputs.At(n)) }
	d.Rows = func() []plan.Ref { return []plan.Ref{out(0), out(1)} }
	d.Stereo()
	house := h.Desk().Assessment().Patch.House()
	require.NotEmpty(t, house.OutputSide(h.Desk().Plan().Outputs.At(0)))
}

func TestWhatStaysBehindIsSaid(t *testing.T) {
	h, d := open(t, demo.Weekender())
	d.Do = func(name string, edit func(*plan.Edit) error) { require.NoError(t, h.Desk().Do(name, edit)) }
	ids := h.inputs()
	d.Rows = func() []plan.Ref {
		return []plan.Ref{{Table: plan.InputsTable, Key: plan.Key(ids[0])}, {Table: plan.InputsTable, Key: plan.Key(ids[1])}}
	}
	d.Stereo()
	before := h.Desk().Assessment().Patch
	act := d.ActShown()
	moved, err := plan.Do(h.Desk().Plan(), nil, func(e *plan.Edit) error {
		return patch.PlugOnly(e, act, []patch.Move{{Input: ids[0], To: freeSocket(before, act)}}, true)
	})
	require.NoError(t, err)
	require.Contains(t, patching.Stayed(before, patch.Of(moved), act), "what is behind the left side is not free")
	require.Empty(t, patching.Stayed(before, before, act))
}

// freeSocket is one that nothing lies on in an act.
func freeSocket(view *patch.View, id plan.ActID) patch.Socket {
	act, _ := view.Act(id)
	held := map[patch.Socket]bool{}
	for _, line := range act.Lines {
		for socket := range view.Lies(act, line) {
			held[socket] = true
		}
	}
	for device := range view.ByName() {
		for number := view.Sockets(device, false); number > 0; number-- {
			if s := (patch.Socket{Device: device, Number: number}); !held[s] && view.Phantom(s) && !view.Mixes(device) {
				return s
			}
		}
	}
	return patch.Socket{}
}
