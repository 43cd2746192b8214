package patch_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// twoActs is a splitter with FOH on its direct side: a condenser on socket 1 in both acts, another on 2 that a ribbon follows, one on 3 that
// nothing follows, a condenser on 4 that comes with the second act, and one on 5 that another condenser follows.
func twoActs(t require.TestingT) (r *rig, one, two plan.ActID) {
	r = newRig(t)
	r.device("Split", "splitter-48")
	r.device("SL", "stage-rack-48-20")
	r.device("MR", "stage-rack-48-20")
	r.device("FOH", "console-72")
	r.link("M01", "Split", "A1", "SL", "M1")
	r.link("M02", "Split", "B1", "MR", "M1")
	r.link("L01", "SL", "AES50 1", "FOH", "AES50 1")
	one, two = r.act(1, "Brass"), r.act(2, "Strings")
	condenser := func(i *plan.Input) { i.Use, i.Phantom = patch.Condenser, true }
	for n, name := range []string{"Hat", "Sax", "Harp", "Fiddle", "Oboe"} {
		r.input(n+1, name, condenser)
	}
	r.input(6, "Room", func(i *plan.Input) { i.Use = patch.Ribbon })
	r.input(7, "Flute", condenser)
	for socket := 1; socket <= 5; socket++ {
		put(r, plan.SocketOwner{Device: r.devices["SL"], Socket: socket, Phantom: r.devices["FOH"]})
	}
	r.stage("", "Hat", "Split", 1)
	r.stage(one, "Sax", "Split", 2)
	r.stage(one, "Harp", "Split", 3)
	r.stage(one, "Oboe", "Split", 5)
	r.stage(two, "Room", "Split", 2)
	r.stage(two, "Fiddle", "Split", 4)
	r.stage(two, "Flute", "Split", 5)
	return r, one, two
}

func TestPhantomAtAChangeover(t *testing.T) {
	r, one, two := twoActs(t)
	v := patch.Of(r.plan)
	before, _ := v.Act(one)
	after, _ := v.Act(two)
	require.Equal(t, before, v.Previous(after))
	require.Nil(t, v.Previous(before))
	var got []string
	hurts := 0
	for _, change := range patch.PhantomChanges(v, before, after) {
		got = append(got, v.SocketWords(change.Socket)+": "+v.PhantomWords(change))
		if change.Hurts() {
			hurts++
			require.Equal(t, "Room", change.After.Input.Name)
			require.Equal(t, r.devices["FOH"], change.OffBy)
		}
	}
	require.Equal(t, []string{
		"SL in 1: stays on",
		"SL in 2: off (FOH), then plug Room: NO 48 V, ribbon",
		"SL in 3: off (FOH), before Harp is unplugged",
		"SL in 4: plug Fiddle, then on (FOH)",
		"SL in 5: off (FOH), plug Flute, then on (FOH)",
	}, got)
	require.Equal(t, 1, hurts)
	got = nil
	for _, change := range patch.PhantomChanges(v, nil, before) {
		got = append(got, v.SocketWords(change.Socket)+": "+v.PhantomWords(change))
	}
	require.Equal(t, []string{
		"SL in 1: plug Hat, then on (FOH)", "SL in 2: plug Sax, then on (FOH)", "SL in 3: plug Harp, then on (FOH)", "SL in 5: plug Oboe, then on (FOH)",
	}, got)
}

func TestCautionsStandAtTheSocketAndNotBehindAnIsolatedLeg(t *testing.T) {
	r, one, two := twoActs(t)
	v := patch.Of(r.plan)
	says := func(act plan.ActID, input, device string, number int) string {
		a, _ := v.Act(act)
		line, _ := a.Line(r.inputs[input])
		return v.PhantomSheet(a).At(line, patch.Socket{Device: r.devices[device], Number: number})
	}
	for _, c := range []struct {
		act       plan.ActID
		input, at string
		number    int
		want      string
	}{
		{one, "Sax", "Split", 2, "48 V"},
		{one, "Sax", "SL", 2, "48 V"},
		{one, "Sax", "MR", 2, ""},
		{two, "Hat", "Split", 1, "48 V"},
		{two, "Room", "Split", 2, "NO 48 V – ribbon; 48 V off before plugging"},
		{two, "Room", "SL", 2, "NO 48 V – ribbon; 48 V off before plugging"},
		{two, "Room", "MR", 2, ""},
		{two, "Flute", "Split", 5, "48 V; 48 V off before plugging"},
		{two, "Fiddle", "MR", 4, ""},
	} {
		require.Equal(t, c.want, says(c.act, c.input, c.at, c.number), "%s at %s", c.input, c.at)
	}
	a, _ := v.Act(two)
	line, _ := a.Line(r.inputs["Room"])
	require.Equal(t, []string{
		"NO 48 V: ribbon. It can come from SL in 2, switched by FOH, across Split.",
		"48 V off before plugging: SL in 2 had it for Sax in Brass.",
	}, v.PhantomSheet(a).Say(line))
	line, _ = a.Line(r.inputs["Fiddle"])
	require.Equal(t, []string{"48 V from SL in 4, switched by FOH, across Split."}, v.PhantomSheet(a).Say(line))
}

func Test48VStaysLeftOverAnActThatPlugsNothingThere(t *testing.T) {
	r, _, two := twoActs(t)
	three := r.act(3, "Choir")
	r.stage(three, "Room", "Split", 3)
	put(r, plan.StagePatch{Act: two, Input: r.inputs["Harp"], Strike: true})
	v := patch.Of(r.plan)
	a, _ := v.Act(three)
	left := v.LeftOn(a)
	require.Equal(t, "Harp", left[patch.Socket{Device: r.devices["SL"], Number: 3}].Line.Input.Name)
	require.NotContains(t, left, patch.Socket{Device: r.devices["SL"], Number: 2}, "the ribbon was plugged there with 48 V off")
}
