package patch_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// passive is a kind of 16 inlets with so many ports that all lie parallel to them.
func passive(e *plan.Edit, id plan.KindID, ports int) {
	plan.Put(e, plan.Kind{ID: id, Name: string(id), Group: "Stage", Inputs: 16, Passive: true, Splitter: "direct"})
	for n := 1; n <= ports; n++ {
		port := fmt.Sprintf("P%d", n)
		plan.Put(e, plan.KindPort{Kind: id, Name: port, Transport: "analogue-multicore"})
		plan.Put(e, plan.KindWay{Kind: id, Port: port, First: 1, Count: 16, Direction: "in", Socket: 1})
	}
}

// box adds a stage rack behind a port, with an input at the first inlet of the first device.
func box(e *plan.Edit, first, last plan.DeviceID, port string) error {
	rack := e.AddDevice(plan.Device{Name: "Rack", Kind: "stage-rack-48-20"})
	e.AddLink(plan.Link{Name: "M", Transport: "analogue-multicore", From: last, FromPort: port, To: rack, ToPort: "M1"})
	plan.Put(e, plan.Input{ID: "i-22222", Number: 1, Name: "Kick in"})
	plan.Put(e, plan.StagePatch{Input: "i-22222", Device: first, Socket: 1})
	return catalogue.Use(e, "stage-rack-48-20")
}

// mesh is so many splitters, each joined with every other, and a rack at the last.
func mesh(t require.TestingT, count int) *plan.Plan {
	p, err := plan.Do(plan.New("Mesh"), plan.NewIDSource(1, 1), func(e *plan.Edit) error {
		passive(e, "mesh", count)
		ids := make([]plan.DeviceID, count)
		for i := range ids {
			ids[i] = e.AddDevice(plan.Device{Name: fmt.Sprintf("Splitter %d", i+1), Kind: "mesh"})
			for other := range i {
				e.AddLink(plan.Link{
					Name: fmt.Sprintf("M%d-%d", i, other), Transport: "analogue-multicore",
					From: ids[i], FromPort: fmt.Sprintf("P%d", other+1), To: ids[other], ToPort: fmt.Sprintf("P%d", i),
				})
			}
		}
		return box(e, ids[0], ids[count-1], fmt.Sprintf("P%d", count))
	})
	require.NoError(t, err)
	return p
}

// row is so many panels in a row, each joined with the next by two multicores that lie parallel, and a rack at the last.
func row(t require.TestingT, count int) *plan.Plan {
	p, err := plan.Do(plan.New("Row"), plan.NewIDSource(1, 1), func(e *plan.Edit) error {
		passive(e, "panel", 5)
		ids := make([]plan.DeviceID, count)
		for i := range ids {
			ids[i] = e.AddDevice(plan.Device{Name: fmt.Sprintf("Panel %d", i+1), Kind: "panel"})
			for n := 1; n <= 2 && i > 0; n++ {
				e.AddLink(plan.Link{
					Name: fmt.Sprintf("M%d-%d", i, n), Transport: "analogue-multicore",
					From: ids[i-1], FromPort: fmt.Sprintf("P%d", n+2), To: ids[i], ToPort: fmt.Sprintf("P%d", n),
				})
			}
		}
		return box(e, ids[0], ids[count-1], "P5")
	})
	require.NoError(t, err)
	return p
}

// Each socket behind a mesh is found once, however many ways lead there.
func TestMeshedDevicesAreWalkedOnce(t *testing.T) {
	for name, p := range map[string]*plan.Plan{"nine meshed splitters": mesh(t, 9), "sixty panels": row(t, 60)} {
		t.Run(name, func(t *testing.T) {
			v := patch.Of(p)
			line := v.House().Lines[0]
			require.Equal(t, "Kick in → "+v.SocketWords(line.At)+" → Rack in 1", v.Words(line))
			require.Len(t, line.Legs, 1, "the rack is found once")
			if name == "nine meshed splitters" {
				require.Len(t, line.Legs[0].Ways, 2, "over the fewest multicores")
			} else {
				require.Len(t, line.Legs[0].Ways, 60)
			}
		})
	}
}

// A way that lets 48 V back is found though an isolated one is shorter.
func TestADirectWayCountsBeforeAnIsolatedOne(t *testing.T) {
	r := newRig(t)
	r.device("Split", "splitter-48")
	r.device("Panel", "splitter-48")
	r.device("SL", "stage-rack-48-20")
	r.link("M01", "Split", "B1", "Panel", "IN1")
	r.link("M02", "Split", "A1", "Panel", "A1")
	r.link("M03", "Panel", "A2", "SL", "M1")
	r.input(1, "Hat")
	r.stage("", "Hat", "Split", 1)
	require.Empty(t, r.line("", "Hat").Legs[0].Ways[1:], "the panel's first sixteen lie on M1 of nothing")
	r.link("M04", "Panel", "C1", "SL", "M2")
	leg := r.line("", "Hat").Legs[0]
	require.True(t, leg.Isolated, "C1 of the panel is isolated")
	r.do(func(e *plan.Edit) error {
		return plan.Update(e, plan.PortKey("splitter-48", "C1"), func(p *plan.KindPort) { p.Splitter = "direct" })
	})
	leg = r.line("", "Hat").Legs[0]
	require.False(t, leg.Isolated)
	require.Equal(t, r.links["M02"], leg.Ways[0].Link)
}

// BenchmarkMesh resolves passive devices that are joined more than once; twice the devices cost about four times as much,
// since a walk goes from each of their sockets.
func BenchmarkMesh(b *testing.B) {
	for name, p := range map[string]*plan.Plan{
		"8 splitters": mesh(b, 8), "9 splitters": mesh(b, 9), "18 splitters": mesh(b, 18),
		"12 panels": row(b, 12), "24 panels": row(b, 24),
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				patch.Of(p).Arrivals()
			}
		})
	}
}
