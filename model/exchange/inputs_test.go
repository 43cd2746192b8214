package exchange_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/exchange"
	"stageloom/model/plan"
)

func inputs(t testing.TB, text string) exchange.Inputs {
	t.Helper()
	grid := read(t, text).Grids[0]
	return exchange.ReadInputs(grid, exchange.Guess(grid, exchange.InputFields()), 0)
}

func TestAnInputListIsReadWithItsHeads(t *testing.T) {
	in := inputs(t, "Band X,,,,,,\nCh;\n"+"")
	require.NotEmpty(t, in.Faults, "a list without names is none")
	in = inputs(t, "Band X;;;;;;\nCh;Instrument;Mic / DI;Stand;+48V;Riser;Notes\n1;Kick in;boundary mic;;x;drums;\n2;Kick out;dynamic;short;;drums;own mic\n5;Bass;DI;;48V;;\n")
	require.Empty(t, faults(in.Faults))
	require.Equal(t, []exchange.InputRow{
		{Row: 3, UseRead: true, Input: plan.Input{Number: 1, Name: "Kick in", Source: "boundary mic", Use: "mic", Phantom: true, Riser: "drums"}},
		{Row: 4, UseRead: true, Input: plan.Input{Number: 2, Name: "Kick out", Source: "dynamic", Use: "dynamic", Stand: "short", Riser: "drums", Note: "own mic"}},
		{Row: 5, UseRead: true, Input: plan.Input{Number: 5, Name: "Bass", Source: "DI", Use: "DI", Phantom: true}},
	}, in.Rows)
	require.Equal(t, "3 to 4", in.Gaps[0].String())
}

func TestDuplicatesGapsAndSectionHeadsAreReported(t *testing.T) {
	in := inputs(t, "Input,Name,48V\n1,Kick,yes\n,DRUMS,\n2,Snare,maybe\n1,Kick again,\n4,Hat,no\n7,,\n20000,Late,\nten,Tom,\n")
	require.Equal(t, []string{
		`row 4, column C "48V": "maybe" is neither yes nor no`,
		`row 5, column A "Input": input 1 stands in row 2 already`,
		`row 8, column A "Input": "20000" is no whole number from 1 to 9999`,
		`row 9, column A "Input": "ten" is no whole number from 1 to 9999`,
	}, faults(in.Faults))
	require.Len(t, in.Rows, 2)
	require.Equal(t, []exchange.Gap{{2, 3}}, in.Gaps)
	require.Equal(t, 4, exchange.BadRows(in.Faults))
	require.Equal(t, []string{
		`row 3: "DRUMS" stands alone: it is taken for a heading, and no input`,
		`row 7: number 7 has nothing beside it: it is no input`,
	}, faults(in.Told))
}

func TestNamesAloneAreNumberedAsTheyStand(t *testing.T) {
	grid := read(t, "Kick\nSnare\n\nBass\n").Grids[0]
	in := exchange.ReadInputs(grid, exchange.Layout{Fields: []string{exchange.Name}}, 0)
	require.Empty(t, in.Faults)
	require.Equal(t, 3, in.Rows[2].Input.Number)
	require.Equal(t, 4, in.Rows[2].Row)
}

func TestTheUserGivesColumnsAnotherMeaning(t *testing.T) {
	grid := read(t, "Ch,Input,What is it\n1,Kick,boundary mic\n").Grids[0]
	l := exchange.Guess(grid, exchange.InputFields())
	require.Equal(t, []string{exchange.Number, exchange.Name, ""}, l.Fields)
	changed := l.Set(2, exchange.Source).Set(1, exchange.Note).Set(2, exchange.Name)
	require.Equal(t, []string{exchange.Number, exchange.Note, exchange.Name}, changed.Fields)
	require.Equal(t, []string{exchange.Number, exchange.Name, ""}, l.Fields, "the guess stays as it was")
	require.Equal(t, "boundary mic", exchange.ReadInputs(grid, changed, 0).Rows[0].Input.Name)
}

func TestTenThousandInputsAreReadAndThoseBeyondTheBoundNamed(t *testing.T) {
	var text strings.Builder
	text.WriteString("No;Name\n")
	for i := range 10_000 {
		fmt.Fprintf(&text, "%d;Input %d\n", i+1, i+1)
	}
	in := inputs(t, text.String())
	require.Len(t, in.Rows, 9999)
	require.Equal(t, []string{`row 10001, column A "No": "10000" is no whole number from 1 to 9999`}, faults(in.Faults))
}

func TestInputsEnterThePlanAndThoseOfANumberKeepTheirPatch(t *testing.T) {
	ids := plan.NewIDSource(1, 2)
	var kick plan.InputID
	p, err := plan.Do(plan.New("x"), ids, func(e *plan.Edit) error {
		kick = e.AddInput(plan.Input{Number: 1, Name: "Old", Note: "old"})
		return nil
	})
	require.NoError(t, err)
	in := inputs(t, "No;Name\n1;Kick\n2;Snare\n2;Twice\n")
	require.Equal(t, exchange.Coming{Known: 1, New: 1}, in.Coming(p, ""))
	_, err = plan.Do(p, ids, func(e *plan.Edit) error { return in.Add(e, "") })
	require.ErrorIs(t, err, plan.ErrRefused)
	p, err = plan.Do(p, ids, func(e *plan.Edit) error { return in.GoodOnly().Add(e, "") })
	require.NoError(t, err)
	require.Equal(t, 2, p.Inputs.Len())
	row, _ := p.Inputs.Get(plan.Key(kick))
	require.Equal(t, plan.Input{ID: kick, Number: 1, Name: "Kick", Note: "old"}, row, "what no column says stays")
}

func TestSourceIsTheNameOfAnInputWhereNoOtherColumnIs(t *testing.T) {
	for _, c := range []struct {
		text string
		want plan.Input
	}{
		{"Ch;Source;Mic;Stand\n1;Kick;boundary;short\n", plan.Input{Number: 1, Name: "Kick", Source: "boundary", Use: "mic", Phantom: true, Stand: "short"}},
		{"Ch;Source\n1;Kick\n", plan.Input{Number: 1, Name: "Kick"}},
		{"Input;Source;Mic\n1;Kick;boundary\n2;Snare;dynamic\n", plan.Input{Number: 1, Name: "Kick", Source: "boundary", Use: "mic", Phantom: true}},
		{"Ch;Name;Source\n1;Kick;boundary\n", plan.Input{Number: 1, Name: "Kick", Source: "boundary", Use: "mic", Phantom: true}},
		{"Ch;Instrument;Mic\n1;Kick;boundary\n", plan.Input{Number: 1, Name: "Kick", Source: "boundary", Use: "mic", Phantom: true}},
	} {
		in := inputs(t, c.text)
		require.Empty(t, faults(in.Faults), c.text)
		require.Equal(t, c.want, in.Rows[0].Input, c.text)
	}
}
