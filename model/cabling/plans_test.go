package cabling_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/cabling"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
)

// show is a plan with boxes in a row, each linked to a console, and a stock.
type show struct {
	*plan.Plan
	ids   *plan.IDSource
	boxes []plan.DeviceID
	desks []plan.DeviceID
	links []plan.LinkID
}

const portsOfDesk = 8

// newShow is a show with a box at each of these distances in metres, linked by AES50, without slack or detour, at 20 °C.
// Ports of the bare box take no shell.
func newShow(t require.TestingT, ways ...float64) *show {
	s := &show{ids: plan.NewIDSource(7, 7)}
	p := plan.New("Show")
	settings := p.Settings
	settings.SlackPercent, settings.SlackEnd, settings.Detour, settings.Exposure = plan.Some(0), plan.Some(0), 1, "indoors"
	settings.Temperature, settings.WantedMargin = plan.Some(20), plan.Some(1)
	var err error
	s.Plan, err = plan.Do(p, s.ids, func(e *plan.Edit) error {
		e.SetSettings(settings)
		for _, kind := range catalogue.CableKinds() {
			plan.Put(e, kind)
		}
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
		plan.Put(e, plan.Kind{ID: "desk", Name: "Desk", Group: "Mixing"})
		for i := range portsOfDesk {
			port := plan.KindPort{
				Kind: "desk", Name: fmt.Sprintf("A%d", i), Transport: "aes50", Connector: modular(e.Now()), Lockable: true, MetalShell: true,
			}
			plan.Put(e, port)
			port.Kind = "box"
			plan.Put(e, port)
			port.Name, port.Lockable = fmt.Sprintf("B%d", i), false
			plan.Put(e, port)
			port.Name, port.Transport, port.Connector, port.MetalShell = fmt.Sprintf("F%d", i), "fibre", "", false
			plan.Put(e, port)
			port.Kind = "desk"
			plan.Put(e, port)
		}
		for i, way := range ways {
			y := 10 * float64(i)
			s.boxes = append(s.boxes, e.AddDevice(plan.Device{Name: fmt.Sprintf("Box %d", i+1), Kind: "box", Y: y}))
			s.desks = append(s.desks, e.AddDevice(plan.Device{Name: fmt.Sprintf("Desk %d", i+1), Kind: "desk", X: way, Y: y}))
			s.links = append(s.links, e.AddLink(plan.Link{
				Transport: "aes50", From: s.boxes[i], FromPort: "A0", To: s.desks[i], ToPort: "A0",
			}))
		}
		return nil
	})
	require.NoError(t, err)
	return s
}

func modular(p *plan.Plan) string {
	kind, _ := p.CableKinds.Get("cat6a")
	return kind.Connector
}

func (s *show) do(t require.TestingT, edit func(*plan.Edit) error) {
	next, err := plan.Do(s.Plan, s.ids, edit)
	require.NoError(t, err)
	s.Plan = next
}

// reel adds a row of reels; its tag is its name in the tests.
func (s *show) reel(t require.TestingT, tag string, kind plan.CableKindID, length float64, with ...func(*plan.Reel)) plan.ReelID {
	var id plan.ReelID
	s.do(t, func(e *plan.Edit) error {
		reel := plan.Reel{Tag: tag, Kind: kind, Length: length}
		for _, change := range with {
			change(&reel)
		}
		id = e.AddReel(reel)
		return nil
	})
	return id
}

func (s *show) change(t require.TestingT, i int, with func(*plan.Link)) {
	s.do(t, func(e *plan.Edit) error { return plan.Update(e, plan.Key(s.links[i]), with) })
}

func (s *show) lay(t require.TestingT, i int, chain ...plan.Segment) {
	s.do(t, func(e *plan.Edit) error { e.SetSegments(s.links[i], chain); return nil })
}

func (s *show) pick(t require.TestingT, request cabling.Request) *cabling.Proposal {
	proposal, err := cabling.Pick(context.Background(), s.Plan, request, nil)
	require.NoError(t, err)
	return proposal
}

// take picks and lays what is proposed.
func (s *show) take(t require.TestingT, request cabling.Request) *cabling.Proposal {
	proposal := s.pick(t, request)
	s.do(t, proposal.Edit)
	return proposal
}

// words names the cables of every link.
func (s *show) words() (words []string) {
	for _, link := range s.links {
		words = append(words, cabling.Words(s.Plan, s.SegmentsOf(link)))
	}
	return words
}

func many(n int) func(*plan.Reel)            { return func(r *plan.Reel) { r.Quantity = n } }
func condition(word string) func(*plan.Reel) { return func(r *plan.Reel) { r.Condition = word } }
func measured(lossDB float64) func(*plan.Reel) {
	return func(r *plan.Reel) { r.Measured = plan.Some(lossDB) }
}

// anyShow draws a show of a few links with all that a pick has to mind.
func anyShow(t *rapid.T, most int) *show {
	ways := rapid.SliceOfN(rapid.Float64Range(5, 150), 1, most).Draw(t, "ways")
	s := newShow(t, ways...)
	kinds := rapid.SampledFrom([]plan.CableKindID{"cat5e", "cat6a", "cat6a-own", "cat6a-drum-socket", "cat6a-tail", "cat5e-unscreened", "fibre-multimode"})
	for i := range rapid.IntRange(0, most+3).Draw(t, "rows of stock") {
		s.reel(t, fmt.Sprintf("R%d", i), kinds.Draw(t, "kind"), rapid.SampledFrom([]float64{5, 10, 25, 49.95, 50, 60, 100}).Draw(t, "length"), func(r *plan.Reel) {
			r.Quantity = rapid.SampledFrom([]int{0, 0, 2, 3}).Draw(t, "quantity")
			r.Condition = rapid.SampledFrom([]string{"", "", "", "good", "suspect", "faulty"}).Draw(t, "condition")
			if rapid.IntRange(0, 5).Draw(t, "measured") == 0 {
				r.Measured = plan.Some(r.Length * rapid.Float64Range(0.17, 0.3).Draw(t, "loss of a metre"))
			}
		})
	}
	for i := range s.links {
		anyLink(t, s, i)
	}
	if len(s.links) > 1 && rapid.Bool().Draw(t, "paired") {
		s.do(t, func(e *plan.Edit) error { return e.Pair(s.links[0], s.links[1]) })
	}
	return s
}

func anyLink(t *rapid.T, s *show, i int) {
	s.change(t, i, func(l *plan.Link) {
		l.Priority = rapid.IntRange(0, 3).Draw(t, "priority")
		l.MaxJoins = rapid.IntRange(0, 3).Draw(t, "joins")
		l.DrumEnd = rapid.SampledFrom([]string{"", "", "from", "to"}).Draw(t, "drum end")
		l.FromPanel = rapid.SampledFrom([]plan.HardwareID{"", "", "cat5e", "cat6a"}).Draw(t, "panel")
		l.ToPanel = rapid.SampledFrom([]plan.HardwareID{"", "", "cat6a"}).Draw(t, "panel")
		if l.ToPanel != "" && l.Transport == "aes50" {
			l.ToLeadKind, l.ToLead = "cat6a-tail", 2
		}
		l.FillKind = rapid.SampledFrom([]plan.CableKindID{"", "cat6a-own", "cat5e"}).Draw(t, "wanted kind")
		l.Rule = rapid.SampledFrom([]plan.RuleID{"", "ieee-link-segment"}).Draw(t, "rule")
		if rapid.Bool().Draw(t, "hot") {
			l.Temperature = plan.Some(rapid.Float64Range(20, 55).Draw(t, "temperature"))
		}
		switch rapid.IntRange(0, 4).Draw(t, "ports") {
		case 0:
			l.FromPort = "B0"
		case 1:
			l.Transport, l.FromPort, l.ToPort, l.FillKind, l.ToLeadKind = "fibre", "F0", "F0", "", "fibre-multimode"
		}
	})
	var chain []plan.Segment
	if rapid.IntRange(0, 3).Draw(t, "house line") == 0 {
		id := plan.HouseLineID("h-2222" + plan.Signs[i:i+1])
		s.do(t, func(e *plan.Edit) error {
			plan.Put(e, plan.HouseLine{ID: id, Name: fmt.Sprint(i), Kind: "cat6a-solid", Length: 20})
			return nil
		})
		chain = append(chain, plan.Segment{HouseLine: id})
	}
	used := s.UsedReels()
	for reel := range s.Reels.All() {
		if used[reel.ID] < reel.Count() && rapid.IntRange(0, 4).Draw(t, "laid") == 0 && len(chain) < 3 {
			chain = append(chain, plan.Segment{Reel: reel.ID, Kept: rapid.IntRange(0, 3).Draw(t, "kept") == 0})
		}
	}
	s.lay(t, i, chain...)
}

var _ = testing.Short
