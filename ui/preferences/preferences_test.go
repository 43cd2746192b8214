package preferences_test

import (
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/preferences"
	"stageloom/ui/settings"
)

// drawn is what the plan was drawn without last, and the note about it.
type drawn struct {
	leftOut picture.LeftOut
	note    string
	changed int
}

func open(t *testing.T, p *plan.Plan) (*hosttest.Host, *preferences.Dialogs, *drawn) {
	t.Helper()
	app := test.NewTempApp(t)
	h, d := hosttest.New(t, p), &drawn{}
	return h, &preferences.Dialogs{
		Host: h, Settings: settings.New(app.Preferences()), Leave: func() {}, LabelsChanged: func() {}, SetLook: func(string) {},
		Changed: func() { d.changed++ },
		Draw:    func(leftOut picture.LeftOut, note string) { d.leftOut, d.note = leftOut, note },
	}, d
}

func TestWhatIsHiddenIsLeftOutAndNoted(t *testing.T) {
	p, err := plan.Do(plan.New("Show"), nil, func(e *plan.Edit) error {
		plan.Put(e, plan.Level{ID: "v-22222", Name: "Gallery", Height: 4})
		return nil
	})
	require.NoError(t, err)
	h, d, seen := open(t, p)
	d.AskShown()
	h.Check("looms").SetChecked(false)
	h.Check("Gallery").SetChecked(false)
	require.True(t, seen.leftOut.Looms)
	require.True(t, seen.leftOut.Levels["v-22222"])
	require.Equal(t, "hidden: looms, Gallery   F7", seen.note)
	d.ForgetLevels()
	require.Equal(t, "hidden: looms   F7", seen.note, "levels are a plan's, looms are not")
	d.ShowAll()
	require.Empty(t, seen.note)
	require.False(t, seen.leftOut.Looms)
}

func TestASettingHoldsAtOnce(t *testing.T) {
	h, d, seen := open(t, plan.New("Show"))
	snap := d.Settings.Snap()
	d.AskSettings()
	h.Check("snaps to half a metre or a foot").SetChecked(!snap)
	require.Equal(t, !snap, d.Settings.Snap())
	require.Equal(t, 1, seen.changed)
	require.Empty(t, h.Desk().NextUndo(), "the plan is as it was")
}
