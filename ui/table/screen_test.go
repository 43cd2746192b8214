package table_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/plan"
	"stageloom/ui/look"
	"stageloom/ui/settings"
	"stageloom/ui/table"
)

// screen is a grid in a window of the test driver, on the input list of a desk.
type screen struct {
	*table.Grid
	t      *testing.T
	desk   *desk.Desk
	window fyne.Window
	said   string
	left   bool
	laid   settings.TableLook
	opened string
}

func newScreen(t *testing.T, names ...string) *screen {
	app := test.NewTempApp(t)
	app.Settings().SetTheme(look.NewTheme(look.PaletteNamed("light")))
	s := &screen{t: t, desk: deskWith(t, names...)}
	s.Grid = table.NewGrid(table.NewSheet(inputsOf(s.desk.Plan()), s.desk.Do))
	s.Say = func(text string) { s.said = text }
	s.Leave = func() { s.left = true; s.window.Canvas().Unfocus() }
	s.Laid = func(look settings.TableLook) { s.laid = look }
	s.Open = func(source table.Source, row int) { s.opened = source.RowName(row) }
	s.Chosen = func(refs []plan.Ref) {
		s.desk.Select(refs...)
		s.Settle(s.desk.Selection())
	}
	s.desk.Listen(func(e desk.Event) {
		if e.PlanChanged() {
			s.SetSource(inputsOf(e.New))
		}
		s.SetSelection(s.desk.Selection())
	})
	s.window = test.NewTempWindow(t, s.Grid)
	s.window.Resize(fyne.NewSize(520, 300))
	s.window.Canvas().Capture() // the toolkit finds the field in the column that stays once it has been painted
	s.Focus()
	return s
}

// press types keys into what has the focus.
func (s *screen) press(keys ...fyne.KeyName) {
	for _, key := range keys {
		s.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: key})
	}
}

// shifted types a key with Shift held.
func (s *screen) shifted(key fyne.KeyName) {
	keyable := s.window.Canvas().Focused().(desktop.Keyable)
	keyable.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	s.press(key)
	keyable.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
}

func (s *screen) write(text string) {
	for _, sign := range text {
		s.window.Canvas().Focused().TypedRune(sign)
	}
}

// shortcut types a key combination.
func (s *screen) shortcut(shortcut fyne.Shortcut) {
	s.window.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(shortcut)
}

func control(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault}
}

// at is the cursor's cell.
func (s *screen) at() [2]int {
	row, column := s.Sheet().Cursor()
	return [2]int{row, column}
}

func (s *screen) column(column int) (texts []string) {
	for row := range s.Sheet().Len() {
		texts = append(texts, s.Sheet().Cell(row, column).Text)
	}
	return texts
}

// field is the field being typed in, nil where none is.
func (s *screen) field() *widget.Entry {
	if field, ok := s.window.Canvas().Focused().(interface{ Inner() *widget.Entry }); ok {
		return field.Inner()
	}
	return nil
}

func count(texts []string, text string) (n int) {
	for _, each := range texts {
		if each == text {
			n++
		}
	}
	return n
}

// object finds what takes a press at a place of the window.
func (s *screen) object(at fyne.Position) (desktop.Mouseable, fyne.Position) {
	var best desktop.Mouseable
	var local fyne.Position
	var walk func(o fyne.CanvasObject, origin fyne.Position)
	walk = func(o fyne.CanvasObject, origin fyne.Position) {
		here := origin.Add(o.Position())
		inside := at.X >= here.X && at.Y >= here.Y && at.X < here.X+o.Size().Width && at.Y < here.Y+o.Size().Height
		if !o.Visible() {
			return
		}
		if target, ok := o.(desktop.Mouseable); ok && inside {
			best, local = target, at.Subtract(here)
		}
		switch o := o.(type) {
		case *fyne.Container:
			for _, child := range o.Objects {
				walk(child, here)
			}
		case fyne.Widget:
			for _, child := range test.WidgetRenderer(o).Objects() {
				walk(child, here)
			}
		}
	}
	walk(s.window.Content(), fyne.Position{})
	require.NotNil(s.t, best, "nothing at %v", at)
	return best, local
}
