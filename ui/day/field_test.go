package day_test

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/day"
	"stageloom/ui/look"
)

// field is a day view on a desk, in a window of its own.
type field struct {
	*day.View
	t      *testing.T
	desk   *desk.Desk
	window fyne.Window
	left   int
	keys   []fyne.KeyName
}

func onField(t *testing.T, p *plan.Plan, units words.Units) *field {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.NewTheme(look.PaletteNamed("dark")))
	f := &field{t: t, desk: desk.New(plan.NewIDSource(1, 2))}
	f.desk.NewPlan(p)
	f.View = day.New(f.desk.Assessment(), units)
	f.Do = f.desk.Do
	f.Undo = func() string {
		name := f.desk.NextUndo()
		f.desk.Undo()
		return name
	}
	f.Leave = func() { f.left++ }
	f.Key = func(name fyne.KeyName) { f.keys = append(f.keys, name) }
	f.Today = func() string { return "2031-06-18" }
	f.desk.Listen(func(e desk.Event) { f.Set(e.Assessment, units) })
	f.window = test.NewTempWindow(t, f.View)
	f.window.SetPadded(false)
	f.window.Resize(fyne.NewSize(1280, 770))
	f.window.Canvas().Focus(f.View)
	f.Begin("")
	return f
}

func (f *field) press(names ...fyne.KeyName) {
	for _, name := range names {
		f.TypedKey(&fyne.KeyEvent{Name: name})
	}
}

func (f *field) typed(text string) { test.Type(f.View, text) }

func (f *field) shown() plan.Link {
	link, _ := f.desk.Plan().Link(f.Link())
	return link
}

// texts are all words on the screen.
func (f *field) texts() (list []string) {
	for _, object := range test.WidgetRenderer(f.View).Objects() {
		if text, is := object.(*canvas.Text); is {
			list = append(list, text.Text)
		}
	}
	return list
}

func (f *field) sees(words string) bool {
	return strings.Contains(strings.Join(f.texts(), "\n"), words)
}

// tap presses where a text stands.
func (f *field) tap(words string) {
	f.t.Helper()
	for _, object := range test.WidgetRenderer(f.View).Objects() {
		if text, is := object.(*canvas.Text); is && text.Text == words {
			at := text.Position().AddXY(4, 4)
			f.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}})
			require.Equal(f.t, desktop.PointerCursor, f.Cursor())
			f.Tapped(&fyne.PointEvent{Position: at})
			return
		}
	}
	require.Failf(f.t, "no such words", "%q in %q", words, f.texts())
}

func (f *field) steps() int {
	_, at := f.desk.History()
	return at
}

// crowding names two texts that lie on each other, or one that leaves the view; blank where none does.
func (f *field) crowding(size fyne.Size) string {
	var texts []*canvas.Text
	for _, object := range test.WidgetRenderer(f.View).Objects() {
		text, is := object.(*canvas.Text)
		if !is {
			continue
		}
		at, wide := text.Position(), text.MinSize()
		if at.X < -1 || at.Y < -1 || at.X+wide.Width > size.Width+1 || at.Y+wide.Height > size.Height+1 {
			return fmt.Sprintf("%q leaves the view", text.Text)
		}
		for _, other := range texts {
			its := other.MinSize()
			across := min(at.X+wide.Width, other.Position().X+its.Width) - max(at.X, other.Position().X)
			down := min(at.Y+wide.Height, other.Position().Y+its.Height) - max(at.Y, other.Position().Y)
			if across > 2 && down > 0.3*min(wide.Height, its.Height) {
				return fmt.Sprintf("%q lies on %q", text.Text, other.Text)
			}
		}
		texts = append(texts, text)
	}
	return ""
}
