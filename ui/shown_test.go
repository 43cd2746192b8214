package ui_test

import (
	"bytes"
	"image"
	"testing"

	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/settings"
)

// check is the box to tick of that name in the topmost dialog.
func (s *screen) check(name string) *widget.Check {
	s.t.Helper()
	overlays := s.window.Canvas().Overlays().List()
	require.NotEmpty(s.t, overlays)
	for _, object := range test.LaidOutObjects(overlays[len(overlays)-1]) {
		if check, ok := object.(interface{ Inner() *widget.Check }); ok && check.Inner().Text == name {
			return check.Inner()
		}
	}
	require.Fail(s.t, "no box "+name)
	return nil
}

// pixels is what the window shows.
func (s *screen) pixels() []byte { return s.window.Canvas().Capture().(*image.NRGBA).Pix }

func TestPartsOfThePlanAreHiddenAndShownAgain(t *testing.T) {
	s := open(t, "light", demoFile(t))
	whole := s.pixels()
	before := s.desk.Plan()
	s.choose("View", "What is shown…")
	s.check("labels of links").SetChecked(false)
	s.check("over").SetChecked(false)
	s.check("Fibre").SetChecked(false)
	s.tap("Close")
	require.ElementsMatch(t, []string{settings.PartLabels, settings.HiddenGrade("over"), settings.HiddenTransport("fibre")}, settings.New(s.app.Preferences()).Hidden())
	hidden := s.pixels()
	require.False(t, bytes.Equal(whole, hidden))
	require.Same(t, before, s.desk.Plan(), "the plan is as it was")
	s.choose("View", "Show everything")
	require.Empty(t, settings.New(s.app.Preferences()).Hidden())
	require.False(t, bytes.Equal(hidden, s.pixels()), "all is back at once")
}

func TestALevelIsHiddenWhileItsPlanIsOpen(t *testing.T) {
	s := open(t, "light", demoFile(t))
	require.NoError(t, s.desk.Do("Level", func(e *plan.Edit) error {
		plan.Put(e, plan.Level{ID: "v-22222", Name: "Gallery", Height: 4})
		return nil
	}))
	whole := s.pixels()
	s.choose("View", "What is shown…")
	s.check("Gallery").SetChecked(false)
	s.tap("Close")
	require.False(t, bytes.Equal(whole, s.pixels()), "the corner says that it is hidden")
	s.desk.NewPlan(plan.New("Other"))
	require.NoError(t, s.desk.Do("Level", func(e *plan.Edit) error {
		plan.Put(e, plan.Level{ID: "v-22222", Name: "Gallery", Height: 4})
		return nil
	}))
	s.choose("View", "What is shown…")
	require.True(t, s.check("Gallery").Checked, "another plan's levels are all shown")
}
