package patch_test

import (
	"bytes"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/catalogue"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// ground is a plan with something of everything: a splitter, chained boxes, a pair, a converter, drops, a guest.
func ground(t require.TestingT) *rig {
	r := newRig(t)
	for name, kind := range map[string]plan.KindID{
		"Snake": "sub-snake-12-4", "Split": "splitter-48", "SL": "stage-rack-48-20", "MR": "stage-rack-48-20", "SR": "stagebox-24-12",
		"FOH": "console-72", "Mon": "console-56", "Guest": "console-40", "Drop": "drop-aes50", "Van": "broadcast-van", "Conv": "aes50-converter", "Back": "aes50-converter",
	} {
		r.devices[name] = plan.DeviceID(deviceIDs[name])
		r.do(func(e *plan.Edit) error {
			plan.Put(e, plan.Device{ID: r.devices[name], Name: name, Kind: kind})
			return catalogue.Use(e, kind)
		})
	}
	for _, l := range [][5]string{
		{"M01", "Snake", "M", "Split", "IN1"},
		{"M02", "Split", "A1", "SL", "M1"},
		{"M03", "Split", "B1", "MR", "M1"},
		{"M04", "Split", "C1", "Van", "M"},
		{"L01", "SL", "AES50 1", "FOH", "AES50 1"},
		{"L02", "SL", "AES50 2", "Conv", "AES50"},
		{"F01", "Conv", "F", "Back", "F"},
		{"L03", "Back", "AES50", "FOH", "AES50 2"},
		{"L04", "MR", "AES50 1", "Mon", "AES50 1"},
		{"L05", "SR", "AES50 1", "SL", "AES50 3"},
		{"L06", "MR", "AES50 2", "Drop", "BACK"},
	} {
		r.link(l[0], l[1], l[2], l[3], l[4])
	}
	r.do(func(e *plan.Edit) error { return e.Pair(r.links["L01"], r.links["F01"]) })
	for n := range 3 {
		r.act(n+1, fmt.Sprintf("Act %d", n+1))
	}
	for n := 1; n <= 10; n++ {
		r.input(n, fmt.Sprintf("In %d", n), func(i *plan.Input) {
			switch {
			case n > 8:
				i.Act = actIDs[n-7]
			case n > 6:
				i.Snake, i.SnakeWay = r.devices["Snake"], n
			}
		})
	}
	put(r, plan.Output{ID: "o-22222", Number: 1, Name: "PA"}, plan.Output{ID: "o-33333", Number: 2, Name: "Wedge"})
	return r
}

var deviceIDs = map[string]string{
	"Snake": "d-22222", "Split": "d-33333", "SL": "d-44444", "MR": "d-55555", "SR": "d-66666", "FOH": "d-77777", "Mon": "d-88888",
	"Guest": "d-99999", "Drop": "d-bbbbb", "Van": "d-ccccc", "Conv": "d-ddddd", "Back": "d-fffff",
}

var actIDs = []plan.ActID{"", "n-22222", "n-22223", "n-22224"}

// step draws a change of the patch: a raw row of any act, or one of the edits.
func step(t *rapid.T, r *rig) func(*plan.Edit) error {
	act := rapid.SampledFrom(actIDs).Draw(t, "act")
	device := func(names ...string) plan.DeviceID { return r.devices[rapid.SampledFrom(names).Draw(t, "device")] }
	box := func() plan.DeviceID { return device("SL", "MR", "SR", "Split", "Snake", "FOH") }
	console := func() plan.DeviceID { return device("FOH", "Mon", "Guest", "Van") }
	input := func() plan.InputID {
		return plan.InputID("i-2222" + plan.Signs[rapid.IntRange(0, 9).Draw(t, "input"):][:1])
	}
	output := rapid.SampledFrom([]plan.OutputID{"o-22222", "o-33333"}).Draw(t, "output")
	small := func() int { return rapid.IntRange(1, 12).Draw(t, "number") }
	sort := rapid.IntRange(0, 3).Draw(t, "sort of row") // a strike, a blank, else a row that says something
	rows := []func(*plan.Edit) error{
		func(e *plan.Edit) error {
			row := plan.StagePatch{Act: act, Input: input(), Strike: sort == 0}
			if sort > 1 {
				row.Device, row.Socket = box(), small()
			}
			plan.Put(e, row)
			return nil
		},
		func(e *plan.Edit) error {
			row := plan.ConsolePatch{Act: act, Console: console(), Channel: small(), Strike: sort == 0}
			if sort > 1 {
				row.Device, row.Socket = box(), small()
			}
			plan.Put(e, row)
			return nil
		},
		func(e *plan.Edit) error {
			link := r.links[rapid.SampledFrom([]string{"L01", "L02", "L03", "L04", "L05", "L06", "F01"}).Draw(t, "link")]
			row := plan.SlotPatch{Act: act, Link: link, Direction: rapid.SampledFrom([]string{patch.Forward, patch.Return}).Draw(t, "direction"), Slot: small(), Strike: sort == 0}
			if sort > 1 {
				row.Device, row.Socket, row.Output = box(), small(), sort == 2
			}
			plan.Put(e, row)
			return nil
		},
		func(e *plan.Edit) error {
			row := plan.OutputPatch{Act: act, Output: output, Strike: sort == 0}
			if sort > 1 {
				row.Console, row.Device, row.Socket = console(), box(), small()
			}
			plan.Put(e, row)
			return nil
		},
		func(e *plan.Edit) error {
			row := plan.SocketOwner{Act: act, Device: box(), Socket: small(), Strike: sort == 0}
			if sort > 1 {
				row.Gain = console()
			}
			plan.Put(e, row)
			return nil
		},
		func(e *plan.Edit) error {
			if act != "" {
				key := plan.ActConsole{Act: act, Console: r.devices["Guest"], Port: "AES50 1"}
				if sort == 0 {
					plan.Drop[plan.ActConsole](e, key.Key())
					return nil
				}
				key.Drop, key.DropPort = r.devices["Drop"], "GUEST"
				plan.Put(e, key)
			}
			return nil
		},
	}
	edits := []func(*plan.Edit) error{
		func(e *plan.Edit) error {
			return patch.Plug(e, act, input(), patch.Socket{Device: box(), Number: small()}, sort > 1)
		},
		func(e *plan.Edit) error { return patch.Swap(e, act, input(), input(), sort > 1) },
		func(e *plan.Edit) error { return patch.Shift(e, act, []plan.InputID{input()}, small()-6, sort > 1) },
		func(e *plan.Edit) error { patch.Strike(e, act, input()); return nil },
		func(e *plan.Edit) error { patch.Clear(e, act, input()); return nil },
		func(e *plan.Edit) error { return patch.SetChannel(e, act, input(), console(), small()-1) },
		func(e *plan.Edit) error { return patch.SwapChannels(e, act, console(), small(), small()) },
		func(e *plan.Edit) error { patch.GiveOut(e); return nil },
		func(e *plan.Edit) error {
			return plan.Update(e, plan.Key(device("SL", "MR", "SR", "FOH", "Mon", "Guest", "Van", "Conv", "Drop")), func(d *plan.Device) {
				d.PassesOn, d.Rate, d.Converts = sort%2 == 0, rapid.SampledFrom(rates).Draw(t, "rate"), small() > 9
			})
		},
		func(e *plan.Edit) error { // a guest comes, plugs in and listens
			if act == "" {
				return nil
			}
			plan.Put(e, plan.ActConsole{Act: act, Console: r.devices["Guest"], Port: "AES50 1", Drop: r.devices["Drop"], DropPort: "GUEST"})
			one := input()
			if err := patch.Plug(e, act, one, patch.Socket{Device: r.devices["MR"], Number: small()}, true); err != nil {
				return err
			}
			return patch.SetChannel(e, act, one, r.devices["Guest"], small())
		},
		func(e *plan.Edit) error { return patch.Rehome(e, r.devices["SR"], r.devices["MR"]) },
		func(e *plan.Edit) error { e.RemoveLinks(r.links["L05"]); return nil },
		func(e *plan.Edit) error {
			return plan.Update(e, plan.Key(r.devices["FOH"]), func(d *plan.Device) { d.X += 5 })
		},
	}
	return rapid.SampledFrom(append(edits, rows...)).Draw(t, "step")
}

// Random edits over acts: every step leaves a view that equals a fresh one, undo goes back, save and load keep it, and each
// act equals its own flat expansion.
func TestActsUnderRandomEdits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := ground(t)
		history := []*plan.Plan{r.plan}
		view := patch.Of(r.plan)
		for range 30 {
			if next, err := plan.Do(r.plan, r.ids, step(t, r)); err == nil {
				r.plan = next
				history = append(history, next)
			}
			if rapid.IntRange(0, 5).Draw(t, "undo") == 0 {
				r.plan = rapid.SampledFrom(history).Draw(t, "back to")
			}
			view = patch.Next(view, r.plan)
			requireSameView(t, patch.Of(r.plan), view)
		}
		var file bytes.Buffer
		require.NoError(t, planfile.Write(&file, r.plan))
		loaded, err := planfile.Read(&file)
		require.NoError(t, err)
		requireSameView(t, patch.Of(loaded), view)
		for _, act := range view.Acts {
			flat := patch.Of(flattened(t, r, act.Act.ID))
			require.Len(t, flat.Acts, 1)
			requireSameAct(t, withoutOthers(r.plan, flat.House()), act, act.Act.ID)
		}
	})
}

func requireSameView(t require.TestingT, want, got *patch.View) {
	require.Equal(t, len(want.Acts), len(got.Acts))
	require.Equal(t, want.Consoles(), got.Consoles())
	for i := range want.Acts {
		require.Equal(t, want.Acts[i].Act, got.Acts[i].Act)
		require.Equal(t, want.Acts[i].Guests, got.Acts[i].Guests)
		requireSameAct(t, want.Acts[i], got.Acts[i], "")
		for j := range want.Acts[i].Lines {
			require.Equal(t, want.Words(want.Acts[i].Lines[j]), got.Words(got.Acts[i].Lines[j]))
			require.Equal(t, want.Differs(want.Acts[i], want.Acts[i].Lines[j]), got.Differs(got.Acts[i], got.Acts[i].Lines[j]))
		}
	}
}

// requireSameAct compares all that is resolved; inputs of the act's own list count as the house's.
func requireSameAct(t require.TestingT, want, got *patch.Act, own plan.ActID) {
	require.Equal(t, len(want.Lines), len(got.Lines))
	require.Equal(t, len(want.Outputs), len(got.Outputs))
	for i := range want.Lines {
		line, its := *got.Lines[i], *want.Lines[i]
		if own != "" {
			line.Input.Act = ""
			line, its = whereverLost(line), whereverLost(its)
		}
		require.Equal(t, its, line)
	}
	for i := range want.Outputs {
		out, its := *got.Outputs[i], *want.Outputs[i]
		if own != "" {
			out.Lost.Link, its.Lost.Link = "", ""
		}
		require.Equal(t, its, out)
	}
}

// whereverLost is a line without the links on which channels are lost: a flat plan has links for its guests.
func whereverLost(line patch.Line) patch.Line {
	line.Legs = slices.Clone(line.Legs)
	for i := range line.Legs {
		line.Legs[i].Channels = slices.Clone(line.Legs[i].Channels)
		for j := range line.Legs[i].Channels {
			line.Legs[i].Channels[j].Lost.Link = ""
		}
	}
	return line
}

// withoutOthers takes the hops of links that a plan has not out of an act: a flat plan has links for its guests.
func withoutOthers(p *plan.Plan, act *patch.Act) *patch.Act {
	other := func(hop patch.Hop) bool { return !p.Links.Has(plan.Key(hop.Link)) }
	for _, line := range act.Lines {
		for i := range line.Legs {
			for j := range line.Legs[i].Channels {
				channel := &line.Legs[i].Channels[j]
				channel.Hops = slices.DeleteFunc(channel.Hops, other)
			}
		}
	}
	for _, line := range act.Outputs {
		line.Hops = slices.DeleteFunc(line.Hops, other)
	}
	return act
}

// flattened writes a plan in which one act is all there is: every row of it spelled out, no row of any other, and its guest
// on a link of its own. It knows nothing of how the room does it.
func flattened(t require.TestingT, r *rig, act plan.ActID) *plan.Plan {
	p := r.plan
	flat, err := plan.Do(p, r.ids, func(e *plan.Edit) error {
		guests, present := map[plan.DeviceID]bool{}, map[plan.DeviceID]bool{}
		for _, row := range slices.Collect(p.ActConsoles.All()) {
			guests[row.Console] = true
			if row.Act == act {
				present[row.Console] = true
				e.AddLink(plan.Link{Transport: "aes50", From: row.Console, FromPort: row.Port, To: row.Drop, ToPort: row.DropPort})
			}
			plan.Drop[plan.ActConsole](e, row.Key())
		}
		away := func(id plan.DeviceID) bool { return guests[id] && !present[id] }
		flatten(e, p.StagePatches, act, func(r plan.StagePatch) (plan.ActID, string, bool, bool) {
			return r.Act, string(r.Input), r.Device != "" || r.Strike, true
		}, func(r *plan.StagePatch) { r.Act = "" })
		flatten(e, p.ConsolePatches, act, func(r plan.ConsolePatch) (plan.ActID, string, bool, bool) {
			return r.Act, fmt.Sprint(r.Console, r.Channel), r.Device != "" || r.Strike, !r.Strike && !away(r.Console)
		}, func(r *plan.ConsolePatch) { r.Act = "" })
		flatten(e, p.SlotPatches, act, func(r plan.SlotPatch) (plan.ActID, string, bool, bool) {
			return r.Act, slotName(p, r), r.Device != "" || r.Strike, !r.Strike
		}, func(r *plan.SlotPatch) { r.Act = "" })
		flatten(e, p.OutputPatches, act, func(r plan.OutputPatch) (plan.ActID, string, bool, bool) {
			return r.Act, string(r.Output), r.Device != "" || r.Strike, true
		}, func(r *plan.OutputPatch) { r.Act = "" })
		flatten(e, p.SocketOwners, act, func(r plan.SocketOwner) (plan.ActID, string, bool, bool) {
			return r.Act, fmt.Sprint(r.Device, r.Socket), r.Gain != "" || r.Strike, !r.Strike
		}, func(r *plan.SocketOwner) { r.Act = "" })
		for _, input := range slices.Collect(p.Inputs.All()) {
			switch input.Act {
			case "":
			case act:
				require.NoError(t, plan.Update(e, input.Key(), func(r *plan.Input) { r.Act = "" }))
			default:
				plan.Drop[plan.StagePatch](e, plan.StagePatch{Input: input.ID}.Key())
				plan.Drop[plan.Input](e, input.Key())
			}
		}
		for _, row := range slices.Collect(p.Acts.All()) {
			plan.Drop[plan.Act](e, row.Key())
		}
		return nil
	})
	require.NoError(t, err)
	return flat
}

// flatten keeps of each thing the act's own row where it says something, else the house's where that does.
func flatten[R plan.Row](e *plan.Edit, table *plan.Table[R], act plan.ActID, of func(R) (act plan.ActID, thing string, says, stands bool), toHouse func(*R)) {
	kept := map[string]R{}
	for _, pass := range []plan.ActID{"", act} {
		seen := map[string]bool{}
		for row := range table.All() {
			if in, thing, says, _ := of(row); in == pass && says && !seen[thing] {
				kept[thing], seen[thing] = row, true
			}
		}
	}
	for _, row := range slices.Collect(table.All()) {
		plan.Drop[R](e, row.Key())
	}
	for _, row := range kept {
		if _, _, _, stands := of(row); stands {
			toHouse(&row)
			plan.Put(e, row)
		}
	}
}

// slotName names a slot by what it is on the wire: links of one chain, and main and backup, are one row of slots. The links
// are those of the ground above, written out by hand.
func slotName(p *plan.Plan, row plan.SlotPatch) string {
	link, _ := p.Link(row.Link)
	name := link.Name
	switch name {
	case "L02", "F01", "L03":
		name = "L01"
	}
	return fmt.Sprint(name, row.Direction, row.Slot)
}
