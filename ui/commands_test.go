package ui_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/settings"
)

func TestACommandIsFoundAndDone(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.window.Resize(fyne.NewSize(1280, 800))
	ask := func(words string, keys ...fyne.KeyName) {
		t.Helper()
		s.choose("Help", "Find a command…")
		require.Equal(t, 1, s.state().Overlays)
		s.typed(words, keys...)
	}
	ask("device next", fyne.KeyReturn)
	require.Zero(t, s.state().Overlays, "the list is gone before the command is done")
	require.Len(t, s.state().Selection, 1)
	first := s.state().Selection[0]
	ask("device", fyne.KeyDown, fyne.KeyUp, fyne.KeyPageDown, fyne.KeyPageUp, fyne.KeyEscape)
	require.Equal(t, first, s.state().Selection[0], "Escape does nothing")
	ask("feet", fyne.KeyReturn)
	require.Equal(t, settings.Feet, settings.New(s.app.Preferences()).Length())
	ask("undo", fyne.KeyReturn)
	require.Equal(t, 1, s.state().Overlays, "what has nothing to work on says so and stays")
	s.typed("", fyne.KeyEscape)
	ask("no such thing", fyne.KeyReturn, fyne.KeyEscape)
	require.Zero(t, s.state().Overlays)
	ask("quit", fyne.KeyReturn)
}

func TestACommandWorksOnWhatHadTheFocus(t *testing.T) {
	s := openTables(t, "Links")
	s.choose("Help", "Find a command…")
	s.typed("copy", fyne.KeyReturn)
	require.Contains(t, s.state().Notice, "copied, for a spreadsheet too", "the keys were in the table")
}

func TestEachKeyDoesOneThing(t *testing.T) {
	s := open(t, "light", demoFile(t))
	does := map[string]string{}
	var look func(items []*fyne.MenuItem)
	look = func(items []*fyne.MenuItem) {
		for _, item := range items {
			if item.ChildMenu != nil {
				look(item.ChildMenu.Items)
			}
			if item.Shortcut == nil {
				continue
			}
			name := item.Shortcut.ShortcutName()
			require.Empty(t, does[name], "%s and %q have one key", does[name], item.Label)
			does[name] = item.Label
		}
	}
	for _, menu := range s.window.MainMenu().Items {
		look(menu.Items)
	}
	require.Greater(t, len(does), 40)
}

func TestSettingsHoldAtOnceAndNeverChangeAnOpenPlan(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.window.Resize(fyne.NewSize(1280, 800))
	before := s.desk.Plan()
	s.choose("Plan", "Settings…")
	kept := settings.New(s.app.Preferences())
	choosers := s.choosers()
	choosers[0].SetSelected(settings.Feet)
	choosers[1].SetSelected(settings.Fahrenheit)
	choosers[2].SetSelected(settings.Dark)
	choosers[3].SetSelected(settings.NameMarginRun)
	require.Equal(t, []string{settings.Feet, settings.Fahrenheit, settings.Dark, settings.NameMarginRun},
		[]string{kept.Length(), kept.Temperature(), kept.Look(), kept.Labels()})
	choosers[3].SetSelected(settings.NameAlone)
	require.Equal(t, settings.NameAlone, kept.Labels())
	require.Same(t, before, s.desk.Plan())
	s.tap("Close")
	require.Zero(t, s.state().Overlays)
	require.Empty(t, s.desk.NextUndo())
}

func TestNewPlansBeginAsOneLikes(t *testing.T) {
	s := open(t, "light")
	s.window.Resize(fyne.NewSize(1280, 800))
	s.choose("Plan", "Settings…")
	s.formField("Slack at each end", "15 ft")
	s.formField("Wanted margin", "2,5")
	s.formField("Cable temperature", "86 °F")
	s.typed("", fyne.KeyEscape)
	require.Zero(t, s.state().Overlays)
	require.NotEqual(t, 4.572, s.desk.Plan().Settings.SlackEnd.Value, "the open plan keeps its own")
	s.choose("Plan", "New")
	fresh := s.desk.Plan().Settings
	require.InDelta(t, 4.572, fresh.SlackEnd.Value, 1e-9)
	require.Equal(t, plan.Some(2.5), fresh.WantedMargin)
	require.Equal(t, plan.Some(30), fresh.Temperature)
	require.Equal(t, "New plan", fresh.Name)
	require.Equal(t, plan.DefaultSettings().Standards, fresh.Standards)
	t.Run("what cannot be read stays with its reason and is not kept", func(t *testing.T) {
		s.choose("Plan", "Settings…")
		s.formField("Slack at each end", "far")
		s.choose("Plan", "Settings…") // routed to nothing under a dialog
		require.Equal(t, 1, s.state().Overlays)
		s.tap("Close")
		s.choose("Plan", "New")
		require.InDelta(t, 4.572, s.desk.Plan().Settings.SlackEnd.Value, 1e-9)
	})
	t.Run("and as they came again", func(t *testing.T) {
		s.choose("Plan", "Settings…")
		s.tap("New plans as they came")
		s.tap("Close")
		s.choose("Plan", "New")
		require.False(t, s.desk.Plan().Settings.SlackEnd.Set)
	})
	t.Run("preferences that hold nonsense begin a plan as it came", func(t *testing.T) {
		s.app.Preferences().SetString("new plan", "{ half a")
		s.choose("Plan", "New")
		require.False(t, s.desk.Plan().Settings.SlackEnd.Set)
	})
}

// formField types into a field of a form in the topmost dialog.
func (s *screen) formField(label, text string) {
	s.t.Helper()
	overlays := s.window.Canvas().Overlays().List()
	for _, object := range test.LaidOutObjects(overlays[len(overlays)-1]) {
		row, is := object.(interface {
			Labelled() (string, fyne.CanvasObject)
		})
		if !is {
			continue
		}
		if name, input := row.Labelled(); name == label {
			field := input.(fyne.Focusable)
			s.window.Canvas().Focus(field)
			field.(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
			field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
			s.typed(text, fyne.KeyReturn)
			return
		}
	}
	s.t.Fatalf("no field %s", label)
}
