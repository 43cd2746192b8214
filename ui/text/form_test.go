package text_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
	"stageloom/ui/text"
)

var imperial = words.Units{Length: quantity.Imperial, Temperature: quantity.Imperial}

// formTold is a form as a person reads it from above.
func formTold(f text.Form) string {
	var b strings.Builder
	for _, group := range f.Groups {
		folded := ""
		if group.Folded {
			folded = "   (folded)"
		}
		fmt.Fprintf(&b, "== %s%s\n", group.Name, folded)
		for _, field := range group.Fields {
			text := strings.ReplaceAll(field.Text, "\n", " | ")
			if field.Choices != nil && !field.Several {
				at := slices.IndexFunc(field.Choices, func(c fields.Option) bool { return c.Value == field.Text })
				if at >= 0 {
					text = field.Choices[at].Words + fmt.Sprintf("   (one of %d)", len(field.Choices))
				}
			}
			if text == "" {
				text = "[" + field.Blank + "]"
			}
			fmt.Fprintf(&b, "%-26s %s\n", field.Name, text)
		}
	}
	return b.String()
}

func TestTheFormOfWhatIsSelected(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	reel := plan.RefOf(p.Reels.At(0))
	l02 := linkNamed(p, "L02")
	for name, test := range map[string]struct {
		selection []plan.Ref
		units     words.Units
	}{
		"plan":          {nil, words.Units{}},
		"plan-in-feet":  {nil, imperial},
		"link":          {[]plan.Ref{l02}, words.Units{}},
		"input":         {[]plan.Ref{inputNumbered(p, 1)}, words.Units{}},
		"inputs":        {[]plan.Ref{inputNumbered(p, 1), inputNumbered(p, 5)}, words.Units{}},
		"output":        {[]plan.Ref{plan.RefOf(p.Outputs.At(0))}, words.Units{}},
		"act":           {[]plan.Ref{plan.RefOf(p.Acts.At(0))}, words.Units{}},
		"case":          {[]plan.Ref{plan.RefOf(p.Cases.At(0))}, words.Units{}},
		"link-no-grade": {[]plan.Ref{linkNamed(p, "L25")}, words.Units{}},
		"link-in-feet":  {[]plan.Ref{l02}, imperial},
		"links":         {[]plan.Ref{l02, linkNamed(p, "L03")}, words.Units{}},
		"device":        {[]plan.Ref{deviceNamed(p, "FOH console")}, words.Units{}},
		"devices":       {[]plan.Ref{deviceNamed(p, "FOH console"), deviceNamed(p, "Broadcast van")}, words.Units{}},
		"position":      {[]plan.Ref{positionNamed(p, "FOH tower")}, words.Units{}},
		"area":          {[]plan.Ref{plan.RefOf(p.Areas.At(0))}, words.Units{}},
		"loom":          {[]plan.Ref{plan.RefOf(p.Looms.At(0))}, words.Units{}},
		"reel":          {[]plan.Ref{reel}, words.Units{}},
		"segment":       {[]plan.Ref{{Table: "segments", Key: p.SegmentsOf(plan.LinkID(l02.Key))[0].Key()}}, words.Units{}},
		"mixed":         {[]plan.Ref{l02, reel}, words.Units{}},
	} {
		t.Run(name, func(t *testing.T) { golden(t, "form-"+name, formTold(text.FormOf(a, test.selection, test.units))) })
	}
}

// typing types into one field of the form of a selection, as one step; it gives the plan after it.
func typing(p *plan.Plan, selection []plan.Ref, units words.Units, id, typed string) (*plan.Plan, string, error) {
	field, found := text.FormOf(assess.Of(p), selection, units).Field(id)
	if !found {
		return nil, "", fmt.Errorf("there is no field %s", id)
	}
	step, edit, err := field.Change(typed)
	if err != nil || edit == nil {
		return p, step, err
	}
	next, err := plan.Do(p, plan.NewIDSource(5, 6), edit)
	return next, step, err
}

func TestWhatIsTypedIntoAField(t *testing.T) {
	p := demo.Weekender()
	l02, foh, tower := linkNamed(p, "L02"), deviceNamed(p, "FOH console"), positionNamed(p, "FOH tower")
	link := func(p *plan.Plan) plan.Link { row, _ := p.Links.Get(l02.Key); return row }
	device := func(p *plan.Plan) plan.Device { row, _ := p.Devices.Get(foh.Key); return row }
	place := func(p *plan.Plan) plan.Position { row, _ := p.Positions.Get(tower.Key); return row }
	for _, c := range []struct {
		name     string
		ref      plan.Ref
		units    words.Units
		id, text string
		step     string
		want     any
		read     func(*plan.Plan) any
	}{
		{"metres", l02, words.Units{}, "rise_from", "4,5m", "L02: rise at near end", 4.5, func(p *plan.Plan) any { return link(p).RiseFrom }},
		{"feet where metres are shown", l02, words.Units{}, "rise_to", "10 ft", "L02: rise at far end", 3.048, func(p *plan.Plan) any { return link(p).RiseTo }},
		{"a bare number is in the unit that is shown", l02, imperial, "slack_end", "10", "L02: slack at each end", plan.Some(3.048), func(p *plan.Plan) any { return link(p).SlackEnd }},
		{"kilometres", tower, words.Units{}, "width", "0,01 km", "FOH tower: width", 10.0, func(p *plan.Plan) any { return place(p).Width }},
		{"Fahrenheit", l02, words.Units{}, "temperature", "86 °F", "L02: cable temperature", plan.Some(30), func(p *plan.Plan) any { return link(p).Temperature }},
		{"decibels without their unit", l02, words.Units{}, "wanted", "2,5", "L02: wanted margin", plan.Some(2.5), func(p *plan.Plan) any { return link(p).WantedMargin }},
		{"per cent", l02, words.Units{}, "slack", "12.5 %", "L02: slack along the way", plan.Some(12.5), func(p *plan.Plan) any { return link(p).SlackPercent }},
		{"a whole number", l02, words.Units{}, "most_joins", "2", "L02: most joins", 2, func(p *plan.Plan) any { return link(p).MaxJoins }},
		{"watts", l02, words.Units{}, "power", "12 W", "L02: power to the far end", 12.0, func(p *plan.Plan) any { return link(p).PowerW }},
		{"words", l02, words.Units{}, "colour", " red ", "L02: tape colour", "red", func(p *plan.Plan) any { return link(p).Colour }},
		{"a choice", l02, words.Units{}, "rule", "ieee-link-segment", "L02: limit rule", plan.RuleID("ieee-link-segment"), func(p *plan.Plan) any { return link(p).Rule }},
		{"a kind of the catalogue comes into the plan", l02, words.Units{}, "fill", "cat7-own", "L02: wanted kind", true, func(p *plan.Plan) any { return p.CableKinds.Has("cat7-own") }},
		{"the drum's end", l02, words.Units{}, "drum", "from", "L02: drum end", "from", func(p *plan.Plan) any { return link(p).DrumEnd }},
		{"a panel", l02, words.Units{}, "to_panel", "cat6", "L02: panel at far end", plan.HardwareID("cat6"), func(p *plan.Plan) any { return link(p).ToPanel }},
		{"a partner", l02, words.Units{}, "partner", string(linkNamed(p, "L03").Key), "L02: partner", "main", func(p *plan.Plan) any { return link(p).Role }},
		{"a place", foh, words.Units{}, "x", "-12.5", "FOH console: to the right", -12.5, func(p *plan.Plan) any { return device(p).X }},
		{"a site", plan.Ref{}, words.Units{}, "site", "Far Field", "Plan: site", "Far Field", func(p *plan.Plan) any { return p.Settings.Site }},
		{"the factor of a straight way", plan.Ref{}, words.Units{}, "detour", "1,2", "Plan: straight way times", 1.2, func(p *plan.Plan) any { return p.Settings.Detour }},
		{"the plan's temperature", plan.Ref{}, imperial, "temperature", "104", "Plan: cable temperature", plan.Some(40), func(p *plan.Plan) any { return p.Settings.Temperature }},
		{"a rule for a transport", plan.Ref{}, words.Units{}, "rule_aes50", "tia-cat6", "Plan: limit rule for AES50", 1, func(p *plan.Plan) any { return p.TransportRules.Len() }},
		{"contacts", plan.Ref{}, words.Units{}, "contacts", "Stage manager, stage\n\nRigger,,0123", "Plan: contacts", 2, func(p *plan.Plan) any { return p.Contacts.Len() }},
	} {
		t.Run(c.name, func(t *testing.T) {
			var selection []plan.Ref
			if c.ref.Table != "" {
				selection = []plan.Ref{c.ref}
			}
			after, step, err := typing(p, selection, c.units, c.id, c.text)
			require.NoError(t, err)
			require.Equal(t, c.step, step)
			require.Equal(t, c.want, c.read(after))
		})
	}
}

func TestWhatCannotStandIsSaidInWords(t *testing.T) {
	p := demo.Weekender()
	l02 := []plan.Ref{linkNamed(p, "L02")}
	for _, c := range []struct{ id, text, said string }{
		{"name", " ", "this cannot be left blank"},
		{"rise_from", "soon", "\"soon\""},
		{"rise_from", "600 m", "\"600 m\" is out of bounds: it lies between 0 m and 500 m"},
		{"temperature", "90", "it lies between −20 °C and 60 °C"},
		{"wanted", "0.2 dB", "it lies between 1.0 dB and 20.0 dB"},
		{"most_joins", "some", "\"some\" is no whole number from 1 to 31"},
		{"power", "much", "\"much\" is no number"},
	} {
		t.Run(c.id+" "+c.text, func(t *testing.T) {
			_, _, err := typing(p, l02, words.Units{}, c.id, c.text)
			require.ErrorContains(t, err, c.said)
		})
	}
	_, _, err := typing(p, nil, words.Units{}, "contacts", "Ann\n, rigger")
	require.ErrorContains(t, err, "line 2 has no name")
}

func TestAFieldThatIsNotTouchedKeepsItsFigureToTheLastDigit(t *testing.T) {
	p := demo.Weekender()
	tower := positionNamed(p, "FOH tower")
	exact, err := plan.Do(p, nil, func(e *plan.Edit) error {
		return plan.Update(e, tower.Key, func(r *plan.Position) { r.Width = 7.347 })
	})
	require.NoError(t, err)
	for _, units := range []words.Units{{}, imperial} {
		field, _ := text.FormOf(assess.Of(exact), []plan.Ref{tower}, units).Field("width")
		_, edit, err := field.Change(field.Text)
		require.NoError(t, err)
		require.Nil(t, edit)
	}
}

func TestOneFieldChangesAllThatAreSelected(t *testing.T) {
	p := demo.Weekender()
	both := []plan.Ref{linkNamed(p, "L02"), linkNamed(p, "L03")}
	form := text.FormOf(assess.Of(p), both, words.Units{})
	_, named := form.Field("name")
	require.False(t, named, "a name is each one's own")
	after, step, err := typing(p, both, words.Units{}, "temperature", "35")
	require.NoError(t, err)
	require.Equal(t, "2 links: cable temperature", step)
	for _, ref := range both {
		link, _ := after.Links.Get(ref.Key)
		require.Equal(t, plan.Some(35), link.Temperature)
	}
	one, _, err := typing(p, both[:1], words.Units{}, "wanted", "2")
	require.NoError(t, err)
	field, _ := text.FormOf(assess.Of(one), both, words.Units{}).Field("wanted")
	require.True(t, field.Several)
	require.Equal(t, "several values", field.Blank)
}

func TestADeviceMovedByItsFieldsTakesItsWaysAlong(t *testing.T) {
	p := demo.Weekender()
	tower := positionNamed(p, "FOH tower")
	before, _ := p.Devices.Get(deviceNamed(p, "FOH console").Key)
	position, _ := p.Positions.Get(tower.Key)
	after, _, err := typing(p, []plan.Ref{tower}, words.Units{}, "x", fmt.Sprint(position.X+10))
	require.NoError(t, err)
	moved, _ := after.Devices.Get(before.Key())
	require.InDelta(t, before.X+10, moved.X, 1e-9)
}
