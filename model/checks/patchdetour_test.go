package checks_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/checks"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// around is the show with a box on a riser whose first two sockets come to FOH over SL, 120 m away, while a link of about 60 m
// leads straight to FOH.
func around(t *testing.T) *show {
	s := newShow(t)
	s.do(t, func(e *plan.Edit) {
		must(catalogue.Use(e, "stage-rack-48-20"))
		s.devices["Riser box"] = e.AddDevice(plan.Device{Name: "Riser box", Kind: "stage-rack-48-20", Y: 50})
		s.device(e, "SL", func(d *plan.Device) { d.X = 120 })
		s.links["L08"] = e.AddLink(plan.Link{Name: "L08", Transport: "aes50", Way: "straight", From: s.devices["Riser box"], FromPort: "AES50 1", To: s.devices["SL"], ToPort: "AES50 3"})
		s.links["L09"] = e.AddLink(plan.Link{Name: "L09", Transport: "aes50", Way: "straight", From: s.devices["FOH"], FromPort: "AES50 3", To: s.devices["Riser box"], ToPort: "AES50 2"})
		for i, id := range []plan.InputID{"i-99992", "i-99993"} {
			plan.Put(e, plan.Input{ID: id, Number: 91 + i, Name: []string{"Horn", "Harp"}[i]})
			plan.Put(e, plan.StagePatch{Input: id, Device: s.devices["Riser box"], Socket: i + 1})
			s.listen(e, "", "FOH", 41+i, "Riser box", i+1)
			plan.Put(e, plan.SlotPatch{Link: s.links["L08"], Direction: patch.Forward, Slot: i + 1, Device: s.devices["Riser box"], Socket: i + 1})
			plan.Put(e, plan.SlotPatch{Link: s.links["L01"], Direction: patch.Forward, Slot: 47 + i, Device: s.devices["Riser box"], Socket: i + 1})
		}
	})
	return s
}

const twoAround = "Riser box in 1 → FOH 41 and 1 more run 327.3 m over L08 and L01 in every act; L09 has room for them and is 70.3 m"

func TestDetours(t *testing.T) {
	s := around(t)
	found := ofRule(s.found(), "detour")
	require.Len(t, found, 1)
	require.Equal(t, twoAround, found[0].What)
	require.Equal(t, checks.Warn, found[0].Severity)
	t.Run("taken over the shorter way", func(t *testing.T) {
		fixes := checks.Fixes(s.Plan, found[0])
		require.Len(t, fixes, 1)
		require.Equal(t, "Take them over L09", fixes[0].Label)
		after := *s
		after.do(t, func(e *plan.Edit) { must(fixes[0].Edit(e)) })
		require.Empty(t, ofRule(after.found(), "detour"))
		line, _ := patch.Of(after.Plan).House().Line("i-99992")
		require.Equal(t, s.links["L09"], line.Channels()[0].Hops[0].Link)
	})
	for name, edit := range map[string]func(*show, *plan.Edit){
		"not 50 m more": func(s *show, e *plan.Edit) {
			s.device(e, "SL", func(d *plan.Device) { d.X = 22 })
			s.device(e, "Riser box", func(d *plan.Device) { d.Y = 20 })
		},
		"not twice as long": func(s *show, e *plan.Edit) { s.device(e, "Riser box", func(d *plan.Device) { d.Y = 160 }) },
		"no channel is free": func(s *show, e *plan.Edit) {
			for number := 1; number <= 48; number++ {
				plan.Put(e, plan.SlotPatch{Link: s.links["L09"], Direction: patch.Return, Slot: number, Use: "reserved"})
			}
		},
		"a length that nobody knows": func(s *show, e *plan.Edit) {
			s.device(e, "Riser box", func(d *plan.Device) { d.Unplaced = true })
		},
		"rates that differ": func(s *show, e *plan.Edit) {
			for _, name := range []string{"FOH", "SL"} {
				s.device(e, name, converts)
			}
			s.device(e, "FOH", func(d *plan.Device) { d.Converts, d.Rate = false, "96" })
		},
	} {
		t.Run(name, func(t *testing.T) {
			s := around(t)
			s.do(t, func(e *plan.Edit) { edit(s, e) })
			require.Empty(t, ofRule(s.found(), "detour"))
		})
	}
	t.Run("room for one of them", func(t *testing.T) {
		s := around(t)
		s.do(t, func(e *plan.Edit) {
			for number := 1; number <= 47; number++ {
				plan.Put(e, plan.SlotPatch{Link: s.links["L09"], Direction: patch.Return, Slot: number, Use: "reserved"})
			}
		})
		found := ofRule(s.found(), "detour")
		require.Len(t, found, 1)
		require.Contains(t, found[0].What, "L09 has room for 1 of them")
		require.Empty(t, checks.Fixes(s.Plan, found[0]))
	})
}
