package patch_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

func TestTheLineACrewReadsAloud(t *testing.T) {
	r := festival(t)
	r.says(t, "", "Kick in", "Kick in → SL in 3 → FOH 1, Mon 1")
	line := r.line("", "Kick in")
	require.Equal(t, "L01 3", line.view.SlotWords(line.Legs[0].Channels[0].Hops))
	require.Equal(t, "L02 3", line.view.SlotWords(line.Legs[0].Channels[1].Hops))
	require.Equal(t, 1, line.Number(r.devices["Mon"]))
}

func TestAnActStoresOnlyWhatDiffers(t *testing.T) {
	r := festival(t)
	r.input(2, "Hat")
	r.stage("", "Hat", "SL", 4)
	r.slot("L01", patch.Forward, 4, "SL", 4)
	r.channel("", "FOH", 2, "SL", 4)
	brass := r.act(1, "Brass")
	strings := r.act(2, "Strings")
	t.Run("a blank inherits", func(t *testing.T) {
		put(r, plan.StagePatch{Act: brass, Input: r.inputs["Kick in"]})
		r.says(t, brass, "Kick in", "Kick in → SL in 3 → FOH 1, Mon 1")
	})
	t.Run("a row of its own holds", func(t *testing.T) {
		r.stage(brass, "Kick in", "SL", 4)
		r.says(t, brass, "Kick in", "Kick in → SL in 4 → FOH 2")
		r.says(t, strings, "Kick in", "Kick in → SL in 3 → FOH 1, Mon 1")
	})
	t.Run("strike takes away", func(t *testing.T) {
		put(r, plan.StagePatch{Act: strings, Input: r.inputs["Kick in"], Strike: true})
		r.says(t, strings, "Kick in", "Kick in → not used")
		put(r, plan.ConsolePatch{Act: brass, Console: r.devices["FOH"], Channel: 2, Strike: true})
		r.says(t, brass, "Hat", "Hat → SL in 4")
		r.says(t, strings, "Hat", "Hat → SL in 4 → FOH 2")
	})
	t.Run("an input of one act's own list is absent in the others", func(t *testing.T) {
		r.input(3, "Harp", func(i *plan.Input) { i.Act = strings })
		r.stage(strings, "Harp", "SL", 5)
		r.says(t, strings, "Harp", "Harp → SL in 5")
		for _, act := range []plan.ActID{"", brass} {
			a, _ := patch.Of(r.plan).Act(act)
			_, found := a.Line(r.inputs["Harp"])
			require.False(t, found)
		}
	})
	t.Run("what nothing of its own touches is the house's own line", func(t *testing.T) {
		v := patch.Of(r.plan)
		a, _ := v.Act(strings)
		hat, _ := a.Line(r.inputs["Hat"])
		require.False(t, v.Differs(a, hat))
		kick, _ := a.Line(r.inputs["Kick in"])
		require.True(t, v.Differs(a, kick))
	})
}

func TestAReaderOfOneActMeetsNoActs(t *testing.T) {
	r := festival(t)
	v := patch.Of(r.plan)
	require.Len(t, v.Shown(), 1)
	require.Empty(t, v.ActName(""))
	only := r.act(1, "Brass")
	v = patch.Of(r.plan)
	require.Len(t, v.Shown(), 1)
	require.Equal(t, only, v.Shown()[0].Act.ID)
	require.Empty(t, v.ActName(only))
	r.act(2, "Strings")
	v = patch.Of(r.plan)
	require.Len(t, v.Shown(), 3)
	require.Equal(t, "House", v.ActName(""))
	require.Equal(t, "Brass", v.ActName(only))
}

func TestWaysMapThrough(t *testing.T) {
	r := newRig(t)
	r.device("Snake", "sub-snake-12-4")
	r.device("Split", "splitter-48")
	r.device("SL", "stage-rack-48-20")
	r.device("MR", "stage-rack-48-20")
	r.device("FOH", "console-72")
	r.device("Mon", "console-56")
	r.link("M01", "Snake", "M", "Split", "IN2")
	r.link("M02", "Split", "A2", "SL", "M2")
	r.link("M03", "Split", "B2", "MR", "M1")
	r.link("L01", "SL", "AES50 1", "FOH", "AES50 1")
	r.link("L02", "MR", "AES50 1", "Mon", "AES50 1")
	r.input(1, "Kick in", func(i *plan.Input) { i.Snake, i.SnakeWay, i.Phantom = r.devices["Snake"], 3, true })
	r.slot("L01", patch.Forward, 19, "SL", 19)
	r.slot("L02", patch.Forward, 3, "MR", 3)
	r.channel("", "FOH", 1, "SL", 19)
	r.channel("", "Mon", 5, "MR", 3)
	t.Run("a sub-snake's way goes through a splitter to both boxes", func(t *testing.T) {
		r.says(t, "", "Kick in", "Kick in → Snake in 3 → SL in 19 → FOH 1; → MR in 3 → Mon 5")
		line := r.line("", "Kick in")
		require.False(t, line.Legs[0].Isolated, "way A is direct")
		require.True(t, line.Legs[1].Isolated, "way B is isolated")
		require.Equal(t, []patch.Socket{{Device: r.devices["Split"], Number: 19}}, line.Legs[0].Through)
		require.Equal(t, []patch.Way{{Link: r.links["M01"], Number: 3}, {Link: r.links["M02"], Number: 3}}, line.Legs[0].Ways)
	})
	t.Run("patched at the splitter by hand, a way that does not lead there is not said", func(t *testing.T) {
		r.stage("", "Kick in", "Split", 19)
		r.says(t, "", "Kick in", "Kick in → Snake in 3 → Split in 19 → SL in 19 → FOH 1; → MR in 3 → Mon 5")
		r.stage("", "Kick in", "Split", 20)
		r.says(t, "", "Kick in", "Kick in → Split in 20 → SL in 20; → MR in 4")
	})
	t.Run("a channel may name the splitter's own socket", func(t *testing.T) {
		r.slot("L02", patch.Forward, 4, "MR", 4)
		r.channel("", "Mon", 6, "Split", 20)
		r.says(t, "", "Kick in", "Kick in → Split in 20 → SL in 20; → MR in 4 → Mon 6")
	})
	t.Run("a multicore carries no more ways than it has", func(t *testing.T) {
		r.do(func(e *plan.Edit) error {
			plan.Put(e, plan.CableKind{ID: "multi-2", Name: "Two", Media: "analogue-multicore", Ways: 2})
			e.SetSegments(r.links["M02"], []plan.Segment{{Kind: "multi-2", Length: 5}})
			return nil
		})
		r.says(t, "", "Kick in", "Kick in → Split in 20 → MR in 4 → Mon 6")
	})
}

func TestAnActiveSplitterKeeps48VToItself(t *testing.T) {
	r := newRig(t)
	r.device("Split", "active-splitter-16")
	r.device("SL", "stage-rack-48-20")
	r.device("MR", "stage-rack-48-20")
	r.link("M01", "Split", "A", "SL", "M1")
	r.link("M02", "Split", "B", "MR", "M1")
	r.input(1, "Hat")
	r.stage("", "Hat", "Split", 2)
	line := r.line("", "Hat")
	require.Len(t, line.Legs, 2)
	require.True(t, line.Legs[0].Isolated && line.Legs[1].Isolated)
}

func TestConvertersAndPairsCarryTheSameSlots(t *testing.T) {
	r := newRig(t)
	r.device("SL", "stagebox-40-20")
	r.device("C1", "aes50-converter")
	r.device("C2", "aes50-converter")
	r.device("FOH", "console-72")
	r.link("L01", "FOH", "AES50 1", "SL", "AES50 1")
	r.link("L02", "SL", "AES50 2", "C1", "AES50")
	r.link("F01", "C2", "F", "C1", "F")
	r.link("L03", "C2", "AES50", "FOH", "AES50 2")
	r.do(func(e *plan.Edit) error { return e.Pair(r.links["L01"], r.links["F01"]) })
	r.input(1, "Kick in")
	r.stage("", "Kick in", "SL", 3)
	r.channel("", "FOH", 1, "SL", 3)
	r.slot("L01", patch.Return, 7, "SL", 3)
	line := r.line("", "Kick in")
	require.True(t, line.Reached())
	require.Equal(t, []patch.Hop{{Link: r.links["L01"], Direction: patch.Return, Slot: 7}}, line.Legs[0].Channels[0].Hops)
	require.Equal(t, []patch.Hop{
		{Link: r.links["L02"], Direction: patch.Forward, Slot: 7},
		{Link: r.links["F01"], Direction: patch.Return, Slot: 7},
		{Link: r.links["L03"], Direction: patch.Forward, Slot: 7},
	}, line.Legs[0].Channels[0].Backup)
}

func TestDaisyChainedBoxesCarryShiftedBlocks(t *testing.T) {
	r := newRig(t)
	r.device("SR", "stagebox-24-12")
	r.device("SL", "stagebox-40-20")
	r.device("FOH", "console-72")
	r.link("L01", "SR", "AES50 1", "SL", "AES50 2")
	r.link("L02", "SL", "AES50 1", "FOH", "AES50 1")
	r.input(1, "Fiddle")
	r.stage("", "Fiddle", "SR", 2)
	r.channel("", "FOH", 34, "SR", 2)
	r.slot("L01", patch.Forward, 2, "SR", 2)
	r.says(t, "", "Fiddle", "Fiddle → SR in 2 → FOH 34 not reached")
	r.slot("L02", patch.Forward, 34, "SR", 2)
	r.says(t, "", "Fiddle", "Fiddle → SR in 2 → FOH 34")
	line := r.line("", "Fiddle")
	require.Equal(t, "L01 2, L02 34", line.view.SlotWords(line.Legs[0].Channels[0].Hops))
}

func TestAGuestConsolePlugsIntoADrop(t *testing.T) {
	r := festival(t)
	r.device("Drop", "drop-aes50")
	r.device("Guest", "console-56")
	r.device("SR", "stagebox-24-12")
	r.link("L03", "SR", "AES50 1", "Drop", "BACK")
	r.input(2, "Fiddle")
	r.stage("", "Fiddle", "SR", 2)
	r.slot("L03", patch.Forward, 2, "SR", 2)
	r.channel("", "Guest", 9, "SR", 2)
	brass, strings := r.act(1, "Brass"), r.act(2, "Strings")
	put(r, plan.ActConsole{Act: strings, Console: r.devices["Guest"], Port: "AES50 1", Drop: r.devices["Drop"], DropPort: "GUEST"})
	r.says(t, "", "Fiddle", "Fiddle → SR in 2")
	r.says(t, brass, "Fiddle", "Fiddle → SR in 2")
	r.says(t, strings, "Fiddle", "Fiddle → SR in 2 → Guest 9")
	t.Run("and a drop of ways brings its own inputs", func(t *testing.T) {
		r.device("Split", "splitter-48")
		r.device("Panel", "drop-panel-8-4")
		r.link("M01", "Split", "C1", "Panel", "M")
		r.input(3, "Hat")
		r.stage("", "Hat", "Split", 5)
		r.says(t, strings, "Hat", "Hat → Split in 5 → Panel in 5")
		put(r, plan.ActConsole{Act: strings, Console: r.devices["Guest"], Port: "AES50 2", Drop: r.devices["Panel"]})
		r.channel(strings, "Guest", 10, "Guest", 5)
		r.says(t, strings, "Hat", "Hat → Split in 5 → Guest in 5 → Guest 10")
		r.says(t, brass, "Hat", "Hat → Split in 5 → Panel in 5")
	})
}

func TestOwnersInheritPieceByPiece(t *testing.T) {
	r := festival(t)
	brass, strings := r.act(1, "Brass"), r.act(2, "Strings")
	put(
		r,
		plan.SocketOwner{Device: r.devices["SL"], Socket: 3, Gain: r.devices["FOH"], Phantom: r.devices["FOH"]},
		plan.SocketOwner{Act: brass, Device: r.devices["SL"], Socket: 3, Gain: r.devices["Mon"]},
		plan.SocketOwner{Act: strings, Device: r.devices["SL"], Socket: 3, Strike: true},
	)
	leg := r.line(brass, "Kick in").Legs[0]
	require.Equal(t, r.devices["Mon"], leg.Gain)
	require.Equal(t, r.devices["FOH"], leg.Phantom)
	leg = r.line(strings, "Kick in").Legs[0]
	require.Empty(t, leg.Gain)
	require.Empty(t, leg.Phantom)
}

func TestOutputsGoBackToABox(t *testing.T) {
	r := festival(t)
	put(r, plan.Output{ID: "o-22222", Number: 1, Name: "Monitor 1"})
	put(r, plan.OutputPatch{Output: "o-22222", Console: r.devices["Mon"], Device: r.devices["SL"], Socket: 4})
	v := patch.Of(r.plan)
	require.Equal(t, "Monitor 1 → Mon → SL out 4 not reached", v.OutputWords(v.House().Outputs[0]))
	put(r, plan.SlotPatch{Link: r.links["L02"], Direction: patch.Return, Slot: 4, Device: r.devices["SL"], Socket: 4, Output: true})
	v = patch.Of(r.plan)
	require.Equal(t, "Monitor 1 → Mon → SL out 4", v.OutputWords(v.House().Outputs[0]))
	require.Equal(t, "L02 4 back", v.SlotWords(v.House().Outputs[0].Hops))
}
