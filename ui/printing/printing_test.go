package printing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/pointer"
	"stageloom/ui/printing"
)

func open(t *testing.T) (*hosttest.Host, *printing.Dialogs) {
	t.Helper()
	h := hosttest.New(t, plan.New("New plan"))
	return h, &printing.Dialogs{
		Host: h, Tips: func() *pointer.Tips { return pointer.NewTips(nil) },
		Do: func(name string, edit func(*plan.Edit) error) { require.NoError(t, h.Desk().Do(name, edit)) },
	}
}

func TestTheNextLetterFollowsTheLast(t *testing.T) {
	for last, next := range map[string]string{"A": "B", "Z": "AA", "AZ": "BA", "ZZ": "AAA", "2": "2A"} {
		h, d := open(t)
		d.Issue()
		letter := h.Field()
		letter.SetText(last)
		letter.OnSubmitted(last)
		require.Equal(t, 1, h.Desk().Plan().Revisions.Len())
		d.Issue()
		require.Equal(t, next, h.Field().Text, "after "+last)
	}
}

func TestARevisionNeedsALetter(t *testing.T) {
	h, d := open(t)
	d.Issue()
	letter := h.Field()
	letter.SetText(" ")
	letter.OnSubmitted(" ")
	require.True(t, h.Reads("Give the revision a letter."))
	require.Zero(t, h.Desk().Plan().Revisions.Len())
	h.Keys().GiveUp()
	require.Zero(t, h.Open())
}
