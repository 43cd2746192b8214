package panel_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/ui/panel"
)

func TestALinksFiguresAreTypedAsPeopleTypeThem(t *testing.T) {
	p := demo.Weekender()
	link, _ := p.Link(plan.LinkID(linkNamed(p, "L02").Key))
	fields := panel.LinkFields(p, link, panel.Units{})
	require.Equal(t, "10 % of the way, the plan's", fields[panel.FieldSlackPercent].Blank, "a blank is the plan's figure")
	require.Empty(t, fields[panel.FieldSlackPercent].Text)
	fields[panel.FieldRiseFrom].Text = "12 ft"
	fields[panel.FieldRiseTo].Text = "4,5"
	fields[panel.FieldSlackPercent].Text = "7,5 %"
	fields[panel.FieldTemperature].Text = "86 °F"
	fields[panel.FieldMargin].Text = "2 dB"
	fields[panel.FieldToLead].Text = "1.5 m"
	got, _, ok := panel.WithLinkFields(p, link, fields, panel.Units{})
	require.True(t, ok)
	require.InDelta(t, 3.6576, got.RiseFrom, 1e-9)
	require.Equal(t, 4.5, got.RiseTo)
	require.Equal(t, plan.Some(7.5), got.SlackPercent)
	require.InDelta(t, 30, got.Temperature.Value, 1e-9)
	require.Equal(t, plan.Some(2), got.WantedMargin)
	require.Equal(t, 1.5, got.ToLead)
	require.Equal(t, link.From, got.From, "the ends stay")
}

func TestWhatCannotBeReadBearsItsFaultAndNothingIsLost(t *testing.T) {
	p := demo.Weekender()
	link, _ := p.Link(plan.LinkID(linkNamed(p, "L02").Key))
	for field, text := range map[int]string{
		panel.FieldName: "  ", panel.FieldRiseFrom: "two", panel.FieldSlackPercent: "200", panel.FieldSlackEnd: "1.2.3",
		panel.FieldTemperature: "warm", panel.FieldMargin: "1 m",
	} {
		fields := panel.LinkFields(p, link, panel.Units{})
		fields[field].Text = text
		_, faulted, ok := panel.WithLinkFields(p, link, fields, panel.Units{})
		require.False(t, ok, text)
		require.NotEmpty(t, faulted[field].Fault, text)
		require.Equal(t, text, faulted[field].Text)
	}
}

func TestFormsShowWhatTheyReadBack(t *testing.T) {
	p := demo.Weekender()
	for _, units := range []panel.Units{{}, {Length: quantity.Imperial, Temperature: quantity.Imperial}} {
		for link := range p.Links.All() {
			got, _, ok := panel.WithLinkFields(p, link, panel.LinkFields(p, link, units), units)
			require.True(t, ok)
			require.Equal(t, link, got, "untouched, nothing changes, not even a digit that is not shown")
		}
	}
}
