package strip_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/ui/strip"
)

// site is a plan with one AES50 link of 100 m between two stage boxes, at 20 °C.
type site struct {
	plan *plan.Plan
	link plan.LinkID
}

// laid returns the site with the link as it is set and with these cables.
func laid(t testing.TB, with func(e *plan.Edit, link *plan.Link) []plan.Segment) site {
	t.Helper()
	s := site{}
	next, err := plan.Do(plan.New("Site"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.SlackPercent, settings.SlackEnd, settings.Detour, settings.Temperature = plan.Some(0), plan.Some(0), 1, plan.Some(20)
		e.SetSettings(settings)
		for _, kind := range catalogue.CableKinds() {
			require.NoError(t, catalogue.UseCable(e, kind.ID))
		}
		require.NoError(t, catalogue.Use(e, "stagebox-40-20"))
		near := e.AddDevice(plan.Device{Name: "SL box", Kind: "stagebox-40-20"})
		far := e.AddDevice(plan.Device{Name: "FOH", Kind: "stagebox-40-20", X: 100})
		link := plan.Link{Name: "L07", Transport: "aes50", From: near, FromPort: "AES50 1", To: far, ToPort: "AES50 2"}
		segments := with(e, &link)
		s.link = e.AddLink(link)
		e.SetSegments(s.link, segments)
		return nil
	})
	require.NoError(t, err)
	s.plan = next
	return s
}

// run is what the strip shows of the site's link.
func (s site) run(system quantity.System) strip.Run {
	link, _ := s.plan.Link(s.link)
	return strip.Of(s.plan, link, budget.Of(s.plan, link), system)
}

// usual is a run of two reels that is just not over.
func usual(t testing.TB) strip.Run {
	return laid(t, func(e *plan.Edit, link *plan.Link) []plan.Segment {
		plan.Put(e, plan.Case{ID: "c-22222", Name: "Case 2"})
		plan.Put(e, plan.Reel{ID: "r-22222", Tag: "X70-03", Kind: "cat7-own", Length: 70, Case: "c-22222"})
		return []plan.Segment{{Reel: "r-22222"}, {Kind: "cat5e-unscreened", Length: 45}}
	}).run(quantity.Metric)
}

// many is a run of twelve short pieces behind panels, with a drum at its end.
func many(t testing.TB) strip.Run {
	return laid(t, func(e *plan.Edit, link *plan.Link) []plan.Segment {
		link.FromPanel, link.ToPanel, link.FromLead, link.FromLeadKind = "cat5e", "cat6a", 2, "cat5e"
		var segments []plan.Segment
		for i := range 12 {
			length := []float64{5, 10, 3, 20}[i%4]
			segments = append(segments, plan.Segment{Kind: "cat5e-unscreened", Length: length})
		}
		segments[11].Kind = "cat6a-drum-socket"
		return segments
	}).run(quantity.Metric)
}
