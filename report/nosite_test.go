package report_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/catalogue"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/report"
)

// listed is a plan that is made as on a first call: names and metres, and never a coordinate.
type listed struct {
	t       *testing.T
	plan    *plan.Plan
	ids     *plan.IDSource
	devices map[string]plan.DeviceID
	links   map[string]plan.LinkID
}

func (l *listed) do(edit func(*plan.Edit) error) {
	l.t.Helper()
	next, err := plan.Do(l.plan, l.ids, edit)
	require.NoError(l.t, err)
	l.plan = next
}

func (l *listed) device(name string, kind plan.KindID) {
	l.do(func(e *plan.Edit) error {
		l.devices[name] = e.AddDevice(plan.Device{Name: name, Kind: kind, Unplaced: true})
		return catalogue.Use(e, kind)
	})
}

func (l *listed) link(from, fromPort, to, toPort string, metres float64, by string) {
	draft, reason := catalogue.NewLink(l.plan, plan.Link{From: l.devices[from], FromPort: fromPort, To: l.devices[to], ToPort: toPort, Way: "straight"})
	require.Empty(l.t, reason)
	l.do(func(e *plan.Edit) error {
		if err := catalogue.UseCable(e, draft.FillKind); err != nil {
			return err
		}
		id := e.AddLink(draft)
		link, _ := e.Now().Link(id)
		l.links[link.Name] = id
		return e.TypeWay(id, metres, by)
	})
}

func (l *listed) budget(link string) budget.Budget {
	row, _ := l.plan.Link(l.links[link])
	return budget.Of(l.plan, row)
}

// newListed is a console, a stage box, a stage rack and a splitter in the list; three links with typed metres and one, L04,
// whose metres nobody gave; a stock; and an act with three inputs patched through.
func newListed(t *testing.T) *listed {
	l := &listed{t: t, plan: plan.New("Ballroom"), ids: plan.NewIDSource(12, 12), devices: map[string]plan.DeviceID{}, links: map[string]plan.LinkID{}}
	l.device("FOH", "console-40")
	l.device("Box left", "stagebox-24-12")
	l.device("Rack", "stage-rack-48-20")
	l.device("Split", "splitter-48")
	l.link("FOH", "AES50 1", "Box left", "AES50 1", 62, plan.Paced)
	l.link("FOH", "AES50 2", "Rack", "AES50 1", 40, plan.Venue)
	l.link("Split", "A1", "Rack", "M1", 8, plan.Taped)
	l.link("Split", "A2", "Rack", "M2", 0, "")
	l.do(func(e *plan.Edit) error {
		for _, reel := range []plan.Reel{
			{Tag: "D75", Length: 75, Kind: kindOf(l.plan, "L01")},
			{Tag: "D60", Length: 60, Kind: kindOf(l.plan, "L01")},
			{Tag: "D20", Length: 20, Kind: kindOf(l.plan, "L01")},
			{Tag: "M15", Length: 15, Kind: kindOf(l.plan, "L03")},
			{Tag: "M10", Length: 10, Kind: kindOf(l.plan, "L03")},
		} {
			e.AddReel(reel)
		}
		return nil
	})
	l.do(func(e *plan.Edit) error {
		patch.AddAct(e, "The Evening Band")
		var inputs []plan.InputID
		for i, name := range []string{"Vocal", "Piano", "Bass"} {
			inputs = append(inputs, e.AddInput(plan.Input{Number: i + 1, Name: name, Phantom: i == 1}))
		}
		if err := patch.Fill(e, "", inputs, patch.Socket{Device: l.devices["Box left"], Number: 1}, true); err != nil {
			return err
		}
		return patch.FillChannels(e, "", l.devices["FOH"], inputs, 1)
	})
	return l
}

func kindOf(p *plan.Plan, name string) plan.CableKindID {
	for link := range p.Links.All() {
		if link.Name == name {
			return link.FillKind
		}
	}
	return ""
}

// The figures are those of common practice, no source: 5 % of a paced way, 10 % of what the venue says, nothing of a taped
// one; 5 m at a console, 3 m at a stage box and at anything else, 2 m at a rack.
func TestAPlanWithoutASiteGoesThroughWhole(t *testing.T) {
	l := newListed(t)
	require.True(t, l.plan.Unplaced())
	for link, run := range map[string]float64{"L01": 62 + 3.1 + 5 + 3, "L02": 40 + 4 + 5 + 2, "L03": 8 + 3 + 2} {
		require.InDelta(t, run, l.budget(link).Run, 1e-9, link)
	}
	t.Run("reels are picked for the links with metres, and the one without asks for them", func(t *testing.T) {
		proposal, err := cabling.Pick(context.Background(), l.plan, cabling.Request{}, nil)
		require.NoError(t, err)
		require.Equal(t, []cabling.Unserved{{Link: l.links["L04"], Name: "L04", Why: cabling.NoMetres}}, proposal.Unserved)
		require.Equal(t, "L04 has no length to pick by: nobody said how long its way is, and not both of its ends have a place; type its metres first", proposal.Unserved[0].String())
		require.Empty(t, proposal.HireIn)
		require.Empty(t, proposal.Beyond)
		l.do(proposal.Edit)
		laid := map[string]float64{}
		for name := range l.links {
			laid[name] = l.budget(name).Laid
		}
		require.Equal(t, map[string]float64{"L01": 75, "L02": 60, "L03": 15, "L04": 0}, laid)
	})
	a := assess.Of(l.plan)
	t.Run("no finding presupposes a site", func(t *testing.T) {
		found := map[string]string{}
		for _, finding := range a.Findings {
			found[finding.Rule] = finding.What
		}
		require.Equal(t, map[string]string{
			"length-unknown": "nobody said how long the way of L04 is, and not both of its ends have a place",
			"uncabled":       "L04 has no cable yet, and no metres to pick one by",
		}, found, "all that is found is about the link without metres")
	})
	t.Run("the input list arrives", func(t *testing.T) {
		act := a.Patch.Acts[len(a.Patch.Acts)-1]
		line, found := act.Line(firstInput(l.plan))
		require.True(t, found)
		require.True(t, line.Patched())
	})
	lay := strings.Join(packOf(t, a, report.Lay), "\n")
	require.Contains(t, lay, "No positions on the ground: devices listed")
	require.Contains(t, lay, "Plan, not to scale")
	require.NotRegexp(t, `1 : \d`, lay, "a scale")
	require.NotContains(t, lay, "when printed at 100 %")
	flat := strings.Join(strings.Fields(lay), " ") // a cell may break its words
	require.Contains(t, flat, "73.1 paced")
	require.Contains(t, flat, "13.0 taped")
	require.Contains(t, flat, "no metres yet")
	require.Contains(t, strings.Join(packOf(t, a, report.Patch), "\n"), "Piano")
}

func firstInput(p *plan.Plan) plan.InputID { return p.Inputs.At(0).ID }

func TestWhatWasLaidByHandStaysOnALinkWithoutMetres(t *testing.T) {
	l := newListed(t)
	l.do(func(e *plan.Edit) error {
		for reel := range e.Now().Reels.All() {
			if reel.Tag == "M15" {
				e.SetSegments(l.links["L04"], []plan.Segment{{Reel: reel.ID}})
			}
		}
		return nil
	})
	proposal, err := cabling.Pick(context.Background(), l.plan, cabling.Request{}, nil)
	require.NoError(t, err)
	l.do(proposal.Edit)
	require.Equal(t, 15.0, l.budget("L04").Laid)
	require.Zero(t, l.budget("L03").Laid, "10 m do not reach, and the other reel is not taken away")
	l.do(func(e *plan.Edit) error { return e.TypeWay(l.links["L04"], 9, plan.Taped) })
	proposal, err = cabling.Pick(context.Background(), l.plan, cabling.Request{Links: []plan.LinkID{l.links["L04"]}}, nil)
	require.NoError(t, err)
	require.Empty(t, proposal.Unserved, "with its metres it is picked for")
}

func TestAPlanThatIsPartlyOnTheGroundHasItsScaleAndListsTheRest(t *testing.T) {
	l := newListed(t)
	l.do(func(e *plan.Edit) error {
		for i, name := range []string{"FOH", "Box left"} {
			err := plan.Update(e, plan.Key(l.devices[name]), func(r *plan.Device) { r.X, r.Y, r.Unplaced = float64(i)*40, 30, false })
			if err != nil {
				return err
			}
		}
		return nil
	})
	text := chapterOf(t, assess.Of(l.plan), report.SitePlan)
	require.Regexp(t, `Plan, 1 : \d+`, text)
	require.NotContains(t, text, "No positions on the ground")
	_, after, found := strings.Cut(text, "Devices without a place on the ground")
	require.True(t, found)
	for name, is := range map[string]bool{"Rack": true, "Split": true, "Box left": false} {
		require.Equal(t, is, strings.Contains(after, fmt.Sprintf("\n%s ", name)), name)
	}
	require.NotContains(t, chapterOf(t, assess.Of(field(t)), report.SitePlan), "without a place", "where all have one nothing is said")
}
