package text_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/text"
)

func TestTheOverviewSaysWhatIsLeftOnSite(t *testing.T) {
	left := func(done ...string) (value, note string) {
		p, err := plan.Do(demo.Weekender(), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
			n := 0
			for link := range demo.Weekender().Links.All() {
				step := ""
				if n < len(done) {
					step = done[n]
				}
				n++
				if err := plan.Update(e, link.Key(), func(l *plan.Link) { l.Done = step }); err != nil {
					return err
				}
			}
			return nil
		})
		require.NoError(t, err)
		for _, figure := range text.CardOf(assess.Of(p), nil, words.Units{}, text.Preview{}).Figures {
			if figure.Name == "left on site" {
				return figure.Value, figure.Note
			}
		}
		return "", ""
	}
	value, _ := left()
	require.Empty(t, value, "nothing was begun")
	all := demo.Weekender().Links.Len()
	value, note := left(plan.Laid, plan.Joined, plan.Tested)
	require.Equal(t, fmt.Sprintf("%d to test", all-1), value)
	require.Equal(t, fmt.Sprintf("%d of them to lay, %d to join", all-3, all-2), note)
	every := make([]string, all)
	for i := range every {
		every[i] = plan.Tested
	}
	value, _ = left(every...)
	require.Equal(t, "nothing", value)
}

func TestFindingsOfBeforeADragAreToldApart(t *testing.T) {
	a := assess.Of(demo.Weekender())
	var found plan.Ref
	for link := range a.Plan.Links.All() {
		if len(a.FindingsAt(plan.LinksTable, link.Key())) > 0 {
			found = plan.RefOf(link)
		}
	}
	moving := text.Preview{By: geom.Point{X: 1}, Moving: plan.Moving{Devices: map[plan.DeviceID]bool{"d-22222": true}}}
	require.False(t, text.CardOf(a, []plan.Ref{found}, words.Units{}, text.Preview{}).Stale)
	require.True(t, text.CardOf(a, []plan.Ref{found}, words.Units{}, moving).Stale)
	for _, item := range text.OverviewOf(a, moving) {
		require.Equal(t, !item.Line && item.Words != "links" && item.Words != "too short" && item.Words != "laid spares" && item.Words != "laid spare", item.Stale, item.Words)
	}
}
