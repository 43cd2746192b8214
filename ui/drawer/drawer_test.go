package drawer_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/demo"
	"stageloom/model/desk"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/drawer"
	"stageloom/ui/settings"
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
