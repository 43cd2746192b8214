package ui_test

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/ui/planview"
)

// onCard is an object of the card: a field by its label.
func (s *screen) onCard(label string) fyne.CanvasObject {
	s.t.Helper()
	for _, object := range test.LaidOutObjects(s.window.Content()) {
		if row, is := object.(interface {
			Labelled() (string, fyne.CanvasObject)
		}); is {
			if name, field := row.Labelled(); name == label {
				return field
			}
		}
	}
	require.Fail(s.t, "no field "+label)
	return nil
}

func (s *screen) inField(label string) string {
	s.t.Helper()
	return s.onCard(label).(interface{ Inner() *widget.Entry }).Inner().Text
}

// typeInto puts the cursor into a field of the card, takes its text away and types another.
func (s *screen) typeInto(label, text string) {
	s.t.Helper()
	field := s.onCard(label).(fyne.Focusable)
	s.window.Canvas().Focus(field)
	field.(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	for _, letter := range text {
		field.TypedRune(letter)
	}
}

func (s *screen) press(key fyne.KeyName) {
	s.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: key})
}

// clickPlan presses and releases the pointer on empty ground of the plan.
func (s *screen) clickPlan() {
	for _, object := range test.LaidOutObjects(s.window.Content()) {
		if editor, is := object.(*planview.Editor); is {
			event := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
			event.Position = fyne.NewPos(3, 3)
			editor.MouseDown(event)
			editor.MouseUp(event)
			return
		}
	}
}

// focus is what has the cursor.
func (s *screen) focus() string { return fmt.Sprintf("%T", s.window.Canvas().Focused()) }

func (s *screen) link(name string) (found plan.Link) {
	for link := range s.desk.Plan().Links.All() {
		if link.Name == name {
			found = link
		}
	}
	return found
}

func TestWhatIsTypedIntoTheCardIsKeptAsOneStep(t *testing.T) {
	for _, c := range []struct {
		name  string
		leave func(*screen)
	}{
		{"by Enter", func(s *screen) { s.press(fyne.KeyReturn) }},
		{"by Tab", func(s *screen) { s.window.Canvas().FocusNext() }},
		{"by a click on the plan", func(s *screen) { s.clickPlan() }},
		{"by going to the next link", func(s *screen) { s.choose("Edit", "Next link") }},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := open(t, "light", demoFile(t))
			s.find("L02")
			_, before := s.desk.History()
			s.typeInto("Rise at near end", "12 ft")
			require.False(t, s.desk.Unsaved(), "nothing is changed while one types")
			c.leave(s)
			require.InDelta(t, 3.658, s.link("L02").RiseFrom, 1e-9)
			_, after := s.desk.History()
			require.Equal(t, before+1, after)
			require.Equal(t, "L02: rise at near end", s.desk.NextUndo())
			s.desk.Undo()
			require.Zero(t, s.link("L02").RiseFrom)
		})
	}
}

func TestTheTextOfAFieldAfterEnterIsThePlans(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.find("L02")
	s.typeInto("Rise at near end", " 3,50m")
	s.press(fyne.KeyReturn)
	require.Equal(t, "3.5 m", s.inField("Rise at near end"))
	s.typeInto("Cable temperature", "86 °F")
	s.press(fyne.KeyReturn)
	require.Equal(t, plan.Some(30), s.link("L02").Temperature)
	s.desk.Undo()
	require.Empty(t, s.inField("Cable temperature"), "what was kept follows the plan, also under the cursor")
}

func TestEscapeInAFieldPutsBackAndThenLeaves(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.find("L02")
	s.typeInto("Wanted margin", "nonsense")
	s.press(fyne.KeyEscape)
	require.Empty(t, s.inField("Wanted margin"))
	require.NotContains(t, s.focus(), "planview")
	s.press(fyne.KeyEscape)
	require.Contains(t, s.focus(), "planview.Editor")
	require.False(t, s.desk.Unsaved())
}

func TestUndoInAFieldIsTheTextsAndOnThePlanThePlans(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.find("L02")
	s.typeInto("Rise at far end", "4 m")
	s.press(fyne.KeyReturn)
	require.Equal(t, 4.0, s.link("L02").RiseTo)
	s.typeInto("Rise at near end", "5")
	s.choose("Edit", "Undo L02: rise at far end")
	require.Empty(t, s.inField("Rise at near end"), "the menu's key goes to the field, which undoes its text")
	require.Equal(t, 4.0, s.link("L02").RiseTo)
	s.clickPlan()
	s.choose("Edit", "Undo L02: rise at far end")
	require.Zero(t, s.link("L02").RiseTo)
}

func TestWhatCannotBeReadStaysInItsFieldAndIsNeverLost(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.find("L02")
	s.typeInto("Rise at near end", "a bit")
	s.choose("Edit", "Next link")
	require.Contains(t, s.state().Notice, "cannot be read")
	require.False(t, s.desk.Unsaved())
	require.Empty(t, s.inField("Rise at near end"), "the next link's field is its own")
	s.find("L02")
	require.Equal(t, "a bit", s.inField("Rise at near end"))
	require.True(t, s.sees("a number is missing"), "the reason stands under it")
	s.typeInto("Rise at near end", "1 m")
	s.press(fyne.KeyReturn)
	require.Equal(t, 1.0, s.link("L02").RiseFrom)
	require.False(t, s.sees("a number is missing"))
}

// sees reports whether some words stand in a label of the window.
func (s *screen) sees(words string) bool {
	for _, object := range test.LaidOutObjects(s.window.Content()) {
		if label, is := object.(*widget.Label); is && label.Visible() && strings.Contains(label.Text, words) {
			return true
		}
	}
	return false
}

func TestASaveTakesWhatIsBeingTyped(t *testing.T) {
	path := demoFile(t)
	s := open(t, "light", path)
	s.find("L02")
	s.typeInto("Link", "L02b")
	s.choose("Plan", "Save")
	saved, _, err := planfile.Open(path)
	require.NoError(t, err)
	names := map[string]bool{}
	for link := range saved.Links.All() {
		names[link.Name] = true
	}
	require.True(t, names["L02b"])
}

func TestWhatIsTypedIsKeptWhenTheNextLinkIsSelected(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.find("L02")
	s.typeInto("Most joins", "2")
	s.choose("Edit", "Next link")
	require.Equal(t, []string{"L03"}, s.state().Selection)
	require.Equal(t, 2, s.link("L02").MaxJoins)
	require.Zero(t, s.link("L03").MaxJoins)
}

func TestOneFieldOfTheCardChangesAllThatAreSelected(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.choose("Edit", "Select links", "AES50")
	s.choose("Edit", "Fields of the card")
	s.typeInto("Wanted margin", "2 dB")
	s.clickPlan()
	require.Contains(t, s.desk.NextUndo(), "links: wanted margin")
	for link := range s.desk.Plan().Links.All() {
		require.Equal(t, link.Transport == "aes50", link.WantedMargin == plan.Some(2), link.Name)
	}
}

func TestAFixIsDoneFromTheCardAndTakenBack(t *testing.T) {
	s := open(t, "light", demoFile(t))
	before := s.desk.Plan()
	s.find("L02")
	require.Equal(t, "tight", s.state().Links["L02"].Grade)
	for _, object := range test.LaidOutObjects(s.window.Content()) {
		if link, is := object.(interface {
			fyne.Focusable
			Tapped(*fyne.PointEvent)
		}); is && strings.Contains(textOf(object), "Fix: ") {
			link.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			break
		}
	}
	require.Equal(t, "enough", s.state().Links["L02"].Grade)
	require.Contains(t, s.desk.NextUndo(), "Fix: ")
	s.desk.Undo()
	require.True(t, plan.Equal(before, s.desk.Plan()))
}

func textOf(object fyne.CanvasObject) string {
	if link, is := object.(interface{ Words() string }); is {
		return link.Words()
	}
	return ""
}

func TestGroupsOfTheCardFoldByKey(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.find("L02")
	require.Contains(t, s.state().Selection, "L02")
	s.choose("Edit", "Fields of the card")
	for range 40 {
		if head, is := s.window.Canvas().Focused().(interface{ Group() string }); is && head.Group() == "Laying" {
			s.press(fyne.KeyReturn)
			break
		}
		s.window.Canvas().FocusNext()
	}
	require.Equal(t, "blue", s.inField("Tape colour"))
	s.press(fyne.KeyEscape)
	require.Contains(t, s.focus(), "planview.Editor")
}

func TestTheStudyOpensByItsKeyAndClosesByEscape(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.choose("Links", "Curves, reach and cures…")
	require.Contains(t, s.state().Notice, "Select one link")
	s.find("L02")
	s.press(fyne.KeyF8)
	require.Equal(t, 1, s.state().Overlays)
	s.tap("Close")
	require.Zero(t, s.state().Overlays)
}

func TestBlanksAboutANameAreTakenAway(t *testing.T) {
	for _, c := range []struct{ what, label, find, typed, want string }{
		{"of a device", "Device", "Riser box", "  Drum box ", "Drum box"},
		{"of a link", "Link", "L02", "\tMain 2  ", "Main 2"},
		{"of a position", "Position", "FOH tower", " FOH  ", "FOH"},
		{"of the same name nothing comes", "Device", "Riser box", " Riser box ", "Riser box"},
	} {
		t.Run(c.what, func(t *testing.T) {
			s := open(t, "light", demoFile(t))
			s.find(c.find)
			s.typeInto(c.label, c.typed)
			s.press(fyne.KeyReturn)
			require.Equal(t, []string{c.want}, s.state().Selection)
			require.Equal(t, c.want, s.inField(c.label), "the field shows what the plan holds")
			require.Equal(t, c.find != c.want, s.desk.Unsaved())
		})
	}
	t.Run("nothing but blanks is no name", func(t *testing.T) {
		s := open(t, "light", demoFile(t))
		s.find("Riser box")
		s.typeInto("Device", "   ")
		s.press(fyne.KeyReturn)
		require.False(t, s.desk.Unsaved())
		require.Equal(t, []string{"Riser box"}, s.state().Selection)
	})
}
