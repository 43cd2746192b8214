package report_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// field is an invented plan with a link of every grade, ungraded links, tagged reels in cases and a house line.
func field(t testing.TB) *plan.Plan {
	t.Helper()
	p, err := plan.Do(plan.New("Lower field"), plan.NewIDSource(7, 7), func(e *plan.Edit) error {
		use(t, e)
		plan.Put(e, plan.Case{ID: "c-22222", Name: "Case 1"})
		plan.Put(e, plan.Reel{ID: "r-22222", Tag: "6A-01", Kind: "cat6a-own", Length: 60, Case: "c-22222"})
		plan.Put(e, plan.Reel{ID: "r-33333", Tag: "6A-02", Kind: "cat6a-own", Length: 60, Case: "c-22222"})
		plan.Put(e, plan.HouseLine{ID: "h-22222", Name: "H1", Kind: "cat6a-solid", Length: 40})
		plan.Put(e, plan.Area{ID: "a-22222", Name: "Stage", Use: "stage"})
		for i, at := range []geom.Point{{X: -10, Y: -4}, {X: 10, Y: -4}, {X: 10, Y: 8}, {X: -10, Y: 8}} {
			plan.Put(e, plan.AreaPoint{Area: "a-22222", Order: i + 1, X: at.X, Y: at.Y})
		}
		stage := e.AddDevice(plan.Device{Name: "Stage left", Kind: "stage-rack-48-24", X: -8, Y: 2})
		right := e.AddDevice(plan.Device{Name: "Stage right", Kind: "stage-rack-48-24", X: 8, Y: 2})
		foh := e.AddDevice(plan.Device{Name: "FOH", Kind: "console-64", X: 0, Y: -62})
		monitors := e.AddDevice(plan.Device{Name: "Monitors", Kind: "console-64", X: 24, Y: 6})
		near := e.AddDevice(plan.Device{Name: "Rack switch", Kind: "switch-16", X: -24, Y: 0})
		far := e.AddDevice(plan.Device{Name: "FOH switch", Kind: "switch-16", X: 10, Y: -64})
		one := e.AddDevice(plan.Device{Name: "Converter 1", Kind: "media-converter", X: -24, Y: -6})
		two := e.AddDevice(plan.Device{Name: "Converter 2", Kind: "media-converter", X: 40, Y: -50})
		link := func(transport plan.TransportID, from plan.DeviceID, fromPort string, to plan.DeviceID, toPort string, cables ...plan.Segment) plan.LinkID {
			id := e.AddLink(plan.Link{Transport: transport, From: from, FromPort: fromPort, To: to, ToPort: toPort, Colour: "blue"})
			e.SetSegments(id, cables)
			return id
		}
		link("aes50", stage, "A", foh, "A", plan.Segment{Reel: "r-22222"}, plan.Segment{Reel: "r-33333"})
		link("aes50", stage, "B", foh, "B", of("cat5e", 60, 60)...)
		link("aes50", right, "A", monitors, "A", plan.Segment{HouseLine: "h-22222"})
		link("aes50", right, "B", monitors, "B")
		link("1000base-t", near, "01", far, "01", of("cat6a", 50, 40)...)
		short := link("1000base-t", near, "02", far, "02", of("cat6a-own", 60)...)
		require.NoError(t, plan.Update(e, plan.Key(short), func(l *plan.Link) { l.FillKind = "cat6a-own" }))
		link("fibre", one, "F", two, "F", of("fibre-multimode", 150)...)
		return nil
	})
	require.NoError(t, err)
	return p
}

// use copies the kinds that these plans are made of.
func use(t testing.TB, e *plan.Edit) {
	t.Helper()
	for _, kind := range catalogue.CableKinds() {
		require.NoError(t, catalogue.UseCable(e, kind.ID))
	}
	for _, kind := range catalogue.DeviceKinds() {
		require.NoError(t, catalogue.Use(e, kind.Kind.ID))
	}
}

func of(kind plan.CableKindID, lengths ...float64) (segments []plan.Segment) {
	for _, length := range lengths {
		segments = append(segments, plan.Segment{Kind: kind, Length: length})
	}
	return segments
}
