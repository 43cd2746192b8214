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

func TestALaidSparesFormSaysWhatItStandsInFor(t *testing.T) {
	p := demo.Weekender()
	beside, _ := p.Link(plan.LinkID(linkNamed(p, "L02").Key))
	var spare plan.LinkID
	p, err := plan.Do(p, plan.NewIDSource(3, 4), func(e *plan.Edit) (err error) {
		spare, err = e.AddSpare(beside.ID)
		return err
	})
	require.NoError(t, err)
	row, _ := p.Link(spare)
	field, found := text.FormOf(assess.Of(p), []plan.Ref{plan.RefOf(row)}, words.Units{}).Field("stands_for")
	require.True(t, found)
	choices := field.Choices
	require.Contains(t, choices[0].Words, "any between its ends: ")
	require.Contains(t, choices[0].Words, "L02")
	require.NotContains(t, choices[1].Words, "ends elsewhere")
	require.Contains(t, choices[len(choices)-1].Words, "ends elsewhere")
	_, found = text.FormOf(assess.Of(p), []plan.Ref{plan.RefOf(beside)}, words.Units{}).Field("stands_for")
	require.False(t, found, "a link that carries something stands in for nothing")
}
