package demo_test

import (
	"bytes"
	"math"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/checks"
	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

func linkNamed(t *testing.T, p *plan.Plan, name string) plan.Link {
	t.Helper()
	for link := range p.Links.All() {
		if link.Name == name {
			return link
		}
	}
	t.Fatalf("no link is called %q", name)
	return plan.Link{}
}

// wayOf is the way of a link from device to device, from the rows alone.
func wayOf(p *plan.Plan, link plan.Link) []geom.Point {
	from, _ := p.Device(link.From)
	to, _ := p.Device(link.To)
	way := []geom.Point{from.At()}
	for row := range p.LinkPoints.All() {
		if row.Link == link.ID {
			way = append(way, geom.Pt(row.X, row.Y))
		}
	}
	return append(way, to.At())
}

// cableOf is the metres of cable of a link by the lengths of its reels.
func cableOf(p *plan.Plan, id plan.LinkID) (metres float64) {
	for row := range p.Segments.All() {
		if row.Link == id {
			reel, _ := p.Reels.Get(plan.Key(row.Reel))
			metres += reel.Length
		}
	}
	return metres
}

func TestTheWeekenderIsValidAndTheSameByteForByte(t *testing.T) {
	require.Empty(t, plan.Check(demo.Weekender()))
	var one, other, again bytes.Buffer
	require.NoError(t, planfile.Write(&one, demo.Weekender()))
	require.NoError(t, planfile.Write(&other, demo.Weekender()))
	require.Equal(t, one.String(), other.String())
	read, err := planfile.Read(bytes.NewReader(one.Bytes()))
	require.NoError(t, err)
	require.NoError(t, planfile.Write(&again, read))
	require.Equal(t, one.String(), again.String(), "what is read and written anew is the same file")
}

func TestNothingOfTheWeekenderExists(t *testing.T) {
	p := demo.Weekender()
	require.Contains(t, p.Settings.Note, "Invented")
	// Ofcom, "Telephone numbers for use in TV and radio drama programmes": 01632 960000 to 960999 is given to nobody.
	invented := regexp.MustCompile(`^01632 960\d{3}$`)
	for contact := range p.Contacts.All() {
		require.Regexp(t, invented, contact.Phone, contact.Name)
		require.NotEmpty(t, contact.Role, contact.Name)
	}
}

func TestNoTwoThingsOfTheWeekenderBearOneName(t *testing.T) {
	p := demo.Weekender()
	names := map[string][]string{}
	for row := range p.Devices.All() {
		names["devices"] = append(names["devices"], row.Name)
	}
	for row := range p.Positions.All() {
		names["positions"] = append(names["positions"], row.Name)
	}
	for row := range p.Links.All() {
		names["links"] = append(names["links"], row.Name)
	}
	for row := range p.Inputs.All() {
		names["inputs"] = append(names["inputs"], row.Name)
	}
	for row := range p.Cases.All() {
		names["cases"] = append(names["cases"], row.Name)
	}
	for row := range p.Reels.All() {
		require.Equal(t, row.Quantity == 0, row.Tag != "", "a cable is tagged, or one of a heap")
		if row.Tag != "" {
			names["tags"] = append(names["tags"], row.Tag)
		}
	}
	for table, all := range names {
		seen := map[string]bool{}
		for _, name := range all {
			require.NotEmpty(t, name, table)
			require.False(t, seen[name], "%s: %s stands twice", table, name)
			seen[name] = true
		}
	}
}

func TestEveryTransportOfAShowIsInTheWeekender(t *testing.T) {
	p := demo.Weekender()
	count := map[plan.TransportID]int{}
	used := map[[2]string]string{}
	for link := range p.Links.All() {
		count[link.Transport]++
		for _, end := range []struct {
			device plan.DeviceID
			port   string
		}{{link.From, link.FromPort}, {link.To, link.ToPort}} {
			device, found := p.Device(end.device)
			require.True(t, found, link.Name)
			port, found := p.KindPorts.Get(plan.PortKey(device.Kind, end.port))
			require.True(t, found, "%s: %s has no port %q", link.Name, device.Name, end.port)
			require.Equal(t, port.Transport, link.Transport, "%s at %s", link.Name, device.Name)
			key := [2]string{string(device.ID), end.port}
			require.Empty(t, used[key], "%s holds %s of %s too", link.Name, end.port, device.Name)
			used[key] = link.Name
		}
		require.NotEqual(t, link.From, link.To, link.Name)
	}
	require.Equal(t, map[plan.TransportID]int{
		"aes50": 11, "1000base-t": 9, "fibre": 7, "analogue-multicore": 6, "aes3": 4, "intercom": 1,
	}, count)
	require.Equal(t, 26, p.Devices.Len())
	require.Equal(t, 11, p.Positions.Len())
	require.Equal(t, 15, p.Outputs.Len())
}

func TestBackupsGoAnotherWayThanTheirMains(t *testing.T) {
	p := demo.Weekender()
	pairs := 0
	for link := range p.Links.All() {
		partner, found := p.Link(link.Partner)
		require.Equal(t, link.Partner != "", found, link.Name)
		if !found {
			require.Empty(t, link.Role, link.Name)
			continue
		}
		require.Equal(t, link.ID, partner.Partner)
		require.ElementsMatch(t, []string{"main", "backup"}, []string{link.Role, partner.Role})
		if link.Role == "backup" {
			continue
		}
		pairs++
		mine, theirs, nearest := wayOf(p, link), geom.Polyline(wayOf(p, partner)), math.Inf(1)
		for away := 25.0; away < geom.Polyline(mine).Length()-25; away++ { // at its ends it comes to the same devices
			at, _ := geom.Polyline(mine).At(away)
			nearest = min(nearest, theirs.Distance(at))
		}
		require.Greater(t, nearest, 4.0, "%s and %s lie side by side: one lorry takes both", link.Name, partner.Name)
	}
	require.Equal(t, 3, pairs)
}

func TestCableReachesOnEveryLinkButTheOneOnPurpose(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	for link := range p.Links.All() {
		way, length := wayOf(p, link), 0.0
		for i := 1; i < len(way); i++ {
			length += math.Hypot(way[i].X-way[i-1].X, way[i].Y-way[i-1].Y)
		}
		b, found := a.Budget(link.ID)
		require.True(t, found)
		require.Greater(t, b.Run, length, "%s: the run is its way and slack", link.Name)
		if cable := cableOf(p, link.ID); link.Name == "L20" {
			require.Zero(t, cable)
			require.Empty(t, link.FillKind)
		} else {
			require.GreaterOrEqual(t, cable, b.Run, link.Name)
		}
	}
}

func TestTheStockHoldsWhatIsLaid(t *testing.T) {
	p := demo.Weekender()
	used := map[plan.ReelID]int{}
	for row := range p.Segments.All() {
		require.Empty(t, row.Kind, "every cable of the demo is one of its stock")
		used[row.Reel]++
	}
	media := map[plan.TransportID]string{
		"aes50": "balanced-pair", "1000base-t": "balanced-pair", "fibre": "fibre-multimode", "aes3": "balanced-audio-pair",
		"intercom": "balanced-audio-pair", "analogue-multicore": "analogue-multicore",
	}
	for row := range p.Segments.All() {
		link, _ := p.Link(row.Link)
		reel, _ := p.Reels.Get(plan.Key(row.Reel))
		kind, found := p.CableKinds.Get(plan.Key(reel.Kind))
		require.True(t, found, reel.Kind)
		require.Equal(t, media[link.Transport], kind.Media, link.Name)
	}
	left := 0
	for reel := range p.Reels.All() {
		require.LessOrEqual(t, used[reel.ID], max(1, reel.Quantity), "%s %s lies in two places", reel.Tag, reel.Kind)
		left += max(1, reel.Quantity) - used[reel.ID]
		if reel.Condition != "good" {
			require.Zero(t, used[reel.ID], "%s is %s and stays in its case", reel.Tag, reel.Condition)
			require.NotEmpty(t, reel.Reason)
		}
		if reel.Owner == "hire" {
			require.NotEmpty(t, reel.Hire, reel.Tag)
			require.Greater(t, reel.Return, p.Settings.Date, "%s goes back after the show", reel.Tag)
		}
	}
	require.Positive(t, left, "spares stay in the truck")
}

func TestEachFindingOnPurposeHasTheCauseThatItSays(t *testing.T) {
	sound := demo.Weekender()
	told := func(p *plan.Plan, link string) (rules []string) {
		for _, finding := range assess.Of(p).FindingsAt("links", linkNamed(t, sound, link).Key()) {
			if finding.Severity != checks.Note {
				rules = append(rules, finding.Rule)
			}
		}
		return rules
	}
	for _, c := range []struct {
		link, rule string
		mend       func(*plan.Segment)
	}{
		{"L02", "tight", func(s *plan.Segment) { s.Coupler = "" }},
		{"L03", "over-limit", func(s *plan.Segment) { s.Reel, s.Kind, s.Length = "", "cat7-own", 45 }},
		{"L20", "uncabled", func(s *plan.Segment) { s.Kind, s.Length = "cat6a-own", 80 }},
	} {
		t.Run(c.link, func(t *testing.T) {
			require.Equal(t, []string{c.rule}, told(sound, c.link))
			id := linkNamed(t, sound, c.link).ID
			mended, err := plan.Do(sound, plan.NewIDSource(3, 3), func(e *plan.Edit) error {
				segments := append([]plan.Segment(nil), sound.SegmentsOf(id)...)
				if len(segments) == 0 {
					segments = []plan.Segment{{}}
				}
				c.mend(&segments[len(segments)-1])
				e.SetSegments(id, segments)
				return nil
			})
			require.NoError(t, err)
			require.Empty(t, told(mended, c.link))
		})
	}
}

func TestTheLoomOfTheLaneLiesInTheLane(t *testing.T) {
	p := demo.Weekender()
	require.Equal(t, 1, p.Looms.Len())
	loom, members := p.Looms.At(0), 0
	for link := range p.Links.All() {
		if link.Loom == "" {
			continue
		}
		members++
		require.Equal(t, loom.ID, link.Loom)
		way := geom.Polyline(wayOf(p, link))
		for x := 14.0; x <= 75; x++ { // between the crowds, 8 m wide
			require.Less(t, way.Distance(geom.Pt(x, 0)), 4.0, "%s at %.0f m", link.Name, x)
		}
		device, _ := p.Device(link.To)
		require.Equal(t, "to", link.DrumEnd)
		require.Contains(t, device.Name, "FOH", "the drums stand at FOH")
		require.NotEqual(t, "backup", link.Role, "a backup doesn't lie with its main")
	}
	require.Equal(t, 4, members)
}
