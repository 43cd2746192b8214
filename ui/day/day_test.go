package day_test

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/goldentest"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
	"stageloom/ui/day"
)

// golden compares a text with testdata/NAME.txt.
func golden(t *testing.T, name, text string) {
	t.Helper()
	goldentest.Text(t, filepath.Join("testdata", name+".txt"), text)
}

var imperial = words.Units{Length: quantity.Imperial, Temperature: quantity.Imperial}

func linkNamed(t testing.TB, p *plan.Plan, name string) plan.LinkID {
	for link := range p.Links.All() {
		if link.Name == name {
			return link.ID
		}
	}
	require.Failf(t, "no such link", "%s", name)
	return ""
}

func edited(t testing.TB, p *plan.Plan, edit func(*plan.Edit) error) *plan.Plan {
	next, err := plan.Do(p, plan.NewIDSource(7, 7), edit)
	require.NoError(t, err)
	return next
}

// hard is the demo with all that is hard to show in one link: five cables, one of a reel without tag, one of a tag as long
// as may be; names in other scripts and without end; a note, a mark that it moved.
func hard(t testing.TB) *plan.Plan {
	p := demo.Weekender()
	id := linkNamed(t, p, "L20")
	long := strings.Repeat("Длинное имя 舞台左側 ", 8)
	return edited(t, p, func(e *plan.Edit) error {
		bare := e.AddReel(plan.Reel{Kind: "cat6a", Length: 12, Quantity: 3})
		bad := e.AddReel(plan.Reel{Kind: "cat6a", Length: 7.62, Tag: strings.Repeat("TAG", 30), Condition: plan.Faulty, Reason: "latch broken off"})
		e.SetSegments(id, []plan.Segment{
			{Reel: bare}, {Kind: "cat6a", Length: 20}, {Reel: bad, Coupler: "cat5e"}, {Kind: "cat6a", Length: 2.5}, {Kind: "cat6a", Length: 100},
		})
		link, _ := e.Now().Link(id)
		link.Name, link.Note, link.Colour = strings.Repeat("GAFFER-", 20), strings.Repeat("mind the gate at the far end of the lane; ", 20), long
		link.Done, link.Moved = plan.Joined, true
		plan.Put(e, link)
		device, _ := e.Now().Device(link.From)
		device.Name = long
		plan.Put(e, device)
		position, _ := e.Now().Positions.Get(plan.Key(device.Position))
		position.Name = long
		plan.Put(e, position)
		return nil
	})
}

func TestThePageOfALink(t *testing.T) {
	p := demo.Weekender()
	done := edited(t, p, func(e *plan.Edit) error { return e.MarkDone(linkNamed(t, p, "L02"), plan.Joined, true) })
	moved := edited(t, done, func(e *plan.Edit) error {
		link, _ := e.Now().Link(linkNamed(t, p, "L02"))
		return plan.Update(e, plan.Key(link.To), func(d *plan.Device) { d.X += 30 })
	})
	for name, test := range map[string]struct {
		plan  *plan.Plan
		link  string
		units words.Units
	}{
		"enough": {p, "L01", words.Units{}}, "tight-joined": {done, "L02", words.Units{}}, "moved": {moved, "L02", words.Units{}},
		"over": {p, "L03", words.Units{}}, "uncabled": {p, "L20", words.Units{}}, "no-grade": {p, "L25", words.Units{}},
		"in-feet": {p, "L03", imperial}, "hard": {hard(t), strings.Repeat("GAFFER-", 20), words.Units{}},
	} {
		t.Run(name, func(t *testing.T) {
			golden(t, "page-"+name, day.PageOf(assess.Of(test.plan), linkNamed(t, test.plan, test.link), test.units).Text())
		})
	}
}

func TestLinksComeInTheOrderOfLaying(t *testing.T) {
	p := demo.Weekender()
	late, soon := linkNamed(t, p, "L01"), linkNamed(t, p, "L10")
	p = edited(t, p, func(e *plan.Edit) error {
		for link := range p.Links.All() {
			link.LayPhase = 2
			switch link.ID {
			case late:
				link.LayPhase = 0
			case soon:
				link.LayPhase = 1
			}
			plan.Put(e, link)
		}
		return nil
	})
	var names []string
	for _, id := range day.Round(assess.Of(p)) {
		link, _ := p.Link(id)
		names = append(names, link.Name)
	}
	require.Len(t, names, p.Links.Len())
	require.Equal(t, []string{"L10", "L02", "L03"}, names[:3], "phase before name, and names as a reader sorts them")
	require.Equal(t, "L01", names[len(names)-1], "what has no phase comes last")
	a := assess.Of(p)
	day.Round(a)
	require.Equal(t, "L01", a.Links()[0].Name, "the order of every table stays as it is")
}

func TestTheTallyCountsEachStep(t *testing.T) {
	p := demo.Weekender()
	p = edited(t, p, func(e *plan.Edit) error {
		for name, step := range map[string]string{"L01": plan.Tested, "L02": plan.Joined, "L03": plan.Laid, "L04": plan.Laid} {
			require.NoError(t, e.MarkDone(linkNamed(t, p, name), step, true))
		}
		return nil
	})
	require.Equal(t, "4 of 38 laid, 2 joined, 1 tested", day.TallyOf(p).String())
	require.Equal(t, day.Tally{}, day.TallyOf(plan.New("x")))
}

func TestALinkIsFoundByNameDeviceAndTag(t *testing.T) {
	a := assess.Of(demo.Weekender())
	round := day.Round(a)
	first := func(text string) string {
		found := day.Find(a, round, text)
		if len(found) == 0 {
			return ""
		}
		return found[0].Name
	}
	require.Len(t, day.Find(a, round, " "), len(round))
	require.Equal(t, "L20", first("l20"))
	require.Equal(t, "L20", first("20"))
	require.Equal(t, "L02", first("ll03"), "by the tag of a cable in it")
	require.NotEmpty(t, first("broadcast"))
	require.Empty(t, first("no such thing"))
}

func TestWhatAnEditTakesBackOfTheWorkOnSiteIsSaid(t *testing.T) {
	p := demo.Weekender()
	p = edited(t, p, func(e *plan.Edit) error {
		for name, step := range map[string]string{"L01": plan.Tested, "L02": plan.Joined, "L03": plan.Laid} {
			require.NoError(t, e.MarkDone(linkNamed(t, p, name), step, true))
		}
		return nil
	})
	first, second, third := linkNamed(t, p, "L01"), linkNamed(t, p, "L02"), linkNamed(t, p, "L03")
	for sentence, test := range map[string]struct {
		said string
		edit func(*plan.Edit) error
	}{
		"a coupler": {"On site again: L01 is to be joined and tested.", func(e *plan.Edit) error { return e.SetCoupler(first, 2, "cat5e") }},
		"cables of two links": {"On site again: L02 is to be laid and joined; L03 is to be laid.", func(e *plan.Edit) error {
			e.SetSegments(second, nil)
			e.SetSegments(third, nil)
			return nil
		}},
		"a faulty cable": {"On site again: L01 is to be tested.", func(e *plan.Edit) error {
			_, err := e.MarkSegment(first, 1, plan.Mark{Condition: plan.Faulty})
			return err
		}},
		"a way":                     {"Moved on the plan, look at it on site: L02, joined.", func(e *plan.Edit) error { return e.Draw(second, nil) }},
		"a mark taken back by hand": {"", func(e *plan.Edit) error { return e.SetDone(first, "") }},
		"a link removed":            {"", func(e *plan.Edit) error { e.RemoveLinks(first); return nil }},
		"a name": {"", func(e *plan.Edit) error {
			return plan.Update(e, plan.Key(first), func(l *plan.Link) { l.Name = "L99" })
		}},
		"a link of which nothing was done": {"", func(e *plan.Edit) error { e.SetSegments(linkNamed(t, p, "L04"), nil); return nil }},
	} {
		t.Run(sentence, func(t *testing.T) {
			require.Equal(t, test.said, day.TakenBack(p, assess.Of(edited(t, p, test.edit))))
		})
	}
}
