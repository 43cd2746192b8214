package fields_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
)

func TestTheHistoryOfAReelIsReadBackAndEdited(t *testing.T) {
	p := demo.Weekender()
	reel := p.Reels.At(0)
	f := fields.Of(plan.ReelsTable, "history")
	text := func() string {
		row, _ := f.Row(p, reel.Key())
		return f.Text(fields.On(p, nil, words.Units{}), row)
	}
	put := func(said string) error {
		next, err := plan.Do(p, plan.NewIDSource(1, 1), func(e *plan.Edit) error { return f.Type(e, words.Units{}, reel.Key(), said) })
		if err == nil {
			p = next
		}
		return err
	}
	require.Empty(t, text())
	require.NoError(t, put("2031-06-02 tested (FOH)\n\n 2031-05-02 near plug replaced (workshop)"))
	require.Equal(t, "2031-05-02 near plug replaced (workshop)\n2031-06-02 tested (FOH)", text())
	for said, why := range map[string]string{
		text() + "\nplug": "line 3 does not begin with a day", "2031-02-30 plug": "line 1 names a day that is not",
		"2031-05-02 " + strings.Repeat("x", 300): "line 1: what it says",
	} {
		require.ErrorContains(t, put(said), why)
	}
	require.NoError(t, put("2031-06-02 tested (FOH)"))
	require.Equal(t, 1, p.Services.Len())
	for _, line := range p.History(reel.ID) {
		require.Equal(t, []string{"tested", "FOH"}, []string{line.Work, line.By})
	}
	require.NoError(t, put(""))
	require.Zero(t, p.Services.Len())
}
