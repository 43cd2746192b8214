package exchange_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/quantity"
)

var deviceKinds = []plan.Kind{
	{ID: "console-48", Name: "Console 48 channels", Group: "Consoles"},
	{ID: "box-16", Name: "Stage box 16 in, 8 out", Group: "Stage"},
	{ID: "box-32", Name: "Stage box 32 in, 16 out", Group: "Stage"},
	{ID: "split", Name: "Splitter", Group: "Stage"},
}

func useDeviceKind(e *plan.Edit, id plan.KindID) error {
	for _, kind := range deviceKinds {
		if kind.ID == id {
			plan.Put(e, kind)
		}
	}
	return nil
}

func devices(t *testing.T, p *plan.Plan, text string, named map[string]plan.KindID) exchange.Devices {
	t.Helper()
	grid := read(t, text).Grids[0]
	o := exchange.DeviceOptions{Bare: quantity.Metric, Kinds: deviceKinds, Named: named}
	return exchange.ReadDevices(grid, exchange.Guess(grid, exchange.DeviceFields()), p, o)
}

func taken(t *testing.T, p *plan.Plan, list exchange.Devices) *plan.Plan {
	t.Helper()
	next, err := plan.Do(p, plan.NewIDSource(3, 3), func(e *plan.Edit) error { return list.Add(e, useDeviceKind) })
	require.NoError(t, err)
	return next
}

func named(t *testing.T, p *plan.Plan, name string) plan.Device {
	t.Helper()
	for device := range p.Devices.All() {
		if device.Name == name {
			return device
		}
	}
	require.Fail(t, "no device of this name", name)
	return plan.Device{}
}

func TestAListOfDevicesWithoutCoordinatesComesIntoTheList(t *testing.T) {
	p := plan.New("Ballroom")
	list := devices(t, p, "Name,Kind,Qty,Position,Note\nFOH,Console 48 channels,1,Gallery,own desk\nSide box,stage box 16,2,Stage,\n,Splitter,,stage,\n", nil)
	require.Empty(t, faults(list.Faults))
	coming := list.Coming(p)
	require.Equal(t, exchange.DevicesComing{New: 4, Positions: []string{"Gallery", "Stage"}}, coming)
	p = taken(t, p, list)
	require.Equal(t, 4, p.Devices.Len())
	require.True(t, p.Unplaced(), "nothing has a place")
	require.Equal(t, 2, p.Positions.Len(), "Stage and stage are one")
	for position := range p.Positions.All() {
		require.True(t, position.Unplaced, position.Name)
	}
	require.Equal(t, "own desk", named(t, p, "FOH").Note)
	require.Equal(t, named(t, p, "Side box").Position, named(t, p, "Side box 2").Position)
	require.Equal(t, plan.KindID("split"), named(t, p, "Splitter").Kind, "a row without a name bears its kind's")
}

func TestDevicesWithCoordinatesAreOnTheGround(t *testing.T) {
	p := plan.New("Field")
	list := devices(t, p, "Device;Type;X (ft);Y (ft);Where\nFOH;Console;100;-20,5;FOH tower\nSpare;Splitter;;;FOH tower\n", nil)
	require.Empty(t, faults(list.Faults))
	require.Equal(t, exchange.DevicesComing{New: 2, Placed: 1, Positions: []string{"FOH tower"}}, list.Coming(p))
	p = taken(t, p, list)
	foh := named(t, p, "FOH")
	require.False(t, foh.Unplaced)
	require.Equal(t, 30.48, foh.X)
	require.InDelta(t, -20.5*0.3048, foh.Y, 0.001)
	require.True(t, named(t, p, "Spare").Unplaced)
	tower := p.Positions.At(0)
	require.False(t, tower.Unplaced)
	require.Equal(t, foh.At(), tower.At())
}

func TestBadRowsOfDevicesAreNamedWithWhatToDo(t *testing.T) {
	p := taken(t, plan.New("Field"), devices(t, plan.New("Field"), "Name,Kind\nTwin,Splitter\n", nil))
	p, err := plan.Do(p, plan.NewIDSource(5, 5), func(e *plan.Edit) error {
		for range 2 {
			e.AddDevice(plan.Device{Name: "Double", Kind: "split", Unplaced: true})
		}
		return nil
	})
	require.NoError(t, err)
	list := devices(t, p, `Name,Kind,Quantity,X,Y
A,,1,,
B,Stage box,1,,
C,Laser,1,,
D,Splitter,none,,
E,Splitter,1,4,
F,Splitter,1,,99999
a,Splitter,1,far,1
G,Splitter,1,1,1
g,Splitter,1,2,2
Twin,Splitter,3,,
Double,Splitter,1,,
H,Splitter,2000,,
`, nil)
	require.Equal(t, []string{
		`row 2, column B "Kind": no kind of device is written; write for instance Stage box or Console, as the list of equipment has it`,
		`row 3, column B "Kind": "Stage box" is no kind of device here, or may be several: say what it means`,
		`row 4, column B "Kind": "Laser" is no kind of device here, or may be several: say what it means`,
		`row 5, column C "Quantity": "none" is no whole number from 1 to 1000`,
		`row 6, column E "Y": how far right is written and how far up is not: write both, or neither for a device in the list`,
		`row 7, column E "Y": "99999" is out of bounds: it lies between −20000 m and 20000 m`,
		`row 7, column D "X": how far up is written and how far right is not: write both, or neither for a device in the list`,
	}, faults(list.Faults)[:7])
	require.Contains(t, faults(list.Faults)[7], `row 8, column D "X": `)
	require.Equal(t, []string{
		`row 8, column A "Name": "a" stands in row 2 already: give it another name, or a quantity`,
		`row 10, column A "Name": "g" stands in row 9 already: give it another name, or a quantity`,
		`row 11, column C "Quantity": "Twin" is in the plan already, once: write a quantity of 1, or another name`,
		`row 12, column A "Name": 2 devices of the plan are called "Double": give each a name of its own first`,
		`row 13, column C "Quantity": "2000" is no whole number from 1 to 1000`,
	}, faults(list.Faults)[8:])
	require.Equal(t, []string{"Stage box", "Laser"}, list.Unknown)
	require.Len(t, list.Rows, 1)
	_, err = plan.Do(p, plan.NewIDSource(6, 6), func(e *plan.Edit) error { return list.Add(e, useDeviceKind) })
	require.ErrorIs(t, err, plan.ErrRefused, "a list with faults is refused as a whole")
	require.Equal(t, p.Devices.Len()+1, taken(t, p, list.GoodOnly()).Devices.Len())
	said := devices(t, p, "Name,Kind\nB,Stage box\n", map[string]plan.KindID{"Stage box": "box-32"})
	require.Empty(t, said.Faults, "what the user says a word means, it means")
	require.Equal(t, plan.KindID("box-32"), said.Rows[0].Device.Kind)
	require.NotEmpty(t, devices(t, p, "Colour,Weight\nred,heavy\n", nil).Faults, "a list without kinds and names is none")
}

func TestAListChangesTheDevicesThatItNamesAndSaysHow(t *testing.T) {
	p := plan.New("Field")
	p = taken(t, p, devices(t, p, "Name,Kind,Position\nFOH,Console,Gallery\nBox,Stage box 16,Stage\nSplit,Splitter,\n", nil))
	list := devices(t, p, "Name,Kind,Position,X,Y,Note\nfoh,,,12,3.5,\nBOX,Stage box 32,Wing,,,new head\nSplit,Splitter,,,,\nMonitors,Console,,,,\n", nil)
	require.Empty(t, faults(list.Faults))
	require.Equal(t, exchange.DevicesComing{
		New: 1, Same: 1, Positions: []string{"Wing"},
		Changes: []exchange.DeviceChange{
			{"FOH", "placed 12.0 m to the right and 3.5 m up"},
			{"Box", "now Stage box 32 in, 16 out, was Stage box 16 in, 8 out, now at Wing, another note"},
		},
	}, list.Coming(p))
	before := named(t, p, "FOH")
	p = taken(t, p, list)
	require.Equal(t, 4, p.Devices.Len())
	foh, box := named(t, p, "FOH"), named(t, p, "Box")
	require.Equal(t, before.ID, foh.ID)
	require.Equal(t, before.Position, foh.Position, "a blank cell changes nothing")
	require.Equal(t, 12.0, foh.X)
	require.False(t, foh.Unplaced)
	require.True(t, box.Unplaced)
	require.Equal(t, plan.KindID("box-32"), box.Kind)
	require.Equal(t, "new head", box.Note)
	again := list.Coming(p)
	require.Empty(t, again.Changes, "taken twice it changes nothing more")
	require.Zero(t, again.New)
}
