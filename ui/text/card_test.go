package text_test

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/goldentest"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

// golden compares a text with testdata/NAME.txt.
func golden(t *testing.T, name, text string) {
	t.Helper()
	goldentest.Text(t, filepath.Join("testdata", name+".txt"), text)
}

// told is a card as a person reads it from above.
func told(c text.Card) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s   [%s]\n%s\n\n", c.Title, c.Kind, c.Subtitle)
	for _, f := range c.Figures {
		fmt.Fprintf(&b, "%-20s %14s   %s\n", f.Name, f.Value, f.Note)
	}
	for _, f := range c.Findings {
		fmt.Fprintf(&b, "\n%s: %s\n", f.Severity, panel.Sentences(f))
	}
	return b.String()
}

func linkNamed(p *plan.Plan, name string) plan.Ref {
	for link := range p.Links.All() {
		if link.Name == name {
			return plan.RefOf(link)
		}
	}
	return plan.Ref{}
}

func deviceNamed(p *plan.Plan, name string) plan.Ref {
	for device := range p.Devices.All() {
		if device.Name == name {
			return plan.RefOf(device)
		}
	}
	return plan.Ref{}
}

func positionNamed(p *plan.Plan, name string) plan.Ref {
	for position := range p.Positions.All() {
		if position.Name == name {
			return plan.RefOf(position)
		}
	}
	return plan.Ref{}
}

func inputNumbered(p *plan.Plan, number int) plan.Ref {
	for input := range p.Inputs.All() {
		if input.Number == number {
			return plan.RefOf(input)
		}
	}
	return plan.Ref{}
}

func TestTheCardTellsWhatIsSelected(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	imperial := words.Units{Length: quantity.Imperial, Temperature: quantity.Imperial}
	for name, test := range map[string]struct {
		selection []plan.Ref
		units     words.Units
	}{
		"plan":            {nil, words.Units{}},
		"link-tight":      {[]plan.Ref{linkNamed(p, "L02")}, words.Units{}},
		"link-over":       {[]plan.Ref{linkNamed(p, "L03")}, words.Units{}},
		"link-uncabled":   {[]plan.Ref{linkNamed(p, "L20")}, words.Units{}},
		"link-no-grade":   {[]plan.Ref{linkNamed(p, "L25")}, words.Units{}},
		"link-in-feet":    {[]plan.Ref{linkNamed(p, "L02")}, imperial},
		"device":          {[]plan.Ref{deviceNamed(p, "FOH console")}, words.Units{}},
		"position":        {[]plan.Ref{positionNamed(p, "FOH tower")}, words.Units{}},
		"several":         {[]plan.Ref{linkNamed(p, "L02"), deviceNamed(p, "FOH console")}, words.Units{}},
		"area":            {[]plan.Ref{plan.RefOf(p.Areas.At(0))}, words.Units{}},
		"input":           {[]plan.Ref{inputNumbered(p, 1)}, words.Units{}},
		"output":          {[]plan.Ref{plan.RefOf(p.Outputs.At(0))}, words.Units{}},
		"act":             {[]plan.Ref{plan.RefOf(p.Acts.At(2))}, words.Units{}},
		"case":            {[]plan.Ref{plan.RefOf(p.Cases.At(0))}, words.Units{}},
		"vanished-device": {[]plan.Ref{{Table: "devices", Key: "d-99999"}}, words.Units{}},
	} {
		t.Run(name, func(t *testing.T) {
			golden(t, "card-"+name, told(text.CardOf(a, test.selection, test.units, text.Preview{})))
		})
	}
}

func TestTheCardFollowsADrag(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	tower := positionNamed(p, "FOH tower")
	moving := plan.MovingWith(p, nil, []plan.PositionID{plan.PositionID(tower.Key)})
	by := geom.Point{X: 40}
	preview := text.Preview{Moving: moving, By: by, Budgets: a.Reckoner().Preview(moving).At(by)}
	before := text.CardOf(a, []plan.Ref{linkNamed(p, "L02")}, words.Units{}, text.Preview{})
	during := text.CardOf(a, []plan.Ref{linkNamed(p, "L02")}, words.Units{}, preview)
	require.Equal(t, "111.3 m", before.Figures[0].Value)
	require.NotEqual(t, before.Figures[0].Value, during.Figures[0].Value)
	place := text.CardOf(a, []plan.Ref{tower}, words.Units{}, preview)
	require.Equal(t, "126 m, 0 m", place.Figures[0].Value)
}

func TestTheOverviewTellsTheWholePlan(t *testing.T) {
	a := assess.Of(demo.Weekender())
	var words []string
	total := 0
	for _, item := range text.OverviewOf(a, text.Preview{}) {
		words = append(words, item.String())
		require.Len(t, item.Rows, item.Count, "a click can reach all that %q counts", item)
		if item.Line {
			total += item.Count
		}
	}
	require.Equal(t, len(a.Budgets), total, "each link has one grade")
	golden(t, "overview", strings.Join(words, "\n")+"\n")
}

func TestAClickGoesRoundAndRound(t *testing.T) {
	rows := []plan.Ref{{Table: "links", Key: "k-22222"}, {Table: "links", Key: "k-33333"}}
	item := text.Item{Rows: rows}
	next, found := item.Next(nil)
	require.True(t, found)
	require.Equal(t, rows[0], next)
	next, _ = item.Next(rows[:1])
	require.Equal(t, rows[1], next)
	next, _ = item.Next(rows[1:])
	require.Equal(t, rows[0], next)
	_, found = text.Item{}.Next(nil)
	require.False(t, found)
}
