package drawer_test

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/demo"
	"stageloom/model/desk"
	"stageloom/model/geom"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/drawer"
	"stageloom/ui/settings"
	"stageloom/ui/table"
	"stageloom/ui/table/sources"
)

// above is a plan on which nothing is drawn.
type above struct{}

func (above) Where(plan.Ref) (box geom.Box, drawn bool) { return box, false }
func (above) Reveal(plan.Ref)                           {}

func open(t *testing.T) (h *hosttest.Host, d *drawer.Drawer, left, changed *int) {
	t.Helper()
	app := test.NewTempApp(t)
	h, left, changed = hosttest.New(t, demo.Weekender()), new(int), new(int)
	d = drawer.New(drawer.Joined{
		Host: h, Settings: settings.New(app.Preferences()), Plan: above{},
		Leave: func() { *left++ }, ActChanged: func() { *changed++ },
		Fixes: func(checks.Finding) []*fyne.MenuItem { return nil },
	}, widget.NewLabel("the plan"))
	h.Window().SetContent(d.Place)
	h.Desk().Listen(d.Refresh)
	return h, d, left, changed
}

func TestATableIsOpenedFollowsThePlanAndIsClosed(t *testing.T) {
	h, d, left, _ := open(t)
	require.Empty(t, d.State().Name)
	d.Show("no such table")
	require.Empty(t, d.State().Name)
	d.Show("positions")
	require.Equal(t, "positions", d.Holding())
	rows := d.State().Rows
	require.Equal(t, h.Desk().Plan().Positions.Len(), rows)
	require.NoError(t, h.Desk().Do("Add", func(e *plan.Edit) error {
		e.AddPosition(plan.Position{Name: "Delay tower"})
		return nil
	}))
	require.Equal(t, rows+1, d.State().Rows)
	require.Equal(t, "positions", d.Settings.OpenTable())
	d.Toggle("positions")
	require.Empty(t, d.State().Name, "the second time it is closed")
	require.Equal(t, 1, *left)
	require.Empty(t, d.Settings.OpenTable())
	d.Refresh(desk.Event{})
}

func TestTheTablesOfThePatchShowOneAct(t *testing.T) {
	h, d, _, changed := open(t)
	shown := h.Desk().Assessment().Patch.Shown()
	require.Greater(t, len(shown), 1)
	first := d.ActShown()
	d.Show("patch")
	d.NextAct(1)
	require.NotEqual(t, first, d.ActShown())
	require.Equal(t, 1, *changed)
	d.NextAct(-1)
	require.Equal(t, first, d.ActShown())
	d.ShowAct(first)
	require.Equal(t, 2, *changed, "it is shown already")
	chosen, patches := d.Chosen()
	require.True(t, patches)
	require.Equal(t, d.Listed()[:1], chosen.Inputs, "the cursor stands on the first")
	require.Len(t, d.Listed(), d.State().Rows)
	d.Show("links")
	_, patches = d.Chosen()
	require.False(t, patches)
}

func TestColumnsOfThePatchStandAtTheNextStartAsTheyWereLaid(t *testing.T) {
	h, d, _, _ := open(t)
	line := func(d *drawer.Drawer) (titles []string) {
		for _, cell := range d.State().Line {
			title, _, _ := strings.Cut(cell, ":")
			titles = append(titles, title)
		}
		return titles
	}
	d.Show("patch")
	was := line(d)
	show := h.Desk().Plan()
	kept := d.Settings
	kept.SetTable("patch", table.NewSheet(sources.Patch(h.Desk().Assessment(), sources.View{}), nil).Look()) // as a drag of a column does
	start := func(first *plan.Plan) (*hosttest.Host, *drawer.Drawer) {
		next := hosttest.New(t, first)
		later := drawer.New(drawer.Joined{Host: next, Settings: kept, Plan: above{}, Leave: func() {}, ActChanged: func() {}}, widget.NewLabel("the plan"))
		next.Window().SetContent(later.Place)
		next.Desk().Listen(later.Refresh)
		return next, later
	}
	next, later := start(plan.New("empty")) // the window begins so, with the table open that was
	later.Show("patch")
	next.Desk().NewPlan(show)
	require.Equal(t, was, line(later))
	kept.SetTable("patch", settings.TableLook{}) // nothing chosen yet
	other, then := start(plan.New("empty"))
	then.Show("patch")
	other.Desk().NewPlan(show)
	require.Equal(t, was, line(then))
}

func TestWhatAnActDoesNotUseIsHiddenByOneKeyAndSaid(t *testing.T) {
	h, d, _, changed := open(t)
	reads := func(words string) bool { return strings.Contains(test.RenderObjectToMarkup(d.Place), words) }
	act := h.Desk().Assessment().Patch.Acts[1]
	var without []plan.InputID
	struck := 0
	for _, line := range act.Lines {
		switch {
		case line.Struck:
			struck++
		case line.Input.Act == "" && len(without) < 3:
			without = append(without, line.Input.ID)
		}
	}
	require.NoError(t, h.Desk().Do("Not used", func(e *plan.Edit) error { return patch.Strike(e, act.Act.ID, without...) }))
	d.Show("patch")
	d.ShowAct(act.Act.ID)
	all := d.State().Rows
	before := *changed
	d.HideUnused()
	require.Equal(t, before+1, *changed, "the menu ticks it")
	require.Equal(t, all-struck-3, d.State().Rows)
	require.True(t, reads(fmt.Sprintf("%d house inputs not used are hidden", struck+3)))
	require.True(t, d.Settings.UnusedHidden())
	d.ShowAct("")
	require.Equal(t, h.Desk().Plan().Inputs.Len(), d.State().Rows, "the house uses all that it has")
	require.False(t, reads("are hidden"))
	d.ShowAct(act.Act.ID)
	d.HideUnused()
	require.Equal(t, all, d.State().Rows)
}
