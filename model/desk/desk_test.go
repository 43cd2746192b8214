package desk_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// withBox is a desk with one device at the origin.
func withBox(t *testing.T) (*desk.Desk, plan.Ref) {
	t.Helper()
	d := desk.New(plan.NewIDSource(1, 2))
	var id plan.DeviceID
	require.NoError(t, d.Do("Add box", func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
		id = e.AddDevice(plan.Device{Kind: "box"})
		return nil
	}))
	return d, plan.Ref{Table: "devices", Key: plan.Key(id)}
}

func shift(d *desk.Desk, name string, by geom.Point) error {
	m := d.SelectedMoving()
	return d.DoAgain(name, func(e *plan.Edit) error { e.Move(m, by); return nil })
}

func x(d *desk.Desk, ref plan.Ref) float64 {
	device, _ := d.Plan().Device(plan.DeviceID(ref.Key))
	return device.X
}

func TestUndoGoesBackToTheVeryPlanBefore(t *testing.T) {
	d, ref := withBox(t)
	before := d.Plan()
	d.Select(ref)
	require.NoError(t, shift(d, "Move", geom.Point{X: 3}))
	require.Equal(t, 3.0, x(d, ref))
	require.Equal(t, "Move", d.NextUndo())
	require.True(t, d.Undo())
	require.Same(t, before, d.Plan())
	require.Equal(t, "Move", d.NextRedo())
	require.True(t, d.Redo())
	require.Equal(t, 3.0, x(d, ref))
	require.False(t, d.Redo())
	names, at := d.History()
	require.Equal(t, []string{"New plan", "Add box", "Move"}, names)
	require.Equal(t, 2, at)
}

func TestARefusedEditLeavesPlanAndHistoryAlone(t *testing.T) {
	d, _ := withBox(t)
	before := d.Plan()
	err := d.Do("Break", func(e *plan.Edit) error { plan.Drop[plan.Kind](e, "box"); return nil })
	require.ErrorIs(t, err, plan.ErrRefused)
	require.Same(t, before, d.Plan())
	require.NoError(t, d.Do("Nothing", func(*plan.Edit) error { return nil }))
	names, _ := d.History()
	require.Len(t, names, 2, "an edit that changes nothing makes no step")
}

func TestNudgesInARowAreOneStep(t *testing.T) {
	d, ref := withBox(t)
	d.Select(ref)
	for range 5 {
		require.NoError(t, shift(d, "Nudge", geom.Point{X: 1}))
	}
	require.True(t, d.Undo())
	require.Equal(t, 0.0, x(d, ref), "five nudges, one undo")
	require.True(t, d.Redo())
	require.NoError(t, shift(d, "Nudge", geom.Point{X: 1}))
	require.True(t, d.Undo())
	require.Equal(t, 5.0, x(d, ref), "a nudge after an undo is a step of its own")
}

func TestAnEditAfterUndoDropsWhatCouldBeRedone(t *testing.T) {
	d, ref := withBox(t)
	d.Select(ref)
	require.NoError(t, shift(d, "Right", geom.Point{X: 1}))
	require.True(t, d.Undo())
	require.NoError(t, shift(d, "Left", geom.Point{X: -1}))
	require.Empty(t, d.NextRedo())
	require.Equal(t, -1.0, x(d, ref))
}

func TestTheSelectionFollowsThePlan(t *testing.T) {
	d, ref := withBox(t)
	var events []desk.Event
	d.Listen(func(e desk.Event) { events = append(events, e) })
	d.Select(ref, ref, plan.Ref{Table: "devices", Key: "d-99999"})
	require.Equal(t, []plan.Ref{ref}, d.Selection(), "once each, and only what exists")
	require.True(t, d.Undo())
	require.Empty(t, d.Selection(), "what is gone is not selected")
	require.Len(t, events, 2, "one event a change")
	require.True(t, events[1].PlanChanged())
	require.True(t, events[1].Selection)
	require.Same(t, d.Plan(), events[1].New)
	require.Same(t, d.Assessment(), events[1].Assessment)
	require.True(t, d.Redo())
	d.Toggle(ref)
	require.True(t, d.Selected(ref))
	require.Equal(t, []plan.DeviceID{plan.DeviceID(ref.Key)}, d.SelectedDevices())
	require.Empty(t, d.SelectedLinks(), "a device is no link")
	d.Toggle(ref)
	require.Empty(t, d.Selection())
}

func TestAPlanIsSavedOpenedAndSavedAgain(t *testing.T) {
	d, ref := withBox(t)
	require.ErrorIs(t, d.Save(), desk.ErrNoPath)
	path := filepath.Join(t.TempDir(), "show")
	require.NoError(t, d.SaveAs(path, false))
	require.Equal(t, path+planfile.Extension, d.Path(), "the extension is added")
	require.False(t, d.Unsaved())
	d.Select(ref)
	require.NoError(t, shift(d, "Move", geom.Point{X: 2}))
	require.True(t, d.Unsaved())
	require.True(t, d.Undo())
	require.False(t, d.Unsaved(), "undone to what the file holds")
	require.True(t, d.Redo())
	require.NoError(t, d.Save())
	d.Close()

	again := desk.New(plan.NewIDSource(3, 4))
	require.NoError(t, again.Open(path+planfile.Extension))
	require.True(t, plan.Equal(d.Plan(), again.Plan()))
	again.Close()
	left, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	require.Len(t, left, 1, "neither lock nor temporary file stays")
}

func TestAPlanWhoseNamesTurnLettersRoundOpensWithoutThemAndSaysSo(t *testing.T) {
	d, ref := withBox(t)
	path := filepath.Join(t.TempDir(), "show.stageloom")
	require.NoError(t, d.SaveAs(path, false))
	require.Empty(t, d.Mended())
	d.Close()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	whole := d.Plan()
	box, _ := whole.Devices.Get(ref.Key)
	turned := strings.Replace(string(text), `"name": "`+box.Name, `"name": "\u202e`+box.Name, 1)
	require.NotEqual(t, string(text), turned)
	require.NoError(t, os.WriteFile(path, []byte(turned), 0o600))

	require.NoError(t, d.Open(path))
	require.True(t, plan.Equal(whole, d.Plan()))
	require.Contains(t, d.Mended(), `/name "`+box.Name+`"`)
	require.True(t, d.Unsaved(), "the file holds the signs until it is saved")
	require.NoError(t, d.Save())
	require.False(t, d.Unsaved())
	require.NoError(t, d.Open(path))
	require.Empty(t, d.Mended())
	d.Close()
}

func TestTheSecondDeskOnOneFileIsReadOnlyAndSaysWhy(t *testing.T) {
	first, ref := withBox(t)
	path := filepath.Join(t.TempDir(), "show.stageloom")
	require.NoError(t, first.SaveAs(path, false))
	second := desk.New(plan.NewIDSource(3, 4))
	require.NoError(t, second.Open(path))
	require.Contains(t, second.ReadOnly(), "being edited")
	second.Select(ref)
	var readOnly *desk.ReadOnly
	require.ErrorAs(t, shift(second, "Move", geom.Point{X: 1}), &readOnly)
	require.ErrorAs(t, second.Save(), &readOnly)
	other := filepath.Join(t.TempDir(), "copy.stageloom")
	require.NoError(t, second.SaveAs(other, false), "a copy elsewhere can be edited")
	require.Empty(t, second.ReadOnly())
	require.NoError(t, shift(second, "Move", geom.Point{X: 1}))
	second.Close()
	first.Close()
}

func TestWhatSomethingElseWroteIsNotOverwritten(t *testing.T) {
	d, ref := withBox(t)
	path := filepath.Join(t.TempDir(), "show.stageloom")
	require.NoError(t, d.SaveAs(path, false))
	require.False(t, d.ChangedOnDisk())
	require.NoError(t, os.WriteFile(path, []byte("{}"), 0o600))
	require.True(t, d.ChangedOnDisk())
	d.Select(ref)
	require.NoError(t, shift(d, "Move", geom.Point{X: 1}))
	var overwrite *planfile.Overwrite
	require.ErrorAs(t, d.Save(), &overwrite)
	held, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "{}", string(held))
	require.NoError(t, d.SaveAs(path, true), "when the user says so")
	require.False(t, d.Unsaved())
	d.Close()
}

func TestAnUnreadableFileLeavesThePlanBefore(t *testing.T) {
	d, _ := withBox(t)
	before := d.Plan()
	path := filepath.Join(t.TempDir(), "bad.stageloom")
	require.NoError(t, os.WriteFile(path, []byte("{\n\"stageloom\": 1,\n"), 0o600))
	require.ErrorContains(t, d.Open(path), "bad.stageloom")
	require.Same(t, before, d.Plan())
	require.Empty(t, d.Path())
}
