package exchange_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/exchange"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// club is a plan with two boxes and some consoles, and nothing patched.
func club(t testing.TB, consoles ...string) *plan.Plan {
	t.Helper()
	p, err := plan.Do(plan.New("Club"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		kinds := map[string]plan.KindID{"Box A": "stagebox-24-12", "SB1": "stagebox-24-12"}
		for _, name := range append([]string{"Box A", "SB1"}, consoles...) {
			kind, box := kinds[name]
			if !box {
				kind = "console-72"
			}
			e.AddDevice(plan.Device{Name: name, Kind: kind})
			if err := catalogue.Use(e, kind); err != nil {
				return err
			}
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

func file(t testing.TB, name string) exchange.Grid {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "lists", name))
	require.NoError(t, err)
	return read(t, string(data)).Grids[0]
}

// listFor reads a grid as a plan's own list.
func listFor(p *plan.Plan, act plan.ActID, grid exchange.Grid) exchange.Inputs {
	return exchange.ReadInputs(grid, exchange.Guess(grid, exchange.InputFieldsOf(patch.Of(p))), exchange.LastNumber(p, act))
}

func imported(t testing.TB, p *plan.Plan, act plan.ActID, in exchange.Inputs) *plan.Plan {
	t.Helper()
	next, err := plan.Do(p, plan.NewIDSource(8, 9), func(e *plan.Edit) error { return in.Add(e, act) })
	require.NoError(t, err)
	return next
}

// says are the lines of an act as a crew reads them.
func says(p *plan.Plan, id plan.ActID) (words []string) {
	v := patch.Of(p)
	act, _ := v.Act(id)
	for _, line := range act.Lines {
		if !line.Struck {
			words = append(words, v.Words(line))
		}
	}
	return words
}

func TestAListPatchesItsInputsAndTellsWhatItCannot(t *testing.T) {
	p := club(t, "FOH console", "Monitor console")
	grid := file(t, "band-sockets.csv")
	layout := exchange.Guess(grid, exchange.InputFieldsOf(patch.Of(p)))
	require.Equal(t, []string{
		exchange.Number, exchange.Name, exchange.Source, exchange.Stand, exchange.Phantom, exchange.Box,
		"FOH console channel", "Monitor console channel",
	}, layout.Fields)
	in := listFor(p, "", grid)
	require.Empty(t, faults(in.Faults))
	got := in.Patching(p, "")
	require.Equal(t, []string{
		`row 7, column G "FOH ch": the input stands on no socket: give it one, then the channel`,
		`row 7, column H "Mon ch": the input stands on no socket: give it one, then the channel`,
		`row 8, column F "Stage box": no device with such sockets is called Truck; write for instance Box A in 1; its channels wait for that`,
		`row 9, column F "Stage box": Box A in 5 is given to row 3 already: write another socket; its channels wait for that`,
		`row 10, column F "Stage box": SB1 has 24 sockets of this sort; there is no SB1 in 25; its channels wait for that`,
		`row 11, column G "FOH ch": FOH console has channels 1 to 72 and no 73: write one of these`,
		`row 12, column G "FOH ch": FOH console 4 is given to row 6 already: write another channel`,
		`row 12, column H "Mon ch": "nine" is no channel: write the number of one channel, for instance 12`,
	}, faults(got.Left))
	require.Equal(t, 6, got.Sockets)
	require.Equal(t, 8, got.Channels)
	require.Zero(t, p.Inputs.Len(), "a reckoning changes nothing")
	next := imported(t, p, "", in)
	require.Equal(t, []string{
		"Kick → Box A in 5 → FOH console 1 not reached, Monitor console 1 not reached",
		"Snare → SB1 in 12 → FOH console 2 not reached, Monitor console 2 not reached",
		"Hat → Box A in 6 → FOH console 3 not reached",
		"Bass → SB1 in 1 → FOH console 4 not reached, Monitor console 3 not reached",
		"Voice → not patched", "Harp → not patched", "Flute → not patched", "Cello → not patched",
		"Keys left → SB1 in 3 → Monitor console 8 not reached",
		"Keys right → SB1 in 4",
	}, says(next, ""), "every row is imported")
	t.Run("taken in again it says the same and changes nothing", func(t *testing.T) {
		require.Equal(t, got, in.Patching(next, ""))
		require.True(t, plan.Equal(next, imported(t, next, "", in)))
	})
	t.Run("what another input holds stays its own, and inputs may take each other's places", func(t *testing.T) {
		swap := listFor(next, "", read(t, "No;Source;Socket;FOH ch\n1;Kick;SB1 12;2\n2;Snare;Box A 5;1\n11;Oboe;Box A 6;3\n12;Horn;Box A 7;4\n").Grids[0])
		got := swap.Patching(next, "")
		require.Equal(t, []string{
			`row 4, column C "Socket": Box A in 6 has Hat already: free it, or write another socket; its channels wait for that`,
			`row 5, column D "FOH ch": FOH console 4 has Bass already: free it, or write another channel`,
		}, faults(got.Left))
		swapped := says(imported(t, next, "", swap), "")
		require.Equal(t, "Kick → SB1 in 12 → FOH console 2 not reached, Monitor console 1 not reached", swapped[0])
		require.Equal(t, "Snare → Box A in 5 → FOH console 1 not reached, Monitor console 2 not reached", swapped[1])
		require.Equal(t, "Horn → Box A in 7", swapped[len(swapped)-1])
	})
	t.Run("in an act it patches the act alone", func(t *testing.T) {
		var act plan.ActID
		withAct, err := plan.Do(next, plan.NewIDSource(5, 5), func(e *plan.Edit) error { act = patch.AddAct(e, "Late"); return nil })
		require.NoError(t, err)
		house := says(withAct, "")
		own := listFor(withAct, act, read(t, "No;Source;Socket;FOH ch\n1;Kick;SB1 20;30\n").Grids[0])
		after := imported(t, withAct, act, own)
		require.Equal(t, house, says(after, ""))
		require.Equal(t, "Kick → SB1 in 20 → FOH console 30 not reached, Monitor console 1 not reached", says(after, act)[0])
	})
	t.Run("without columns of sockets nothing is patched", func(t *testing.T) {
		plainList := listFor(p, "", read(t, "No;Source\n1;Kick\n").Grids[0])
		require.Equal(t, exchange.Patching{}, plainList.Patching(p, ""))
		require.Zero(t, imported(t, p, "", plainList).StagePatches.Len())
	})
}

func TestBoxAndSocketInTwoColumnsAndOneConsole(t *testing.T) {
	p := club(t, "Console")
	grid := file(t, "band-two-columns.csv")
	in := listFor(p, "", grid)
	require.Empty(t, faults(in.Faults))
	layout := exchange.Guess(grid, exchange.InputFieldsOf(patch.Of(p)))
	require.Equal(t, []string{exchange.Box, exchange.Socket, exchange.Number, exchange.Name, exchange.Source}, layout.Fields, "a column of channels alone numbers the inputs")
	layout = layout.Set(2, "Console channel")
	in = exchange.ReadInputs(grid, layout, 0)
	require.Empty(t, faults(in.Patching(p, "").Left))
	require.Equal(t, []string{
		"Kick → Box A in 1 → Console 11 not reached",
		"Snare → Box A in 2 → Console 12 not reached",
		"Hat → Box A in 3 → Console 13 not reached",
		"Bass → SB1 in 1 → Console 14 not reached",
		"Keys → Box A in 4 → Console 15 not reached",
	}, says(imported(t, p, "", in), ""))
	t.Run("a number alone is of no box where there are two", func(t *testing.T) {
		alone := listFor(p, "", read(t, "No;Source;Way\n1;Kick;3\n").Grids[0])
		require.Equal(t, []string{`row 2, column C "Way": socket 3 of which device? Write for instance Box A in 1`}, faults(alone.Patching(p, "").Left))
	})
	t.Run("a row with nothing in it ends what a box is said for", func(t *testing.T) {
		ended := listFor(p, "", read(t, "No;Source;Box;Way\n1;Kick;Box A;3\n;;;\n2;Snare;;4\n").Grids[0])
		require.Equal(t, []string{`row 4, column D "Way": socket 4 of which device? Write for instance Box A in 1`}, faults(ended.Patching(p, "").Left))
	})
}

func TestHeadsOfChannelsAreReadAsTheTradeWritesThem(t *testing.T) {
	for _, c := range []struct {
		head     string
		consoles []string
		want     string
	}{
		{"FOH ch", []string{"FOH console", "Monitor console"}, "FOH console channel"},
		{"FOH", []string{"FOH console", "Monitor console"}, "FOH console channel"},
		{"Mon Ch.", []string{"FOH console", "Monitor console"}, "Monitor console channel"},
		{"Ch (Mon)", []string{"FOH console", "Monitor console"}, ""},
		{"Channel Monitor desk", []string{"FOH console", "Monitor console"}, "Monitor console channel"},
		{"FOH-Kanal", []string{"FOH"}, "FOH channel"},
		{"Channel", []string{"Desk"}, "Desk channel"},
		{"Desk ch", []string{"FOH"}, "FOH channel"},
		{"Channel", []string{"FOH console", "Monitor console"}, ""},
		{"Mon ch", []string{"Monitor left", "Monitor right"}, ""},
		{"Truck ch", []string{"FOH console"}, ""},
		{"FO ch", []string{"FOH console"}, ""},
	} {
		t.Run(c.head, func(t *testing.T) {
			grid := read(t, "No;Name;"+c.head+"\n1;Kick;4\n2;Snare;ch 5\n").Grids[0]
			layout := exchange.Guess(grid, exchange.InputFieldsOf(patch.Of(club(t, c.consoles...))))
			require.Equal(t, []string{exchange.Number, exchange.Name, c.want}, layout.Fields)
		})
	}
	t.Run("a column of ticks under a console's name is none of channels", func(t *testing.T) {
		grid := read(t, "No;Name;FOH\n1;Kick;x\n2;Snare;x\n").Grids[0]
		require.Empty(t, exchange.Guess(grid, exchange.InputFieldsOf(patch.Of(club(t, "FOH")))).Fields[2])
	})
	t.Run("figures without heads are no channels", func(t *testing.T) {
		grid := read(t, "1;Kick;4\n2;Snare;5\n").Grids[0]
		require.NotContains(t, exchange.Guess(grid, exchange.InputFieldsOf(patch.Of(club(t, "FOH")))).Fields, "FOH channel")
	})
}

func TestGermanAndFrenchHeadsAreRead(t *testing.T) {
	p := club(t, "FOH")
	in := listFor(p, "", file(t, "kapelle.csv"))
	require.Empty(t, faults(in.Faults))
	require.Equal(t, plan.Input{Number: 1, Name: "Flügelhorn", Source: "Kondensator", Use: "condenser", Stand: "hoch", Phantom: true, Note: "für den Anfang"}, in.Rows[0].Input)
	require.Equal(t, []string{"Flügelhorn → Box A in 1 → FOH 1 not reached", "Bässe → SB1 in 2 → FOH 2 not reached"}, says(imported(t, p, "", in), ""))
	in = listFor(p, "", file(t, "groupe.csv"))
	require.Empty(t, faults(in.Faults))
	require.Equal(t, plan.Input{Number: 1, Name: "Célesta", Source: "statique", Use: "condenser", Stand: "grand", Phantom: true, Note: "près du rideau"}, in.Rows[0].Input)
	require.Equal(t, []string{"Célesta → Box A in 1", "Voix → SB1 in 2"}, says(imported(t, p, "", in), ""))
}

func TestAListWithoutNumbersCountsOnFromTheLastOfTheAct(t *testing.T) {
	p := club(t, "FOH")
	numbers := func(in exchange.Inputs) (all []int) {
		for _, row := range in.Rows {
			all = append(all, row.Input.Number)
		}
		return all
	}
	grid := file(t, "more-without-numbers.csv")
	require.Equal(t, []int{1, 2}, numbers(listFor(p, "", grid)), "an empty plan begins with 1")
	var late, early plan.ActID
	p, err := plan.Do(p, plan.NewIDSource(3, 3), func(e *plan.Edit) error {
		late, early = patch.AddAct(e, "Late"), patch.AddAct(e, "Early")
		e.AddInput(plan.Input{Number: 8, Name: "Kick"})
		e.AddInput(plan.Input{Number: 20, Name: "Harp", Act: late})
		return nil
	})
	require.NoError(t, err)
	require.Equal(t, []int{21, 22}, numbers(listFor(p, late, grid)))
	require.Equal(t, []int{9, 10}, numbers(listFor(p, early, grid)), "the house's own count too")
	require.Equal(t, []int{21, 22}, numbers(listFor(p, "", grid)), "for all acts no act has the number")
	require.Equal(t, exchange.Coming{New: 2, Kept: 1}, listFor(p, "", grid).Coming(p, ""))
	in := exchange.ReadInputs(grid, exchange.Guess(grid, exchange.InputFields()), 9998)
	require.Equal(t, []int{9999}, numbers(in))
	require.Equal(t, []string{"row 3: the list has no column of numbers and counts on past 9999: give it one with numbers that are free"}, faults(in.Faults))
}
