package exchange_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/demo"
	"stageloom/model/exchange"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// changes are what a list does, in words.
func changes(in exchange.Inputs, p *plan.Plan, act plan.ActID) (words []string) {
	for _, change := range in.Outcome(p, act).Changes {
		words = append(words, change.String())
	}
	return words
}

// inputOf is the input of an act, or of the house in it, with a number, that the act has.
func inputOf(t testing.TB, p *plan.Plan, id plan.ActID, number int) (found plan.Input) {
	t.Helper()
	act, _ := patch.Of(p).Act(id)
	for _, line := range act.Lines {
		if line.Input.Number == number && !line.Struck {
			require.Empty(t, found.ID, "two inputs have the number")
			found = line.Input
		}
	}
	require.NotEmpty(t, found.ID)
	return found
}

// festival is a plan with a house of two inputs on a box, a splitter and an act.
func festival(t testing.TB) (*plan.Plan, plan.ActID) {
	t.Helper()
	var act plan.ActID
	p, err := plan.Do(plan.New("Festival"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		ids := map[string]plan.DeviceID{}
		for name, kind := range map[string]plan.KindID{"Box": "stagebox-24-12", "Splitter": "splitter-48", "Drums": "sub-snake-12-4", "FOH": "console-72"} {
			if err := catalogue.Use(e, kind); err != nil {
				return err
			}
			ids[name] = e.AddDevice(plan.Device{Name: name, Kind: kind})
		}
		act = patch.AddAct(e, "Late")
		patch.AddAct(e, "Later")
		kick := e.AddInput(plan.Input{Number: 1, Name: "Kick in", Source: "boundary", Use: "mic", Stand: "short", Riser: "drums", Note: "pillow"})
		snare := e.AddInput(plan.Input{Number: 2, Name: "Snare", Source: "dynamic", Use: "mic"})
		return patch.Fill(e, "", []plan.InputID{kick, snare}, patch.Socket{Device: ids["Box"], Number: 1}, false)
	})
	require.NoError(t, err)
	return p, act
}

func TestARowThatDiffersInAnyFieldIsTheActsOwn(t *testing.T) {
	p, act := festival(t)
	for _, c := range []struct {
		name, list, told string
		want             plan.Input
	}{
		{"48 V", "No;Name;48V\n1;Kick in;Y\n", exchange.Phantom + " yes, was no", plan.Input{Source: "boundary", Use: "mic", Phantom: true, Stand: "short", Riser: "drums", Note: "pillow"}},
		{"source", "No;Name;Mic\n1;Kick in;dynamic\n", exchange.Source + " dynamic, was boundary; " + exchange.Use + " dynamic, was mic", plan.Input{Source: "dynamic", Use: "dynamic", Stand: "short", Riser: "drums", Note: "pillow"}},
		{"stand", "No;Name;Stand\n1;Kick in;clip\n", exchange.Stand + " clip, was short", plan.Input{Source: "boundary", Use: "mic", Stand: "clip", Riser: "drums", Note: "pillow"}},
		{"riser", "No;Name;Riser\n1;Kick in;left\n", exchange.Riser + " left, was drums", plan.Input{Source: "boundary", Use: "mic", Stand: "short", Riser: "left", Note: "pillow"}},
		{"note", "No;Name;Note\n1;Kick in;own\n", exchange.Note + " own, was pillow", plan.Input{Source: "boundary", Use: "mic", Stand: "short", Riser: "drums", Note: "own"}},
		{"type", "No;Name;Type\n1;Kick in;line\n", exchange.Use + " line, was mic", plan.Input{Source: "boundary", Use: "line", Stand: "short", Riser: "drums", Note: "pillow"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			in := listFor(p, act, read(t, c.list).Grids[0])
			require.Empty(t, faults(in.Faults))
			require.Equal(t, 1, in.Coming(p, act).Own)
			require.Equal(t, []string{"1 Kick in changed: " + c.told + "; it becomes the act's own"}, changes(in, p, act), "told beforehand")
			next := imported(t, p, act, in)
			got := inputOf(t, next, act, 1)
			c.want.ID, c.want.Number, c.want.Name, c.want.Act = got.ID, 1, "Kick in", act
			require.Equal(t, c.want, got)
			require.Equal(t, "Kick in → Box in 1", says(next, act)[0])
			require.Empty(t, changes(in, next, act), "taken in again it changes nothing")
			require.True(t, plan.Equal(next, imported(t, next, act, in)))
		})
	}
	t.Run("it stays where the act had it", func(t *testing.T) {
		splitter := patch.Of(p)
		at, err := splitter.ReadSocket("Splitter 7", "", false)
		require.NoError(t, err)
		moved, err := plan.Do(p, plan.NewIDSource(7, 7), func(e *plan.Edit) error {
			return patch.Plug(e, act, inputOf(t, p, "", 1).ID, at, false)
		})
		require.NoError(t, err)
		in := listFor(moved, act, read(t, "No;Name;48V\n1;Kick in;Y\n").Grids[0])
		require.Equal(t, []string{"Kick in → Splitter in 7", "Snare → Box in 2"}, says(imported(t, moved, act, in), act))
	})
	t.Run("what is equal stays the house's, and a blank cell says nothing", func(t *testing.T) {
		in := listFor(p, act, read(t, "No;Name;Mic;Stand;48V\n1;KICK in;Boundary;;\n2;Snare;dynamic;;\n").Grids[0])
		require.Equal(t, exchange.Coming{Same: 2}, in.Coming(p, act))
		require.Empty(t, changes(in, p, act))
		require.True(t, plan.Equal(p, imported(t, p, act, in)))
	})
}

func TestANewVersionOfAnActsListShowsWhatItDoesAndKeepsItsBoxes(t *testing.T) {
	p, act := festival(t)
	first := listFor(p, act, read(t, "No;Name;Mic;Socket\n1;Voice;dynamic;Splitter 1\n2;Harp;condenser;Splitter 2\n3;Oboe;condenser;Splitter 3\n4;Bass;DI;Splitter 4\n").Grids[0])
	require.Empty(t, faults(first.Patching(p, act).Left))
	p = imported(t, p, act, first)
	harp := inputOf(t, p, act, 2).ID
	second := listFor(p, act, read(t, "No;Name;Mic\n1;Voice;condenser\n2;Fiddle;condenser\n3;Harp;condenser\n5;Bass;DI\n6;Drum;dynamic\n").Grids[0])
	second.Drop = true
	require.Equal(t, []string{
		"3 Oboe gone: with its patch, Splitter in 3",
		"2 Fiddle new: condenser, 48 V → Splitter in 3",
		"6 Drum new: dynamic → Splitter in 5",
		"3 Harp moved: Number 3, was 2",
		"5 Bass moved: Number 5, was 4",
		"1 Voice changed: " + exchange.Source + " condenser, was dynamic; " + exchange.Use + " condenser, was dynamic; " + exchange.Phantom + " yes, was no",
	}, changes(second, p, act))
	require.Equal(t, exchange.Coming{Known: 3, New: 2, Struck: 2, Gone: 1}, second.Coming(p, act))
	next := imported(t, p, act, second)
	require.Equal(t, []string{
		"Voice → Splitter in 1", "Fiddle → Splitter in 3", "Harp → Splitter in 2", "Bass → Splitter in 4", "Drum → Splitter in 5",
	}, says(next, act))
	require.Equal(t, harp, inputOf(t, next, act, 3).ID, "who gets another number keeps the patch")
	require.Equal(t, []string{"Kick in → Box in 1", "Snare → Box in 2"}, says(next, ""), "the house stays")
	require.Empty(t, changes(second, next, act))
	t.Run("without that they leave, they stay and are told", func(t *testing.T) {
		stays := listFor(p, act, read(t, "No;Name\n1;Voice\n2;Harp\n3;Oboe\n").Grids[0])
		require.Equal(t, []string{"4 Bass stays: Splitter in 4, the list lacks it"}, changes(stays, p, act))
		require.Len(t, says(imported(t, p, act, stays), act), 4)
	})
	t.Run("no two inputs get one number", func(t *testing.T) {
		short := listFor(p, act, read(t, "No;Name\n3;Harp\n").Grids[0])
		after := imported(t, p, act, short)
		require.Equal(t, "Harp", inputOf(t, after, act, 3).Name)
	})
}

func TestWhatTheHouseListLacksIsAskedAbout(t *testing.T) {
	p, act := festival(t)
	p, err := plan.Do(p, plan.NewIDSource(7, 7), func(e *plan.Edit) error {
		plan.Put(e, plan.StagePatch{Act: act, Input: inputOf(t, p, "", 2).ID, Strike: true})
		return nil
	})
	require.NoError(t, err)
	in := listFor(p, "", read(t, "No;Name\n1;Kick in\n").Grids[0])
	require.Equal(t, []string{"2 Snare stays: Box in 2, the list lacks it"}, changes(in, p, ""))
	require.Equal(t, 2, imported(t, p, "", in).Inputs.Len())
	in.Drop = true
	require.Equal(t, []string{"2 Snare gone: with its patch, Box in 2; what Late have of it goes too"}, changes(in, p, ""))
	next := imported(t, p, "", in)
	require.Equal(t, 1, next.Inputs.Len())
	require.Equal(t, 1, next.StagePatches.Len(), "its patch goes with it")
}

func TestAListWithoutNumbersIsKnownByItsNames(t *testing.T) {
	p, act := festival(t)
	first := listFor(p, act, read(t, "Name;Mic\nShaker;condenser\nKick in;boundary\n").Grids[0])
	require.Equal(t, exchange.Coming{New: 1, Same: 1, Left: 1}, first.Coming(p, act))
	p = imported(t, p, act, first)
	require.Equal(t, "Shaker", inputOf(t, p, act, 3).Name)
	second := listFor(p, act, read(t, "Name;Mic\nBells;condenser\nShaker;dynamic\n").Grids[0])
	require.Equal(t, []string{
		"4 Bells new: condenser, 48 V → not patched",
		"3 Shaker changed: " + exchange.Source + " dynamic, was condenser; " + exchange.Use + " dynamic, was condenser; " + exchange.Phantom + " no, was yes",
	}, changes(second, p, act))
}

func TestANewInputOfAnActDoesNotTakeTheWaysOfRadioReceivers(t *testing.T) {
	p := demo.Weekender()
	act := p.Acts.At(2).ID
	in := listFor(p, act, read(t, "No;Name;Mic\n43;Choir;condenser\n44;Handheld;radio\n").Grids[0])
	got := changes(in, p, act)
	require.Contains(t, got, "43 Choir new: condenser, 48 V → not patched")
	next := imported(t, p, act, in)
	require.Empty(t, inputOf(t, next, act, 43).Snake)
	require.NotEmpty(t, inputOf(t, next, act, 44).Snake, "another of the same source has the rack's way")
}

func TestNewInputsKeepOffTheSocketsThatSubSnakesFeed(t *testing.T) {
	p := demo.Weekender()
	act := p.Acts.At(2).ID
	view := patch.Of(p)
	house := inputOf(t, p, "", 9)
	p, err := plan.Do(p, plan.NewIDSource(7, 7), func(e *plan.Edit) error {
		id := e.AddInput(plan.Input{Number: 60, Name: "Own", Act: act})
		for input := range p.Inputs.All() {
			if input.Act == "" {
				plan.Put(e, plan.StagePatch{Act: act, Input: input.ID, Strike: true})
			}
		}
		at, _ := p.StagePatches.Get(plan.StagePatch{Input: house.ID}.Key())
		plan.Put(e, plan.StagePatch{Act: act, Input: id, Device: at.Device, Socket: at.Socket})
		return nil
	})
	require.NoError(t, err)
	fed := map[patch.Socket]bool{}
	for _, line := range view.House().Lines {
		if !line.Snake.None() {
			for socket := range line.Sockets() {
				fed[socket] = fed[socket] || socket.Device != line.Input.Snake
			}
		}
	}
	require.NotEmpty(t, fed)
	var list strings.Builder
	list.WriteString("No;Name\n")
	for i := range 40 {
		fmt.Fprintf(&list, "%d;Voice %d\n", 101+i, i)
	}
	now, _ := patch.Of(imported(t, p, act, listFor(p, act, read(t, list.String()).Grids[0]))).Act(act)
	on := map[patch.Socket]bool{}
	for _, line := range now.Lines {
		if line.Patched() {
			on[line.At] = true
			require.False(t, fed[line.At], view.SocketWords(line.At)+" is a sub-snake's")
		}
	}
	require.Greater(t, len(on), 20)
}

func TestAnInputWhoseRowHasFaultsIsNotTakenForLacking(t *testing.T) {
	p, act := festival(t)
	p = imported(t, p, act, listFor(p, act, read(t, "No;Name;48V\n11;Voice;x\n12;Harp;x\n13;Oboe;\n14;Horn;\n").Grids[0]))
	in := listFor(p, act, read(t, "No;Name;48V\n11;Voice;x\n12;Harp;maybe\nthirteen;Oboe;\n").Grids[0])
	require.Len(t, in.Faults, 2)
	in.Drop = true
	require.Equal(t, []string{
		"14 Horn gone: with its patch, not patched",
		"12 Harp stays: not patched, its row has faults",
		"13 Oboe stays: not patched, its row has faults",
	}, changes(in, p, act))
	next := imported(t, p, act, in.GoodOnly())
	require.Equal(t, p.Inputs.Len()-1, next.Inputs.Len())
	house := listFor(p, act, read(t, "No;Name;48V\n1;Kick in;maybe\n11;Voice;x\n").Grids[0])
	house.Strike = true
	require.Equal(t, 1, house.Coming(p, act).Struck, "Kick in is named")
}

func TestAnInputOfTheSameNameInTheHouseIsTold(t *testing.T) {
	p, act := festival(t)
	in := listFor(p, act, read(t, "No;Name\n21;Snare\n").Grids[0])
	require.Equal(t, []string{"21 Snare new: no source → not patched; the house's 2 of this name stays"}, changes(in, p, act))
	in.Strike = true
	require.Contains(t, changes(in, p, act), "21 Snare new: no source → not patched")
}
