package exchange_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"stageloom/model/exchange"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// numbered are the inputs of a list by number and name.
func numbered(in exchange.Inputs) (all []plan.Input) {
	for _, row := range in.Rows {
		all = append(all, plan.Input{Number: row.Input.Number, Name: row.Input.Name})
	}
	return all
}

func TestAPairIsTwoInputs(t *testing.T) {
	for _, c := range []struct{ name, list string }{
		{"numbers", "No;Name\n9-10;Keys\n"},
		{"numbers by a stroke", "No;Name\n9/10;Keys L/R\n"},
		{"numbers by a plus", "No;Name\n9 + 10;Keys (stereo)\n"},
		{"the name", "No;Name\n9;Keys L/R\n11;Voice\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			in := inputs(t, c.list)
			require.Empty(t, faults(in.Faults))
			require.Equal(t, []plan.Input{{Number: 9, Name: "Keys L"}, {Number: 10, Name: "Keys R"}}, numbered(in)[:2])
			require.Equal(t, []string{"row 2: it names a pair and is taken as two inputs, 9 Keys L and 10 Keys R"}, faults(in.Told))
		})
	}
	t.Run("no free number", func(t *testing.T) {
		in := inputs(t, "No;Name\n9;Keys L/R\n10;Voice\n")
		require.Equal(t, []plan.Input{{Number: 9, Name: "Keys L/R"}, {Number: 10, Name: "Voice"}}, numbered(in))
		require.Equal(t, []string{`row 2, column B "Name": "Keys L/R" reads like a pair, but 10 is no free number: it is taken as one input`}, faults(in.Told))
	})
	t.Run("numbers that don't follow each other", func(t *testing.T) {
		require.Equal(t, []string{`row 2, column A "No": "1-4" is no pair of numbers that follow each other: write a row for each input`}, faults(inputs(t, "No;Name\n1-4;Choir\n5;Voice\n").Faults))
	})
	t.Run("sockets and channels", func(t *testing.T) {
		p := club(t, "FOH")
		in := listFor(p, "", read(t, "No;Name;Box;Socket;FOH ch\n1-2;Keys;Box A;5-6;11/12\n3-4;Pads;SB1;1;13\n").Grids[0])
		require.Equal(t, []string{
			`row 3, column D "Socket": it names one place for two inputs, and the left one has it: write both, for instance 5-6; its channels wait for that`,
		}, faults(in.Patching(p, "").Left))
		require.Equal(t, []string{
			"Keys L → Box A in 5 → FOH 11 not reached", "Keys R → Box A in 6 → FOH 12 not reached", "Pads L → SB1 in 1 → FOH 13 not reached", "Pads R → not patched",
		}, says(imported(t, p, "", in), ""))
	})
}

func TestSubSnakesMultisAndLinesAreRead(t *testing.T) {
	p, act := festival(t)
	in := listFor(p, act, read(t, "No;Name;Sub-snake;Snake way;Multi;Line;Note\n11;Tom;Drums;3;K;5;soft\n12;Floor;;4;;6;\n13;Hat;Horns;1;;;\n").Grids[0])
	require.Empty(t, faults(in.Faults))
	got := in.Patching(p, act)
	require.Len(t, got.Left, 1)
	require.Contains(t, got.Left[0].String(), `row 4, column C "Sub-snake": no device with such sockets is called Horns`)
	require.Contains(t, got.Left[0].String(), `"Horns 1" stands in the note`)
	next := imported(t, p, act, in)
	tom, floor, hat := inputOf(t, next, act, 11), inputOf(t, next, act, 12), inputOf(t, next, act, 13)
	require.Equal(t, 3, tom.SnakeWay)
	require.Equal(t, "soft\nList: multi K, line 5", tom.Note)
	require.Equal(t, []any{tom.Snake, 4}, []any{floor.Snake, floor.SnakeWay}, "a blank cell beside a way is the one above")
	require.Equal(t, "List: multi K, line 6", floor.Note)
	require.Equal(t, "Sub-snake Horns 1", hat.Note)
	require.Empty(t, changes(in, next, act), "taken in again it changes nothing")
}

func TestWordsOfSourcesAreReadAndTold(t *testing.T) {
	in := inputs(t, "No;Name;Mic\n1;Kick;boundary\n2;Snare;dynamic\n3;Room;ribbon\n4;Bass;active DI\n5;Keys;DI\n6;Tracks;laptop, line\n7;Lead;radio\n8;Hat;Kondensator\n9;Odd;house special\n10;Both;condenser + DI\n")
	require.Empty(t, faults(in.Faults))
	for i, want := range []plan.Input{
		{Use: "mic", Phantom: true}, {Use: "dynamic"}, {Use: "ribbon"}, {Use: "active_DI", Phantom: true}, {Use: "DI"}, {Use: "line"}, {Use: "line"}, {Use: "condenser", Phantom: true}, {}, {},
	} {
		require.Equal(t, want, plan.Input{Use: in.Rows[i].Input.Use, Phantom: in.Rows[i].Input.Phantom}, in.Rows[i].Input.Name)
	}
	require.Equal(t, []string{
		`row 1, column C "Mic": where no cell says it, the type and 48 V are read from these words: "boundary" is mic with 48 V, "dynamic" is dynamic, "ribbon" is ribbon, "active DI" is active DI with 48 V, "DI" is DI, "laptop, line" is line, "radio" is line, "Kondensator" is condenser with 48 V`,
		`row 1, column C "Mic": these words do not say which type it is, nor of 48 V: house special, condenser + DI`,
	}, faults(in.Told))
	t.Run("a column says more than a word", func(t *testing.T) {
		in := inputs(t, "No;Name;Mic;Type;48V\n1;Kick;boundary;line;\n")
		require.Equal(t, plan.Input{Number: 1, Name: "Kick", Source: "boundary", Use: "line"}, in.Rows[0].Input)
	})
	t.Run("a type tells of 48 V where no column does", func(t *testing.T) {
		in := inputs(t, "No;Name;Type\n1;Hat;condenser\n2;Bass;active DI\n3;Room;ribbon\n4;Keys;DI passiv\n5;Lead;mic\n")
		require.Empty(t, faults(in.Faults))
		for i, want := range []plan.Input{{Use: "condenser", Phantom: true}, {Use: "active_DI", Phantom: true}, {Use: "ribbon"}, {Use: "passive_DI"}, {Use: "mic"}} {
			require.Equal(t, want, plan.Input{Use: in.Rows[i].Input.Use, Phantom: in.Rows[i].Input.Phantom}, in.Rows[i].Input.Name)
		}
	})
	t.Run("a word that is no type is a fault", func(t *testing.T) {
		in := inputs(t, "No;Name;Use\n1;Kick;mic\n2;Snare;mic\n3;Hat;wifi\n")
		require.Equal(t, []string{`row 4, column C "Use": "wifi" is no type; write mic, condenser, dynamic, ribbon, DI, active DI, passive DI or line`}, faults(in.Faults))
	})
}

func TestAHeadOfTwoLines(t *testing.T) {
	p := club(t, "FOH", "Monitor")
	grid := read(t, "Band X;;;;;\nNo;Name;Mic;Stage;FOH;Monitor\n;;;Box;Ch;Ch\n1;Kick;dynamic;Box A 1;5;6\n").Grids[0]
	layout := exchange.Guess(grid, exchange.InputFieldsOf(patch.Of(p)))
	require.Equal(t, exchange.Layout{Head: 3, Fields: []string{
		exchange.Number, exchange.Name, exchange.Source, exchange.Box, "FOH channel", "Monitor channel",
	}}, layout)
	in := exchange.ReadInputs(grid, layout, 0)
	require.Empty(t, faults(in.Faults))
	require.Len(t, in.Rows, 1)
	t.Run("a second line in another language is told", func(t *testing.T) {
		in := inputs(t, "No;Name;Mic\nNr;Instrument;Mikro\n1;Kick;dynamic\n")
		require.Empty(t, faults(in.Faults))
		require.Contains(t, faults(in.Told), "row 2: it belongs to the column heads, and is no input")
	})
}

func TestCellsJoinedDownAColumnHoldTheSame(t *testing.T) {
	f := excelize.NewFile()
	for cell, text := range map[string]string{"A1": "No", "B1": "Name", "C1": "Riser", "A2": "1", "B2": "Kick", "C2": "drums", "A3": "2", "B3": "Snare", "A4": "3", "B4": "Voice"} {
		require.NoError(t, f.SetCellStr("Sheet1", cell, text))
	}
	require.NoError(t, f.MergeCell("Sheet1", "C2", "C3"))
	var data bytes.Buffer
	require.NoError(t, f.Write(&data))
	grid := document(t, "band.xlsx", data.Bytes()).Grids[0]
	in := exchange.ReadInputs(grid, exchange.Guess(grid, exchange.InputFields()), 0)
	require.Empty(t, faults(in.Faults))
	require.Equal(t, []string{"drums", "drums", ""}, []string{in.Rows[0].Input.Riser, in.Rows[1].Input.Riser, in.Rows[2].Input.Riser})
}

func document(t testing.TB, name string, data []byte) exchange.Document {
	t.Helper()
	d, err := exchange.Read(name, bytes.NewReader(data))
	require.NoError(t, err)
	return d
}

func TestHeadsAsTheyWereAndAsTheyAreSaidNowAreReadAlike(t *testing.T) {
	row := ";Kick;boundary;line;short;Y;drums;Drums;3;pillow\n"
	was := inputs(t, "No;Name;Source;Use;Stand;48 V;Riser;Sub-snake;Sub-snake way;Note\n1"+row)
	now := inputs(t, strings.Join([]string{
		exchange.Number, exchange.Name, exchange.Source, exchange.Use, exchange.Stand, exchange.Phantom, exchange.Riser, exchange.Snake, exchange.SnakeWay, exchange.Note,
	}, ";")+"\n1"+row)
	require.Empty(t, faults(now.Faults))
	require.Len(t, now.Rows, 1)
	require.Equal(t, plan.Input{Number: 1, Name: "Kick", Source: "boundary", Use: "line", Stand: "short", Phantom: true, Riser: "drums", Note: "pillow"}, now.Rows[0].Input)
	require.Equal(t, was.Rows, now.Rows)
	t.Run("as the spreadsheet prints them", func(t *testing.T) {
		in := inputs(t, "Act;Number;Input;Source or mic;Stand;48 V;Socket;Call\nHouse;1;Kick;boundary;short;48 V;Box A in 3;Kick → Box A in 3\n")
		require.Equal(t, plan.Input{Number: 1, Name: "Kick", Source: "boundary", Use: "mic", Stand: "short", Phantom: true}, in.Rows[0].Input)
	})
}

func TestTypesAreReadInThreeLanguages(t *testing.T) {
	for words, want := range map[string]string{
		"Kondensator": "condenser", "condenser mic": "condenser", "statique": "condenser", "micro statique": "condenser", "mic": "mic", "Mikrofon": "mic",
		"dynamisch": "dynamic", "Mikrofon dynamisch": "dynamic", "dynamique": "dynamic", "Bändchen": "ribbon", "ruban": "ribbon", "ribbon": "ribbon",
		"aktive DI": "active_DI", "DI active": "active_DI", "active DI box": "active_DI", "DI passive": "passive_DI", "passive DI": "passive_DI", "DI": "DI", "ligne": "line",
	} {
		bySource := inputs(t, "No;Name;Mic\n1;One;"+words+"\n")
		require.Equal(t, want, bySource.Rows[0].Input.Use, words)
		byType := inputs(t, "No;Name;Mic;Type\n1;One;special;"+words+"\n")
		require.Empty(t, faults(byType.Faults), words)
		require.Equal(t, want, byType.Rows[0].Input.Use, words)
	}
	for _, words := range []string{"active speaker", "condenser + DI", "special"} {
		require.Empty(t, inputs(t, "No;Name;Mic\n1;One;"+words+"\n").Rows[0].Input.Use, words)
	}
}
