package ui_test

import (
	"encoding/json"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/day"
	"stageloom/ui/settings"
)

const dayItem = "Day view"

// onDay is what the answers say of the day view.
type onDay struct {
	Link, Done, Said string
	Cable            int
}

func (s *screen) day() onDay {
	s.t.Helper()
	var answer struct{ Day onDay }
	require.NoError(s.t, json.Unmarshal(s.questions.Answer([]byte(`{"ask":"state"}`)), &answer))
	return answer.Day
}

// openDay is the demo with the day view open, painted once.
func openDay(t *testing.T) *screen {
	s := open(t, settings.Dark, demoFile(t))
	s.window.Resize(fyne.NewSize(1280, 800))
	s.choose("View", dayItem)
	s.window.Canvas().Capture()
	return s
}

// shortcut runs the menu's command with this shortcut, as the toolkit does.
func (s *screen) shortcut(wanted fyne.Shortcut) {
	s.t.Helper()
	for _, menu := range s.window.MainMenu().Items {
		for _, item := range menu.Items {
			if item.Shortcut != nil && item.Shortcut.ShortcutName() == wanted.ShortcutName() {
				item.Action()
				return
			}
		}
	}
	require.Fail(s.t, "no command "+wanted.ShortcutName())
}

func ctrl(name fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: name, Modifier: fyne.KeyModifierShortcutDefault}
}

func TestTheDayViewTakesTheWholeWindowAndTheKeys(t *testing.T) {
	s := openDay(t)
	require.Equal(t, "*day.View", s.focus())
	require.Equal(t, "L01", s.day().Link)
	require.Equal(t, []string{"L01"}, s.state().Selection)
	s.typed("lnj")
	require.Equal(t, onDay{Link: "L02", Done: plan.Joined, Said: "L02 is joined.", Cable: 1}, s.day())
	require.Equal(t, []string{"L02"}, s.state().Selection, "the plan follows")
	require.Equal(t, []string{"Mark L01 laid", "Mark L02 joined"}, s.state().History[1:])
	s.press(fyne.KeyEscape)
	require.Equal(t, "*planview.Editor", s.focus())
	require.Equal(t, onDay{}, s.day())
	s.press(fyne.KeyF9)
	require.Equal(t, "L02", s.day().Link, "it begins with the link that is selected")
	s.press(fyne.KeyF9)
	require.Equal(t, onDay{}, s.day())
}

func TestAnEditOnThePlanSaysWhatItTakesBackOnSite(t *testing.T) {
	s := openDay(t)
	s.typed("t", fyne.KeyEscape)
	s.choose("Links", "Take last cable off")
	require.Contains(t, s.words(), "L01, tested, is only laid then", "it is asked first")
	s.tap("Do it all the same")
	require.Equal(t, "On site again: L01 is to be joined and tested.", s.state().Notice)
	s.shortcut(&fyne.ShortcutUndo{})
	require.Equal(t, plan.Tested, s.link("L01").Done)
	require.Empty(t, s.state().Notice)
}

func TestCommandsOfTheMenuOnTheDayView(t *testing.T) {
	s := openDay(t)
	s.typed("l")
	s.shortcut(&fyne.ShortcutUndo{})
	require.Equal(t, "Taken back: Mark L01 laid.", s.day().Said)
	s.shortcut(&fyne.ShortcutRedo{})
	require.Equal(t, plan.Laid, s.day().Done)
	s.shortcut(ctrl(fyne.KeyS))
	require.False(t, s.state().Unsaved)
	require.Equal(t, "L01", s.day().Link, "a save does not leave")
	s.shortcut(ctrl(fyne.KeyL))
	require.Equal(t, "L02", s.day().Link)
	s.shortcut(ctrl(fyne.KeyF))
	require.Zero(t, s.state().Overlays, "the day view finds links by itself")
	s.typed("L20", fyne.KeyReturn)
	require.Equal(t, "L20", s.day().Link)
	s.shortcut(ctrl(fyne.KeyJ))
	require.Equal(t, onDay{}, s.day(), "what works on the plan leaves")
	require.Equal(t, 1, s.state().Overlays)
	require.Equal(t, []string{"L20"}, s.state().Selection)
}

func TestWhatLiesUnderTheDayViewIsNeverTypedInto(t *testing.T) {
	for name, open := range map[string]func(s *screen){
		"the card":  func(s *screen) { s.press(fyne.KeyF4) },
		"the strip": func(s *screen) { s.press(fyne.KeyF6) },
		"a table":   func(s *screen) { s.shortcut(ctrl(fyne.Key1)) },
		"equipment": func(s *screen) { s.shortcut(ctrl(fyne.KeyE)) },
		"the next":  func(s *screen) { s.choose("Edit", "Next device") },
	} {
		t.Run(name, func(t *testing.T) {
			s := openDay(t)
			open(s)
			require.Equal(t, onDay{}, s.day())
			require.NotEqual(t, "*day.View", s.focus())
		})
	}
	t.Run("a dialog lies over it, and gives the keys back", func(t *testing.T) {
		s := openDay(t)
		s.press(fyne.KeyF8)
		require.Equal(t, 1, s.state().Overlays)
		require.Equal(t, "L01", s.day().Link)
		s.window.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
		require.Zero(t, s.state().Overlays)
		s.typed("n")
		require.Equal(t, "L02", s.day().Link)
	})
	t.Run("keys without a focus come back to it", func(t *testing.T) {
		s := openDay(t)
		s.window.Canvas().Unfocus()
		s.window.Canvas().OnTypedRune()('n')
		require.Equal(t, "L02", s.day().Link)
		s.window.Canvas().Unfocus()
		s.window.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyRight})
		require.Equal(t, "L03", s.day().Link)
		_, is := s.window.Canvas().Focused().(*day.View)
		require.True(t, is)
	})
	t.Run("another plan is shown at once", func(t *testing.T) {
		s := openDay(t)
		s.desk.NewPlan(plan.New("Empty"))
		require.Empty(t, s.day().Link)
		s.typed("l")
		require.Empty(t, s.state().History[1:])
	})
}
