package text_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/text"
)

func TestTheCardTellsTapeOfALinkOrOfItsLoom(t *testing.T) {
	p := demo.Weekender()
	taped := func(p *plan.Plan, name string) (said []text.Figure) {
		for _, figure := range text.CardOf(assess.Of(p), []plan.Ref{linkNamed(p, name)}, words.Units{}, text.Preview{}).Figures {
			if figure.Name == "tape" {
				said = append(said, figure)
			}
		}
		return said
	}
	require.Equal(t, []text.Figure{{Name: "tape", Value: "blue", Note: "at both ends"}}, taped(p, "L02"))
	require.Empty(t, taped(p, "L08"))
	bare, err := plan.Do(p, plan.NewIDSource(1, 1), func(e *plan.Edit) error {
		return plan.Update(e, linkNamed(p, "L02").Key, func(l *plan.Link) { l.Colour = " " })
	})
	require.NoError(t, err)
	require.Equal(t, []text.Figure{{Name: "tape", Value: "red", Note: "at both ends, that of the loom FOH lane"}}, taped(bare, "L02"))
}
