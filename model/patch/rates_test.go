package patch_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// chained is a box at FOH, FOH joined to monitors, and both listen to its third socket, on whose channels 3 and 31 it lies.
func chained(t *testing.T) *rig {
	r := newRig(t)
	r.device("SL", "stage-rack-48-20")
	r.device("FOH", "console-72")
	r.device("Mon", "console-56")
	r.link("L01", "SL", "AES50 1", "FOH", "AES50 1")
	r.link("L02", "FOH", "AES50 2", "Mon", "AES50 1")
	r.input(1, "Kick")
	r.stage("", "Kick", "SL", 3)
	r.channel("", "FOH", 1, "SL", 3)
	r.channel("", "Mon", 1, "SL", 3)
	r.slot("L01", patch.Forward, 3, "SL", 3)
	r.slot("L02", patch.Forward, 31, "SL", 3)
	return r
}

// set changes a device.
func (r *rig) set(name string, with func(*plan.Device)) {
	r.do(func(e *plan.Edit) error { return plan.Update(e, plan.Key(r.devices[name]), with) })
}

func (r *rig) rate(name, rate string) { r.set(name, func(d *plan.Device) { d.Rate = rate }) }

func TestAConsolePassesNothingOnUnlessItSaysSo(t *testing.T) {
	r := chained(t)
	r.says(t, "", "Kick", "Kick → SL in 3 → FOH 1, Mon 1 not reached, FOH passes nothing on")
	r.set("FOH", func(d *plan.Device) { d.PassesOn = true })
	r.says(t, "", "Kick", "Kick → SL in 3 → FOH 1, Mon 1 (FOH re-sends)")
	line := r.line("", "Kick")
	require.Equal(t, "L01 3, FOH re-sends, L02 31", line.view.SlotWords(line.Channels()[1].Hops))
	t.Run("and not where a link leads past it", func(t *testing.T) {
		r.link("L03", "SL", "AES50 2", "Mon", "AES50 2")
		r.do(func(e *plan.Edit) error { return patch.Connect(e, r.socket("SL", 3), r.devices["Mon"]) })
		r.says(t, "", "Kick", "Kick → SL in 3 → FOH 1, Mon 1")
	})
	t.Run("and an output neither", func(t *testing.T) {
		r = chained(t)
		put(r, plan.Output{ID: "o-22222", Number: 1, Name: "Wedge"})
		put(r, plan.OutputPatch{Output: "o-22222", Console: r.devices["Mon"], Device: r.devices["SL"], Socket: 4})
		r.refused(t, "FOH stands between Mon and SL and passes nothing on", func(e *plan.Edit) error {
			return patch.Connect(e, patch.Socket{Device: r.devices["SL"], Number: 4, Output: true}, r.devices["Mon"])
		})
		v := patch.Of(r.plan)
		require.Equal(t, patch.Spot{Cause: patch.NotPassed, Device: r.devices["FOH"]}, v.House().OutputLost(v.House().Outputs[0]))
		r.set("FOH", func(d *plan.Device) { d.PassesOn = true })
		r.do(func(e *plan.Edit) error {
			return patch.Connect(e, patch.Socket{Device: r.devices["SL"], Number: 4, Output: true}, r.devices["Mon"])
		})
		v = patch.Of(r.plan)
		require.Equal(t, "Wedge → Mon → SL out 4 (FOH re-sends)", v.OutputWords(v.House().Outputs[0]))
	})
}

func TestALinkRunsAtTheRateOfItsEnds(t *testing.T) {
	r := chained(t)
	r.set("FOH", func(d *plan.Device) { d.PassesOn = true })
	reached, apart := "Kick → SL in 3 → FOH 1, Mon 1 (FOH re-sends)", "Kick → SL in 3 → FOH 1 not carried from 48 kHz to 96 kHz, Mon 1 not carried from 48 kHz to 96 kHz"
	capacity := func(link string) int {
		_, capacity := patch.Of(r.plan).Slots(patch.Of(r.plan).House(), r.links[link])
		return capacity
	}
	r.says(t, "", "Kick", reached)
	r.rate("FOH", "96")
	r.says(t, "", "Kick", apart)
	require.Len(t, patch.Of(r.plan).Seams(), 2, "towards SL and towards Mon")
	r.rate("SL", "96")
	r.says(t, "", "Kick", "Kick → SL in 3 → FOH 1, Mon 1 not carried from 96 kHz to 48 kHz")
	require.Equal(t, []int{24, 48}, []int{capacity("L01"), capacity("L02")}, "L02 carries nothing at either")
	r.set("Mon", func(d *plan.Device) { d.Converts = true })
	r.says(t, "", "Kick", "Kick → SL in 3 → FOH 1, Mon 1 not carried at 96 kHz")
	require.Equal(t, 24, capacity("L02"), "it runs at FOH's rate")
	r.rate("SL", "")
	r.set("FOH", func(d *plan.Device) { d.Converts = true })
	r.says(t, "", "Kick", reached)
	require.Equal(t, []int{48, 48}, []int{capacity("L01"), capacity("L02")}, "both ends of L02 convert: it runs at the plan's")
	require.Empty(t, patch.Of(r.plan).Seams())
}

// A guest brings a rate of its own to the link of its drop, in its act alone.
func TestAGuestAt96kHzHalvesTheLinkOfItsDrop(t *testing.T) {
	r := newRig(t)
	for _, d := range [][2]string{{"SL", "stage-rack-48-20"}, {"Guest", "console-40"}, {"Drop", "drop-aes50"}} {
		r.device(d[0], plan.KindID(d[1]))
	}
	r.link("L01", "SL", "AES50 1", "Drop", "BACK")
	r.input(1, "Kick")
	r.input(2, "Hat")
	brass, choir := r.act(1, "Brass"), r.act(2, "Choir")
	put(r, plan.ActConsole{Act: brass, Console: r.devices["Guest"], Drop: r.devices["Drop"]})
	for i, name := range []string{"Kick", "Hat"} {
		r.stage("", name, "SL", i+1)
		r.channel(brass, "Guest", i+1, "SL", i+1)
		r.slot("L01", patch.Forward, []int{24, 25}[i], "SL", i+1)
	}
	capacity := func(id plan.ActID) int {
		v := patch.Of(r.plan)
		act, _ := v.Act(id)
		_, capacity := v.Slots(act, r.links["L01"])
		return capacity
	}
	r.says(t, brass, "Hat", "Hat → SL in 2 → Guest 2")
	r.rate("Guest", "96")
	seams := patch.Of(r.plan).Seams()
	require.Len(t, seams, 1)
	require.Equal(t, []plan.ActID{brass}, seams[0].Acts)
	r.set("SL", func(d *plan.Device) { d.Converts = true })
	require.Empty(t, patch.Of(r.plan).Seams())
	r.says(t, brass, "Kick", "Kick → SL in 1 → Guest 1")
	r.says(t, brass, "Hat", "Hat → SL in 2 → Guest 2 not carried at 96 kHz")
	require.Equal(t, []int{24, 48, 48}, []int{capacity(brass), capacity(choir), capacity("")})
	r.input(3, "Bass")
	r.stage("", "Bass", "SL", 3)
	for number := 1; number < 24; number++ {
		put(r, plan.SlotPatch{Link: r.links["L01"], Direction: patch.Forward, Slot: number, Use: "reserved"})
	}
	r.channel(brass, "Guest", 3, "SL", 3)
	r.do(func(e *plan.Edit) error {
		_, refused := patch.GiveOut(e)
		require.ErrorContains(t, refused[len(refused)-1], "L01 has no channel left for SL in 3: it carries 24 each way at 96 kHz")
		return nil
	})
}

// A switch and a converter to fibre hand on what others send; what runs at two rates does not meet over a switch.
func TestWhatHandsOnHasNoRate(t *testing.T) {
	r := newRig(t)
	r.device("Box", "network-stagebox-40-20")
	r.device("Switch", "switch-8")
	r.device("FOH", "console-72")
	r.link("N01", "Box", "N1", "Switch", "1")
	r.link("N02", "Switch", "2", "FOH", "N1")
	r.input(1, "Kick")
	r.stage("", "Kick", "Box", 3)
	r.channel("", "FOH", 1, "Box", 3)
	r.do(func(e *plan.Edit) error { return patch.Connect(e, r.socket("Box", 3), r.devices["FOH"]) })
	r.says(t, "", "Kick", "Kick → Box in 3 → FOH 1")
	for _, name := range []string{"Box", "FOH"} {
		r.rate(name, "96")
	}
	r.says(t, "", "Kick", "Kick → Box in 3 → FOH 1")
	r.rate("Box", "48")
	r.says(t, "", "Kick", "Kick → Box in 3 → FOH 1 not carried from 48 kHz to 96 kHz")
	require.Empty(t, patch.Of(r.plan).Seams(), "each link has one end with a rate")
	r.rate("Switch", "48")
	require.Len(t, patch.Of(r.plan).Seams(), 1, "a switch that says a rate has it")
}
