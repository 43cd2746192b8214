package fields_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
)

func TestAWayIsTypedWithWhoGaveIt(t *testing.T) {
	feet := words.Units{Length: quantity.Imperial}
	for _, c := range []struct {
		text   string
		units  words.Units
		metres float64
		by     string
		shown  string
	}{
		{"62 m, paced", words.Units{}, 62, plan.Paced, "62 m, paced"},
		{"62,5 taped", words.Units{}, 62.5, plan.Taped, "62.5 m, taped"},
		{"62, the venue says", words.Units{}, 62, plan.Venue, "62 m, the venue says"},
		{"62", words.Units{}, 62, "", "62 m"},
		{"200 ft paced", words.Units{}, 60.96, plan.Paced, "61 m, paced"},
		{"200, taped", feet, 60.96, plan.Taped, "200 ft, taped"},
		{"62 m paced, doubtful", words.Units{}, 62, plan.Paced, "62 m, paced, doubtful"},
		{"", words.Units{}, 0, "", ""},
	} {
		link := plan.Link{TypedWay: 5, TypedBy: plan.Taped, Doubtful: true}
		require.NoError(t, fields.SetTyped(&link, c.text, c.units), c.text)
		require.InDelta(t, c.metres, link.TypedWay, 1e-9, c.text)
		require.Equal(t, c.by, link.TypedBy, c.text)
		require.Equal(t, c.shown, fields.TypedText(link, c.units), c.text)
	}
	for text, why := range map[string]string{
		"62 m, guessed": "write paced, taped or the venue says behind it", "paced": "number", "0 m": "a way has some length", "30 km": "no way on a site",
	} {
		link := plan.Link{TypedWay: 5}
		require.ErrorContains(t, fields.SetTyped(&link, text, words.Units{}), why, text)
		require.Equal(t, 5.0, link.TypedWay, "what cannot be read changes nothing")
	}
}
