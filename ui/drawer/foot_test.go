package drawer_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

// TestTheFootTellsTheRowThatThePlanSelects has the plan select what another finding is about: the foot tells that finding whole.
func TestTheFootTellsTheRowThatThePlanSelects(t *testing.T) {
	h, d, _, _ := open(t)
	h.Window().Resize(fyne.NewSize(1000, 700))
	d.Show("findings")
	told := func() bool {
		what := ""
		for _, cell := range d.State().Line {
			if said, is := strings.CutPrefix(cell, "What: "); is {
				what = said
			}
		}
		require.NotEmpty(t, what)
		for _, object := range test.LaidOutObjects(h.Window().Content()) {
			if label, is := object.(*widget.Label); is && label.Wrapping == fyne.TextWrapWord && strings.HasPrefix(label.Text, what) {
				return true
			}
		}
		return false
	}
	require.True(t, told(), "the first")
	first := d.State().Row
	for device := range h.Desk().Plan().Devices.All() {
		h.Desk().Select(plan.RefOf(device))
		require.True(t, told(), device.Name)
	}
	require.NotEqual(t, first, d.State().Row)
}
