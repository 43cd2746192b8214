package panel_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/ui/panel"
)

func TestAWayIsTypedWithWhoGaveIt(t *testing.T) {
	feet := panel.Units{Length: quantity.Imperial}
	for _, c := range []struct {
		text   string
		units  panel.Units
		metres float64
		by     string
		shown  string
	}{
		{"62 m, paced", panel.Units{}, 62, plan.Paced, "62 m, paced"},
		{"62,5 taped", panel.Units{}, 62.5, plan.Taped, "62.5 m, taped"},
		{"62, the venue says", panel.Units{}, 62, plan.Venue, "62 m, the venue says"},
		{"62", panel.Units{}, 62, "", "62 m"},
		{"200 ft paced", panel.Units{}, 60.96, plan.Paced, "61 m, paced"},
		{"200, taped", feet, 60.96, plan.Taped, "200 ft, taped"},
		{"62 m paced, doubtful", panel.Units{}, 62, plan.Paced, "62 m, paced, doubtful"},
		{"", panel.Units{}, 0, "", ""},
	} {
		link := plan.Link{TypedWay: 5, TypedBy: plan.Taped, Doubtful: true}
		require.NoError(t, panel.SetTyped(&link, c.text, c.units), c.text)
		require.InDelta(t, c.metres, link.TypedWay, 1e-9, c.text)
		require.Equal(t, c.by, link.TypedBy, c.text)
		require.Equal(t, c.shown, panel.TypedText(link, c.units), c.text)
	}
	for text, why := range map[string]string{
		"62 m, guessed": "write paced, taped or the venue says behind it", "paced": "number", "0 m": "a way has some length", "30 km": "no way on a site",
	} {
		link := plan.Link{TypedWay: 5}
		require.ErrorContains(t, panel.SetTyped(&link, text, panel.Units{}), why, text)
		require.Equal(t, 5.0, link.TypedWay, "what cannot be read changes nothing")
	}
}
