package checks_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// left is what plans of before have: an act does without an input and its channels go on to what is plugged in there.
func (s *show) left(e *plan.Edit) {
	plan.Put(e, plan.StagePatch{Act: first, Input: s.inputs["Bass"], Strike: true})
	plan.Put(e, plan.Input{ID: "i-99999", Number: 9, Name: "Tuba", Act: first})
	plan.Put(e, plan.StagePatch{Act: first, Input: "i-99999", Device: s.devices["Split"], Socket: 3})
	plan.Put(e, plan.ConsolePatch{Act: first, Console: s.devices["FOH"], Channel: 37, Device: s.devices["SL"], Socket: 3})
}

// A channel of what an act does without is left empty there by the fix, in no other act, and by striking it now at once.
func TestALeftChannelIsFreed(t *testing.T) {
	s := newShow(t)
	s.do(t, s.left)
	found := ofRule(s.found(), "channel-left")
	require.Len(t, found, 1)
	fixes := checks.Fixes(s.Plan, found[0])
	require.Len(t, fixes, 1)
	require.Equal(t, "Leave empty in the act what is not used", fixes[0].Label)
	house := patch.Of(s.Plan).House().Lines
	s.do(t, func(e *plan.Edit) { must(fixes[0].Edit(e)) })
	require.Empty(t, ofRule(s.found(), "channel-left"))
	v := patch.Of(s.Plan)
	require.Equal(t, house, v.House().Lines)
	act, _ := v.Act(first)
	tuba, _ := act.Line("i-99999")
	require.Equal(t, 37, tuba.Number(s.devices["FOH"]))
	s = newShow(t)
	s.do(t, func(e *plan.Edit) {
		must(patch.Strike(e, first, s.inputs["Bass"]))
		plan.Put(e, plan.Input{ID: "i-99999", Number: 9, Name: "Tuba", Act: first})
		must(patch.Plug(e, first, "i-99999", s.at("Split", 3), true))
		must(patch.SetChannel(e, first, "i-99999", s.devices["FOH"], 37))
		must(patch.Sort(e, first, []plan.InputID{s.inputs["Keys"], "i-99999", s.inputs["Bass"]}, true))
	})
	require.Empty(t, ofRule(s.found(), "channel-left"))
}
