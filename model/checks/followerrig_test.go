package checks_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// rigs is how many rigs the follower by force tries, each with a house and two acts: 10,200 in all.
const rigs = 3400

// kit is what a rig may have, by name.
var kit = []struct {
	name string
	kind plan.KindID
}{
	{"FOH", "console-72"},
	{"Mon", "console-56"},
	{"Guest", "console-40"},
	{"SL", "stage-rack-48-20"},
	{"MR", "stage-rack-48-20"},
	{"SR", "stagebox-24-12"},
	{"Split", "splitter-48"},
	{"Panel", "splitter-48"},
	{"Active", "active-splitter-16"},
	{"Snake", "sub-snake-12-4"},
	{"RF", "rf-rack-16"},
	{"Drop", "drop-panel-8-4"},
}

// stock is a plan of all the kit with nothing joined.
func stock(t *testing.T) *plan.Plan {
	p, err := plan.Do(plan.New("Rig"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		for i, row := range kit {
			must(catalogue.Use(e, row.kind))
			plan.Put(e, plan.Device{ID: kitID(i), Name: row.name, Kind: row.kind})
		}
		for ways := 1; ways <= 4; ways++ {
			plan.Put(e, plan.CableKind{ID: plan.CableKindID(fmt.Sprintf("multi-%d", ways)), Name: "Multi", Media: "analogue-multicore", Ways: ways})
		}
		plan.Put(e, plan.Act{ID: first, Name: "Brass", Order: 1})
		plan.Put(e, plan.Act{ID: second, Name: "Strings", Order: 2})
		return nil
	})
	require.NoError(t, err)
	return p
}

func kitID(i int) plan.DeviceID { return plan.DeviceID("d-2222" + plan.Signs[i:i+1]) }

// dice draws one rig.
type dice struct {
	*rand.Rand
	edit *plan.Edit
}

func draw(t *testing.T, base *plan.Plan, random *rand.Rand) *plan.Plan {
	p, err := plan.Do(base, plan.NewIDSource(3, 4), func(e *plan.Edit) error {
		d := dice{random, e}
		for console := range 3 {
			must(plan.Update(e, plan.Key(kitID(console)), func(row *plan.Device) { row.PassesOn = d.IntN(2) == 0 }))
		}
		d.links("analogue-multicore", 3+d.IntN(6))
		d.links("aes50", 2+d.IntN(5))
		if d.IntN(2) == 0 {
			plan.Put(e, plan.ActConsole{Act: second, Console: kitID(2), Port: "AES50 1", Drop: kitID(11)})
		}
		for i := range 5 {
			d.input(i)
		}
		acts := []plan.ActID{"", "", "", first, second}
		for range 5 {
			device, socket := d.inlet()
			if d.IntN(20) == 0 {
				socket = 49
			}
			channel := 1 + d.IntN(5)
			if d.IntN(40) == 0 {
				channel = 1000
			}
			row := plan.ConsolePatch{Act: acts[d.IntN(5)], Console: kitID(d.IntN(3)), Channel: channel, Device: device, Socket: socket}
			if row.Act != "" && d.IntN(3) == 0 {
				row.Device, row.Socket, row.Strike = "", 0, true
			}
			plan.Put(e, row)
		}
		for range 3 {
			input := plan.InputID("i-2222" + plan.Signs[:5][d.IntN(5):][:1])
			_ = patch.SetChannel(e, acts[d.IntN(5)], input, kitID(d.IntN(3)), 6+d.IntN(4))
		}
		d.slots()
		return nil
	})
	require.NoError(t, err)
	return p
}

// links joins ports of a transport at random.
func (d *dice) links(transport plan.TransportID, count int) {
	type port struct {
		device plan.DeviceID
		name   string
	}
	var free []port
	for i, row := range kit {
		for _, p := range d.edit.Now().Ports(row.kind) {
			if p.Transport == transport && d.IntN(3) > 0 {
				free = append(free, port{kitID(i), p.Name})
			}
		}
	}
	d.Shuffle(len(free), func(a, b int) { free[a], free[b] = free[b], free[a] })
	for i := 0; i+1 < len(free) && i < 2*count; i += 2 {
		a, b := free[i], free[i+1]
		if a.device == b.device {
			continue
		}
		link := plan.Link{Name: "L", Transport: transport, From: a.device, FromPort: a.name, To: b.device, ToPort: b.name}
		if transport == "analogue-multicore" && d.IntN(3) == 0 {
			link.FillKind = plan.CableKindID(fmt.Sprintf("multi-%d", 1+d.IntN(4)))
		}
		d.edit.AddLink(link)
	}
}

// inlet is a socket at random among few, so that channels and inputs meet.
func (d *dice) inlet() (plan.DeviceID, int) {
	at := []int{3, 3, 3, 4, 4, 5, 6, 6, 6, 7, 8, 9, 11, 0}[d.IntN(14)]
	socket := 1 + d.IntN(4)
	if kit[at].kind == "splitter-48" || kit[at].kind == "stage-rack-48-20" {
		socket += 16 * d.IntN(2)
	}
	return kitID(at), socket
}

func (d *dice) input(number int) {
	row := plan.Input{ID: plan.InputID("i-2222" + plan.Signs[number:number+1]), Number: number + 1, Name: fmt.Sprintf("In %d", number+1)}
	switch d.IntN(5) {
	case 0:
		row.Snake, row.SnakeWay = kitID(9), 1+d.IntN(4)
	case 1:
		row.Snake, row.SnakeWay = kitID(10), 1+d.IntN(4)
	}
	if number == 4 && d.IntN(2) == 0 {
		row.Act = second
	}
	plan.Put(d.edit, row)
	for _, act := range []plan.ActID{"", first, second} {
		device, socket := d.inlet()
		stage := plan.StagePatch{Act: act, Input: row.ID, Device: device, Socket: socket}
		if act != "" && d.IntN(3) == 0 {
			stage.Device, stage.Socket, stage.Strike = "", 0, true
		}
		if skip := d.IntN(3); act == "" && skip > 0 && row.Snake == "" || act != "" && skip == 0 {
			plan.Put(d.edit, stage)
		}
	}
}

// slots gives out what is wanted, then spoils some of it.
func (d *dice) slots() {
	if d.IntN(4) > 0 {
		patch.GiveOut(d.edit)
	}
	for link := range d.edit.Now().Links.All() {
		for range 3 {
			if link.Transport != "aes50" {
				continue
			}
			row := plan.SlotPatch{Link: link.ID, Direction: []string{patch.Forward, patch.Return}[d.IntN(2)], Slot: 1 + d.IntN(54)}
			row.Act = []plan.ActID{"", "", first, second}[d.IntN(4)]
			row.Device, row.Socket = kitID(3+d.IntN(3)), 1+d.IntN(4)
			if row.Act != "" && d.IntN(2) == 0 {
				row.Device, row.Socket, row.Strike = "", 0, true
			}
			plan.Put(d.edit, row)
		}
	}
}
