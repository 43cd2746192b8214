package sources_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/table"
)

func TestARightSideIsTypedByItsNumberOrName(t *testing.T) {
	b := &booth{t: t, plan: demo.Weekender()}
	house := patch.Of(b.plan).House()
	left, right := house.Lines[0].Input, house.Lines[1].Input
	for _, typed := range []string{"2", right.Name, "2 " + right.Name} {
		b.plan = demo.Weekender()
		p := houseOf(t, b.plan, "inputs")
		row := p.of(plan.RefOf(left))
		next, err := p.types(row, "right", typed)
		require.NoError(t, err, typed)
		after := houseOf(t, next, "inputs")
		require.Equal(t, "2 "+right.Name, after.says(row, "right"))
		require.Equal(t, "L of 2", after.says(row, "stereo"))
		require.Equal(t, "R of 1", after.says(after.of(plan.RefOf(right)), "stereo"))
		mono, err := after.types(row, "right", "")
		require.NoError(t, err)
		require.Empty(t, houseOf(t, mono, "inputs").says(row, "right"))
		require.Equal(t, "L of 2", houseOf(t, next, "patch").says(houseOf(t, next, "patch").of(plan.RefOf(left)), "stereo"))
		_, err = after.types(after.of(plan.RefOf(house.Lines[2].Input)), "right", "2")
		require.ErrorContains(t, err, "are a stereo pair already: part them first")
	}
	outputs := houseOf(t, b.plan, "outputs")
	next, err := outputs.types(0, "right", outputs.says(1, "number"))
	require.NoError(t, err)
	require.Equal(t, "R of "+outputs.says(0, "number"), houseOf(t, next, "outputs").says(1, "stereo"))
}

func TestTheirNameIsTypedFoundAndForgotten(t *testing.T) {
	p := houseOf(t, demo.Weekender(), "sockets")
	socket := patch.Socket{Number: 1}
	for id := range patch.Of(p.plan).ByName() {
		if patch.Of(p.plan).Sockets(id, false) > 0 {
			socket.Device = id
		}
	}
	row := -1
	for at := range p.Len() {
		if p.RowName(at) == patch.Of(p.plan).SocketWords(socket) {
			row = at
		}
	}
	require.GreaterOrEqual(t, row, 0)
	next, err := p.types(row, "theirs", " SR   9 ")
	require.NoError(t, err)
	after := houseOf(t, next, "sockets")
	require.Equal(t, "SR 9", after.says(row, "theirs"))
	require.Equal(t, patch.Of(next).SocketWords(socket)+" (their SR 9)", patch.Of(next).BothWords(socket))
	sheet := sheetOf(after)
	sheet.SetFilter("SR 9")
	require.Equal(t, 1, sheet.Len(), "the filter finds it")
	gone, err := after.types(row, "theirs", "")
	require.NoError(t, err)
	require.Zero(t, gone.SocketNames.Len())
}

func TestTheMulticoreOfAnInputIsNamed(t *testing.T) {
	p := houseOf(t, demo.Weekender(), "patch")
	view := patch.Of(p.plan)
	seen := false
	for row := range p.Len() {
		line, _ := view.House().Line(plan.InputID(p.Ref(row).Key))
		said := p.says(row, "multi")
		if len(line.Legs) > 0 && len(line.Legs[0].Ways) > 0 {
			seen = true
			require.Contains(t, said, view.MultiName(line.Legs[0].Ways[0].Link)+", way ")
		}
	}
	require.True(t, seen)
}

func TestAnOutputListIsPastedUnderItsOwnHeads(t *testing.T) {
	p := houseOf(t, demo.Weekender(), "outputs")
	next := p.plan
	sheet := table.NewSheet(p.Source, func(_ string, edit func(*plan.Edit) error) (err error) {
		next, err = plan.Do(next, nil, edit)
		return err
	})
	name := p.says(0, "name")
	changed, err := sheet.Paste("Name\tMix\tType\tFreq\tPack\n" + name + "\tAux 3\tin-ear\t790,5 MHz\tpack 1\n")
	require.NoError(t, err)
	require.Equal(t, 4, changed)
	after := houseOf(t, next, "outputs")
	require.Equal(t, []string{"Aux 3", "in-ear", "790.5 MHz", "pack 1"}, []string{after.says(0, "mix"), after.says(0, "kind"), after.says(0, "frequency"), after.says(0, "pack")})
}
