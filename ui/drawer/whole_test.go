package drawer_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestATableTakesTheWholeMiddleAndGivesItBack(t *testing.T) {
	h, d, left, _ := open(t)
	changes := 0
	d.Changed = func() { changes++ }
	h.Window().Resize(fyne.NewSize(900, 700))
	d.TakeWhole()
	require.Equal(t, "links", d.State().Name, "without a table the links are opened")
	require.True(t, d.Whole())
	require.Equal(t, "links", d.Holding())
	d.TakeWhole()
	require.False(t, d.Whole())
	d.TakeWhole()
	h.Window().Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.False(t, d.Whole(), "who leaves for the plan sees it")
	require.Equal(t, 1, *left)
	d.TakeWhole()
	d.Shut()
	require.False(t, d.Whole())
	d.Show("positions")
	require.False(t, d.Whole(), "the next table opens beside the plan")
	require.GreaterOrEqual(t, changes, 6)
}

func TestADoubleClickOnATabTakesTheWholeMiddle(t *testing.T) {
	h, d, _, _ := open(t)
	d.Show("links")
	var tabs []fyne.Tappable
	for _, object := range test.LaidOutObjects(d.Place) {
		if tab, is := object.(interface{ Words() string }); is && tab.Words() == "Positions" {
			tabs = append(tabs, object.(fyne.Tappable))
		}
	}
	require.Len(t, tabs, 1)
	press := &fyne.PointEvent{Position: fyne.NewPos(5, 5)}
	tabs[0].Tapped(press)
	require.Equal(t, "positions", d.State().Name)
	require.False(t, d.Whole())
	tabs[0].Tapped(press)
	require.True(t, d.Whole())
	tabs[0].Tapped(press)
	require.True(t, d.Whole(), "a third press is a first one")
	tabs[0].Tapped(press)
	require.False(t, d.Whole())
	_ = h
}

func TestDeleteOnALinksNameAsksForTheLink(t *testing.T) {
	h, d, _, _ := open(t)
	asked := 0
	d.Remove = func() { asked++ }
	d.Show("links")
	h.Window().Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	require.Equal(t, 1, asked)
	require.Empty(t, d.State().Trouble)
	require.Len(t, h.Desk().Selection(), 1)
	require.Equal(t, plan.LinksTable, h.Desk().Selection()[0].Table)
}
