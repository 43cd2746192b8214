package checks_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// device changes a device of the show.
func (s *show) device(e *plan.Edit, name string, with func(*plan.Device)) {
	must(plan.Update(e, plan.Key(s.devices[name]), with))
}

func at96(d *plan.Device)     { d.Rate = "96" }
func converts(d *plan.Device) { d.Converts = true }
func passesOn(d *plan.Device) { d.PassesOn = true }

// overFOH lets monitors listen to a harp on SL, to which FOH alone is joined.
func overFOH(s *show, e *plan.Edit) {
	e.AddLink(plan.Link{Name: "L05", Transport: "aes50", From: s.devices["FOH"], FromPort: "AES50 3", To: s.devices["Mon"], ToPort: "AES50 2"})
	plan.Put(e, plan.Input{ID: "i-99999", Number: 99, Name: "Harp"})
	plan.Put(e, plan.StagePatch{Input: "i-99999", Device: s.devices["SL"], Socket: 30})
	s.listen(e, "", "Mon", 40, "SL", 30)
}

const (
	between = "Mon 40 gets nothing in every act: FOH stands between and passes nothing on"
	parted  = "L01 and L02 carry nothing from one to the other: SL runs at 48 kHz, FOH at 96 kHz; 4 inputs are dead: Kick, Hat, Bass and 1 more; 1 output: PA"
)

func ratesAndConsoles() []fault {
	return []fault{
		{"a console between", overFOH, always(told("no-arrival", checks.Stop, between))},
		{"a console between that passes signals on", func(s *show, e *plan.Edit) {
			overFOH(s, e)
			s.device(e, "FOH", passesOn)
			must(patch.Connect(e, s.at("SL", 30), s.devices["Mon"]))
		}, nil},
		{"an output over a console", func(s *show, e *plan.Edit) {
			overFOH(s, e)
			s.listen(e, "", "Mon", 40, "MR", 1)
			plan.Put(e, plan.OutputPatch{Output: "o-33333", Console: s.devices["Mon"], Device: s.devices["SL"], Socket: 2})
			plan.Put(e, plan.StagePatch{Input: "i-99999", Strike: true})
		}, always(told("no-console", checks.Stop, "Wedge does not get from Mon to SL out 2 in every act: FOH stands between and passes nothing on"))},
		{"one end at another rate", func(s *show, e *plan.Edit) { s.device(e, "FOH", at96) }, told("rates-apart", checks.Stop, parted)},
		{"both ends at another rate", func(s *show, e *plan.Edit) {
			s.device(e, "FOH", func(d *plan.Device) { d.Rate = "44.1" })
			s.device(e, "SL", func(d *plan.Device) { d.Rate = "44.1" })
		}, nil},
		{"one end at another rate that converts", func(s *show, e *plan.Edit) { s.device(e, "FOH", at96); s.device(e, "FOH", converts) }, nil},
		{
			"a box that converts runs its link at the console's rate", func(s *show, e *plan.Edit) { s.device(e, "FOH", at96); s.device(e, "SL", converts) },
			told("slots-over", checks.Stop, "L01 carries 24 channels each way at 96 kHz, and 48 are assigned going out, up to channel 48"),
		},
		{"three devices at two rates are told once", func(s *show, e *plan.Edit) {
			e.AddLink(plan.Link{Name: "L05", Transport: "aes50", From: s.devices["FOH"], FromPort: "AES50 3", To: s.devices["MR"], ToPort: "AES50 3"})
			s.device(e, "FOH", at96)
		}, told("rates-apart", checks.Stop, "L01, L02 and L05 carry nothing from one to the other: MR and SL run at 48 kHz, FOH at 96 kHz; 4 inputs are dead: Kick, Hat, Bass and 1 more; 1 output: PA")},
		{
			"a guest at another rate behind a drop", func(s *show, e *plan.Edit) { s.device(e, "Guest", at96) },
			toldIn(second, "rates-apart", checks.Stop, "L04 carries nothing from one to the other in Strings: MR runs at 48 kHz, Guest at 96 kHz; 1 input is dead: Kick"),
		},
		{"multicore knows no rate", func(s *show, e *plan.Edit) { s.device(e, "Split", at96) }, nil},
	}
}

func TestRatesAndConsoles(t *testing.T) {
	for _, c := range ratesAndConsoles() {
		t.Run(c.name, func(t *testing.T) {
			s := newShow(t)
			sound := s.Plan
			s.do(t, func(e *plan.Edit) { c.edit(s, e) })
			got := s.found()
			for i := range got {
				require.False(t, ruleNamed(t, got[i].Rule).Same(sound, s.Plan))
				require.NotEmpty(t, got[i].Remedy)
				got[i].Remedy, got[i].Where = "", nil
			}
			require.Equal(t, c.want, got)
		})
	}
}

func TestFixesOfRatesAndConsoles(t *testing.T) {
	for name, c := range map[string]struct {
		edit   func(*show, *plan.Edit)
		labels []string
	}{
		"a console between":       {overFOH, []string{"FOH passes signals on"}},
		"one end at another rate": {func(s *show, e *plan.Edit) { s.device(e, "FOH", at96) }, []string{"Set FOH to 48 kHz", "FOH converts sample rates"}},
	} {
		t.Run(name, func(t *testing.T) {
			s := newShow(t)
			s.do(t, func(e *plan.Edit) { c.edit(s, e) })
			var labels []string
			for _, fix := range checks.Fixes(s.Plan, s.found()[0]) {
				labels = append(labels, fix.Label)
				after := *s
				after.do(t, func(e *plan.Edit) { must(fix.Edit(e)) })
				require.Empty(t, after.found(), fix.Label)
			}
			require.Equal(t, c.labels, labels)
		})
	}
}

// What lies beyond the channels that are counted by hand, 48 at 48 kHz and 24 at 96 kHz of AES50, is told dead, by name.
func TestInputsBeyondALinkAreCountedByHand(t *testing.T) {
	for _, c := range []struct {
		rate  string
		first int // of four channels in a row
		dead  string
	}{
		{"48", 45, ""},
		{"96", 21, ""},
		{"96", 22, "; 1 input is dead: Keys"},
		{"96", 23, "; 2 inputs are dead: Bass and Keys"},
		{"88.2", 25, "; 4 inputs are dead: Kick, Hat, Bass and 1 more"},
	} {
		t.Run(fmt.Sprint(c.rate, " from ", c.first), func(t *testing.T) {
			s := newShow(t)
			s.do(t, func(e *plan.Edit) {
				for row := range e.Now().SlotPatches.All() {
					if row.Link == s.links["L03"] {
						plan.Drop[plan.SlotPatch](e, row.Key())
					}
				}
				for i := range 4 {
					plan.Put(e, plan.SlotPatch{Link: s.links["L03"], Direction: patch.Forward, Slot: c.first + i, Device: s.devices["MR"], Socket: 1 + i})
				}
				s.device(e, "Mon", func(d *plan.Device) { d.Rate = c.rate })
				s.device(e, "MR", converts)
			})
			said := ""
			for _, finding := range ofRule(s.found(), "slots-over") {
				said += finding.What
			}
			want := ""
			if c.dead != "" {
				want = fmt.Sprintf("L03 carries 24 channels each way at %s kHz, and 4 are assigned going out, up to channel %d%s", c.rate, c.first+3, c.dead)
			}
			require.Equal(t, want, said)
		})
	}
}
