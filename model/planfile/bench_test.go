package planfile_test

import (
	"bytes"
	"fmt"
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// largePlan has 500 devices, 750 links, 3,000 segments and 2,000 inputs.
func largePlan(t require.TestingT) *plan.Plan {
	const devices, ports, links, segments, inputs = 500, 4, 750, 4, 2000
	p, err := plan.Do(plan.New("Large"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "box", Name: "Stage box 40 in, 20 out", Group: "stage boxes", Inputs: 32, Outputs: 16})
		plan.Put(e, plan.CableKind{ID: "cat6a-own", Name: "Cat 6A drum", Media: "pair", Category: "cat6a", Gauge: 23, Screened: true})
		for i := range ports {
			plan.Put(e, plan.KindPort{Kind: "box", Name: fmt.Sprint(i), Transport: "aes50", Connector: "8P8C"})
		}
		ids := make([]plan.DeviceID, devices)
		for i := range ids {
			ids[i] = e.AddDevice(plan.Device{Name: fmt.Sprintf("Box %03d", i), Kind: "box", X: float64(i) / 8, Y: -float64(i)})
		}
		for i := range links {
			at := func(n int) (plan.DeviceID, string) { return ids[n%devices], fmt.Sprint(n / devices) }
			link := plan.Link{Name: fmt.Sprintf("L%03d", i), Transport: "aes50", RiseFrom: 1, RiseTo: 4.5, FillKind: "cat6a-own"}
			link.From, link.FromPort = at(2 * i)
			link.To, link.ToPort = at(2*i + 1)
			id := e.AddLink(link)
			for order := range segments {
				plan.Put(e, plan.Segment{Link: id, Order: order + 1, Kind: "cat6a-own", Length: 12.5})
			}
		}
		for i := range inputs {
			id := plan.InputID(fmt.Sprintf("i-%c%c%c22", plan.Signs[i%29], plan.Signs[i/29%29], plan.Signs[i/841]))
			plan.Put(e, plan.Input{ID: id, Number: i + 1, Name: "Vocal", Source: "dynamic microphone", Stand: "tall"})
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

func BenchmarkWriteALargePlan(b *testing.B) {
	p := largePlan(b)
	b.SetBytes(int64(len(written(b, p))))
	b.ReportAllocs()
	for b.Loop() {
		require.NoError(b, planfile.Write(io.Discard, p))
	}
}

func BenchmarkReadALargePlan(b *testing.B) {
	text := written(b, largePlan(b))
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		_, err := planfile.Read(bytes.NewReader(text))
		require.NoError(b, err)
	}
}

func BenchmarkSaveALargePlan(b *testing.B) {
	p, path := largePlan(b), b.TempDir()+"/large.stageloom"
	stamp, err := planfile.Save(path, p, planfile.Stamp{}, nil)
	require.NoError(b, err)
	for b.Loop() {
		stamp, err = planfile.Save(path, p, stamp, nil)
		require.NoError(b, err)
	}
}
