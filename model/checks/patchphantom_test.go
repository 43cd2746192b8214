package checks_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

func TestAChangeoverThatComesAgainIsOneFinding(t *testing.T) {
	s := newShow(t)
	third, fourth := plan.ActID("n-44444"), plan.ActID("n-55555")
	s.do(t, func(e *plan.Edit) {
		plan.Put(e, plan.Act{ID: third, Name: "Folk", Order: 3, Stage: "Main"})
		plan.Put(e, plan.Act{ID: fourth, Name: "Choir", Order: 4, Stage: "Main"})
		must(patch.Swap(e, second, s.inputs["Hat"], s.inputs["Bass"], true))
		must(patch.Swap(e, fourth, s.inputs["Hat"], s.inputs["Bass"], true))
	})
	var left []checks.Finding
	for _, finding := range s.found() {
		if finding.Rule == "phantom-left" {
			left = append(left, finding)
		}
	}
	require.Len(t, left, 2)
	require.Equal(t, "SL in 2 had 48 V for Hat in Brass and Folk, and Bass (DI) comes on it in Strings and Choir", left[0].What)
	require.Equal(t, []plan.ActID{second, fourth}, left[0].Acts)
	require.Equal(t, "SL in 3 had 48 V for Hat in Strings, and Bass (DI) comes on it in Folk", left[1].What)
}

// typed gives an input a type and says whether it wants 48 V.
func (s *show) typed(e *plan.Edit, name, use string, phantom bool) {
	must(plan.Update(e, plan.Key(s.inputs[name]), func(i *plan.Input) { i.Use, i.Phantom = use, phantom }))
}

func TestPhantomByType(t *testing.T) {
	for _, c := range []struct {
		name string
		edit func(*show, *plan.Edit)
		want []checks.Finding
	}{
		{
			"a condenser without", func(s *show, e *plan.Edit) { s.typed(e, "Kick", patch.Condenser, false) },
			told("phantom-missing", checks.Warn, "Kick (condenser) is not marked as wanting 48 V"),
		},
		{"a condenser with", func(s *show, e *plan.Edit) { s.typed(e, "Kick", patch.Condenser, true) }, nil},
		{
			"a condenser by its source's words", func(s *show, e *plan.Edit) {
				must(plan.Update(e, plan.Key(s.inputs["Kick"]), func(i *plan.Input) { i.Source = "Kondensator" }))
			},
			told("phantom-missing", checks.Warn, "Kick (condenser) is not marked as wanting 48 V"),
		},
		{
			"an active DI on a battery", func(s *show, e *plan.Edit) {
				s.typed(e, "Bass", patch.ActiveDI, false)
				must(plan.Update(e, plan.Key(s.inputs["Bass"]), func(i *plan.Input) { i.Note = "own box, battery" }))
			},
			told("phantom-missing", checks.Note, "Bass (active DI) has no 48 V and runs on a battery"),
		},
		{
			"a ribbon with", func(s *show, e *plan.Edit) { s.typed(e, "Hat", patch.Ribbon, true) },
			always(told("phantom-arrives", checks.Stop, "48 V comes to Hat (ribbon), which it can damage: from SL in 2, switched by FOH, across Split in every act")),
		},
		{"a ribbon without", func(s *show, e *plan.Edit) { s.typed(e, "Hat", patch.Ribbon, false) }, nil},
		{
			"a line output with", func(s *show, e *plan.Edit) { s.typed(e, "Keys", patch.LineType, true) },
			always(told("phantom-arrives", checks.Stop, "48 V comes to Keys (line output), which it can damage: from SL in 4, switched by FOH, across Split in every act")),
		},
		{
			"a ribbon with, where none can come", func(s *show, e *plan.Edit) {
				s.typed(e, "Hat", patch.Ribbon, true)
				must(plan.Update(e, plan.PortKey("splitter-48", "A1"), func(r *plan.KindPort) { r.Splitter = "isolated" }))
			},
			always(told("phantom-arrives", checks.Warn, "Hat (ribbon) is marked as wanting 48 V, which can damage it in every act")),
		},
		{
			"a dynamic microphone with", func(s *show, e *plan.Edit) { s.typed(e, "Kick", patch.Dynamic, true) },
			always(told("phantom-arrives", checks.Warn, "Kick (dynamic) is marked as wanting 48 V, and does without in every act")),
		},
		{
			"a passive DI with", func(s *show, e *plan.Edit) { s.typed(e, "Bass", patch.PassiveDI, true) },
			always(told("phantom-arrives", checks.Warn, "Bass (passive DI) is marked as wanting 48 V, and does without in every act")),
		},
		{
			"a ribbon on the box that a condenser's splitter leads to", func(s *show, e *plan.Edit) {
				plan.Put(e, plan.Input{ID: "i-99999", Number: 9, Name: "Room", Use: "ribbon"})
				plan.Put(e, plan.StagePatch{Input: "i-99999", Device: s.devices["SL"], Socket: 2})
			},
			always(slices.Concat(
				told("double-patched", checks.Stop, "SL in 2 holds two inputs in every act: Hat and Room"),
				told("phantom-arrives", checks.Stop, "48 V for Hat at SL in 2, switched by FOH comes to Room (ribbon) too, which it can damage in every act"),
			)),
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newShow(t)
			s.do(t, func(e *plan.Edit) { c.edit(s, e) })
			requireTold(t, c.want, s.found())
		})
	}
}

// requireTold compares rule, severity, words and acts.
func requireTold(t *testing.T, want, got []checks.Finding) {
	t.Helper()
	for i := range got {
		require.NotEmpty(t, got[i].Remedy)
		got[i].Remedy, got[i].Where = "", nil
	}
	require.Len(t, got, len(want))
	for i := range want {
		require.Equal(t, []any{want[i].Rule, want[i].Severity, want[i].What, want[i].Acts}, []any{got[i].Rule, got[i].Severity, got[i].What, got[i].Acts})
	}
}

func TestPhantomLeftOnByType(t *testing.T) {
	for _, c := range []struct {
		use  string
		want []checks.Finding
	}{
		{patch.Ribbon, toldIn(second, "phantom-left", checks.Stop, "SL in 2 had 48 V for Hat in Brass, and Bass (ribbon) comes on it in Strings")},
		{patch.LineType, toldIn(second, "phantom-left", checks.Stop, "SL in 2 had 48 V for Hat in Brass, and Bass (line output) comes on it in Strings")},
		{patch.PassiveDI, toldIn(second, "phantom-left", checks.Warn, "SL in 2 had 48 V for Hat in Brass, and Bass (passive DI) comes on it in Strings")},
		{patch.MicType, toldIn(second, "phantom-left", checks.Note, "SL in 2 had 48 V for Hat in Brass, and Bass (mic) comes on it in Strings: ask whether it is a ribbon")},
		{patch.Dynamic, nil},
	} {
		t.Run(c.use, func(t *testing.T) {
			s := newShow(t)
			s.do(t, func(e *plan.Edit) {
				s.typed(e, "Bass", c.use, false)
				must(patch.Swap(e, second, s.inputs["Hat"], s.inputs["Bass"], true))
			})
			found := s.found()
			if c.use == patch.Ribbon {
				require.Equal(t, "Mute, switch 48 V off, wait some seconds until it has gone, then plug the ribbon and leave 48 V off; or take another socket.", found[0].Remedy)
			}
			requireTold(t, c.want, found)
		})
	}
	t.Run("on another stage", func(t *testing.T) {
		s := newShow(t)
		s.do(t, func(e *plan.Edit) {
			s.typed(e, "Bass", patch.Ribbon, false)
			must(plan.Update(e, plan.Key(second), func(a *plan.Act) { a.Stage = "Barn" }))
			must(patch.Swap(e, second, s.inputs["Hat"], s.inputs["Bass"], true))
		})
		require.Empty(t, s.found())
	})
	t.Run("on the isolated box", func(t *testing.T) {
		s := newShow(t)
		s.do(t, func(e *plan.Edit) {
			plan.Put(e, plan.Input{ID: "i-99999", Number: 9, Name: "Room", Use: "ribbon", Act: second})
			must(patch.Strike(e, second, s.inputs["Hat"]))
			must(patch.Plug(e, second, "i-99999", s.at("MR", 2), false))
		})
		require.Empty(t, ofRule(s.found(), "phantom-left"), "MR never gave the 48 V")
	})
}

func TestWhomToAskFor48V(t *testing.T) {
	s := newShow(t)
	s.do(t, func(e *plan.Edit) { patch.Own(e, "", s.at("MR", 2), "", s.devices["Mon"]) })
	blocked := ofRule(s.found(), "phantom-blocked")
	require.Len(t, blocked, 1)
	require.Equal(t, "Ask FOH to switch it at SL in 2, from where it comes through, and name it as owner there.", blocked[0].Remedy)

	s = newShow(t)
	s.do(t, func(e *plan.Edit) {
		must(plan.Update(e, plan.PortKey("splitter-48", "B1"), func(r *plan.KindPort) { r.Splitter = "direct" }))
	})
	undecided := ofRule(s.found(), "two-owners")
	require.Len(t, undecided, 1)
	require.Equal(t, checks.Note, undecided[0].Severity)
	require.Equal(t, "Nobody is named to switch 48 V for Hat in every act, and it can come from SL in 2 and MR in 2", undecided[0].What)
	s.do(t, func(e *plan.Edit) { patch.Own(e, "", s.at("SL", 2), "", s.devices["FOH"]) })
	require.Empty(t, s.found(), "one is named")
}
