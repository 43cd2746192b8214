package supply_test

import (
	"context"
	"fmt"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/cabling"
	"stageloom/model/catalogue"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/supply"
)

const today = "2031-06-18"

// show is a plan with boxes in a row, each linked to a console, and a house beside it.
type show struct {
	plan  *plan.Plan
	ids   *plan.IDSource
	links []plan.LinkID
	stock house.Stock
}

// newShow is a show with links of these metres.
func newShow(t require.TestingT, metres ...float64) *show {
	s := &show{plan: plan.New("Show"), ids: plan.NewIDSource(7, 7), stock: house.Stock{Plan: plan.New("House stock")}}
	s.do(t, func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Identity, settings.SlackPercent, settings.SlackEnd, settings.Detour, settings.Exposure = "this-show", plan.Some(0), plan.Some(0), 1, "indoors"
		settings.Temperature, settings.WantedMargin = plan.Some(20), plan.Some(3)
		e.SetSettings(settings)
		kinds(e)
		port := plan.KindPort{Kind: "box", Name: "A", Transport: "aes50", MetalShell: true, Lockable: true}
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
		plan.Put(e, port)
		for i, way := range metres {
			y := 10 * float64(i)
			near := e.AddDevice(plan.Device{Name: fmt.Sprintf("Box %d", i+1), Kind: "box", Y: y})
			far := e.AddDevice(plan.Device{Name: fmt.Sprintf("Desk %d", i+1), Kind: "box", X: way, Y: y})
			s.links = append(s.links, e.AddLink(plan.Link{Transport: "aes50", From: near, FromPort: "A", To: far, ToPort: "A", MaxJoins: 2}))
		}
		return nil
	})
	s.lend(t, func(e *plan.Edit) error { kinds(e); return nil })
	return s
}

func kinds(e *plan.Edit) {
	for _, kind := range catalogue.CableKinds() {
		plan.Put(e, kind)
	}
}

func (s *show) do(t require.TestingT, edit func(*plan.Edit) error) {
	next, err := plan.Do(s.plan, s.ids, edit)
	require.NoError(t, err)
	s.plan = next
}

// lend changes the house's rows.
func (s *show) lend(t require.TestingT, edit func(*plan.Edit) error) {
	next, err := plan.Do(s.stock.Plan, s.ids, edit)
	require.NoError(t, err)
	s.stock.Plan = next
}

func (s *show) own(t require.TestingT, reel plan.Reel) (id plan.ReelID) {
	s.do(t, func(e *plan.Edit) error { id = e.AddReel(reel); return nil })
	return id
}

func (s *show) house(t require.TestingT, reel plan.Reel) (id plan.ReelID) {
	s.lend(t, func(e *plan.Edit) error { id = e.AddReel(reel); return nil })
	return id
}

// out gives some of a row to another show.
func (s *show) out(row plan.ReelID, quantity int) {
	s.stock.Takings = append(s.stock.Takings, house.Taking{ID: fmt.Sprint("t-", len(s.stock.Takings)), Plan: "another", Reel: row, Quantity: quantity, Day: today})
}

func (s *show) pick(t require.TestingT, from supply.Source, request cabling.Request) *supply.Picked {
	picked, err := supply.Pick(context.Background(), s.plan, s.stock, from, request, nil)
	require.NoError(t, err)
	return picked
}

// take lays what is picked.
func (s *show) take(t require.TestingT, from supply.Source, request cabling.Request) *supply.Picked {
	picked := s.pick(t, from, request)
	s.do(t, picked.Edit(s.stock))
	return picked
}

// anyShow draws a show and a house with what a pick has to mind: equal rows here and there, faulty, missing and suspect ones,
// some that are out with another show, and cables laid already.
func anyShow(t *rapid.T) *show {
	s := newShow(t, rapid.SliceOfN(rapid.Float64Range(5, 110), 1, 2).Draw(t, "metres")...)
	reel := func(name string) plan.Reel {
		return plan.Reel{
			Tag: name, Kind: rapid.SampledFrom([]plan.CableKindID{"cat5e", "cat6a", "cat6a"}).Draw(t, "kind"),
			Length:    rapid.SampledFrom([]float64{10, 25, 50, 60}).Draw(t, "length"),
			Quantity:  rapid.SampledFrom([]int{0, 0, 2}).Draw(t, "quantity"),
			Condition: rapid.SampledFrom([]string{"", "", "", plan.Faulty, plan.Suspect}).Draw(t, "condition"),
		}
	}
	var own []plan.ReelID
	for i := range rapid.IntRange(0, 3).Draw(t, "rows of the show") {
		own = append(own, s.own(t, reel(fmt.Sprint("S", i))))
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "rows of the house") {
		row := reel(fmt.Sprint("H", i))
		row.State = rapid.SampledFrom([]string{"", "", "", plan.Missing, plan.InRepair}).Draw(t, "state")
		id := s.house(t, row)
		if out := rapid.IntRange(0, row.Count()).Draw(t, "out"); out > 0 {
			s.out(id, out)
		}
	}
	if len(own) > 0 && rapid.Bool().Draw(t, "laid") {
		s.do(t, func(e *plan.Edit) error { e.SetSegments(s.links[0], []plan.Segment{{Reel: own[0]}}); return nil })
	}
	return s
}
