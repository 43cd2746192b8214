package ui_test

import (
	"encoding/json"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/desk"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/ui"
	"stageloom/ui/settings"
	"stageloom/ui/table/sources"
)

// openTable is what the answers say of the table that is open.
type openTable struct {
	Name, Row, Column, Text, Trouble string
	Rows, Selected                   int
}

func (s *screen) table() openTable {
	s.t.Helper()
	var answer struct{ Table openTable }
	require.NoError(s.t, json.Unmarshal(s.questions.Answer([]byte(`{"ask":"state"}`)), &answer))
	return answer.Table
}

// typed types words and keys into what has the focus.
func (s *screen) typed(words string, keys ...fyne.KeyName) {
	for _, sign := range words {
		s.window.Canvas().Focused().TypedRune(sign)
	}
	for _, key := range keys {
		s.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: key})
	}
}

// openTables is the demo with a table open, painted once.
func openTables(t *testing.T, title string) *screen {
	s := open(t, settings.Light, demoFile(t))
	s.window.Resize(fyne.NewSize(1280, 800))
	s.choose("Tables", title)
	s.window.Canvas().Capture()
	return s
}

func TestEachTableOpensByItsMenuAndShutsTheSecondTime(t *testing.T) {
	s := openTables(t, "Links")
	for title, name := range map[string]string{"Cables": "cables", "House lines": "house lines", "Findings": "findings"} {
		s.choose("Tables", title)
		require.Equal(t, name, s.table().Name)
		require.Equal(t, name, settings.New(s.app.Preferences()).OpenTable())
		s.choose("Tables", title)
		require.Empty(t, s.table().Name)
	}
}

func TestTheTableThatWasOpenOpensAgain(t *testing.T) {
	s := openTables(t, "Devices")
	window, questions := ui.Open(s.app, desk.New(plan.NewIDSource(5, 6)), house.Open(s.folder))
	again := &screen{t: t, app: s.app, window: window, questions: questions}
	require.Equal(t, "devices", again.table().Name)
	require.Empty(t, again.table().Row, "the plan is empty")
}

func TestTableAndPlanSelectTogether(t *testing.T) {
	s := openTables(t, "Links")
	s.typed("", fyne.KeyDown)
	require.Equal(t, []string{"L02"}, s.state().Selection)
	for link := range s.desk.Plan().Links.All() {
		if link.Name == "L20" {
			s.desk.Select(plan.RefOf(link))
		}
	}
	require.Equal(t, "L20", s.table().Row)
	require.Equal(t, 1, s.table().Selected)
	s.choose("Tables", "Cables")
	require.Equal(t, []string{"L20"}, s.state().Selection, "opening another table selects nothing else")
}

func TestCommandsGoToTheTableTheFieldOrThePlan(t *testing.T) {
	s := openTables(t, "Links")
	s.typed("Main", fyne.KeyReturn)
	require.Equal(t, "Link of L01", s.desk.NextUndo())
	s.choose("Edit", "Undo "+s.desk.NextUndo())
	require.Empty(t, s.desk.NextUndo(), "on the cells, undo is the plan's")
	s.typed("half")
	s.choose("Edit", "Redo "+s.desk.NextRedo())
	require.Equal(t, "Link of L01", s.desk.NextRedo(), "in a field, redo is the field's")
	s.typed("", fyne.KeyEscape)
	s.choose("Edit", "Select all devices")
	require.Equal(t, s.table().Rows, s.table().Selected, "on the cells, all rows are selected")
	s.choose("Edit", "Copy")
	require.Contains(t, s.state().Notice, "links copied")
	s.typed("", fyne.KeyEscape)
	s.choose("Edit", "Select all devices")
	require.Len(t, s.state().Selection, s.desk.Plan().Devices.Len(), "on the plan, all devices are")
}

func TestWhatIsTypedIsKeptBeforeThePlanIsSaved(t *testing.T) {
	s := openTables(t, "Stock")
	s.typed("Z9")
	s.choose("Plan", "Save")
	require.Equal(t, 1, countReels(s, "Z9"))
	require.False(t, s.desk.Unsaved())
	s.typed("", fyne.KeyRight, fyne.KeyRight)
	require.Equal(t, "Length", s.table().Column)
	s.typed("far", fyne.KeyReturn)
	require.Contains(t, s.table().Trouble, "Length")
	s.choose("Plan", "Save")
	require.Contains(t, s.table().Trouble, "Length", "what cannot be read stays where it is")
}

func countReels(s *screen, tag string) (n int) {
	for reel := range s.desk.Plan().Reels.All() {
		if reel.Tag == tag {
			n++
		}
	}
	return n
}

func TestFeetShowInTheOpenTableAtOnce(t *testing.T) {
	s := openTables(t, "Stock")
	s.typed("", fyne.KeyRight, fyne.KeyRight)
	require.Contains(t, s.table().Text, " m")
	s.choose("View", "Lengths", settings.Feet)
	require.Contains(t, s.table().Text, " ft")
}

func TestEnterOnAFindingShowsItsPlaceOnThePlan(t *testing.T) {
	s := openTables(t, "Findings")
	s.typed("", fyne.KeyReturn)
	require.Equal(t, "L03", s.state().Selection[0], "the worst finding of the demo")
}

// A head that is cut is read by nobody: each stands whole in the width that its column begins with.
func TestHeadsOfColumnsStandWhole(t *testing.T) {
	open(t, settings.Light)
	a := assess.Of(demo.Weekender())
	for _, each := range sources.All() {
		for _, column := range each.Of(a, sources.View{}).Columns() {
			head := fyne.MeasureText(column.Title, theme.TextSize(), fyne.TextStyle{Bold: true}).Width
			require.LessOrEqual(t, head+12, column.Width, "%s, %s", each.Name, column.Title)
		}
	}
}

// At the least size of the window twelve rows are seen beside the plan, with all columns of the findings, and the foot is a line
// until somebody asks for it.
func TestATableHasItsRowsAndTheFootIsALine(t *testing.T) {
	s := openTables(t, "Findings")
	heads := map[string]float32{}
	rows := map[float32]bool{}
	var right, bottom float32
	var walk func(o fyne.CanvasObject, at fyne.Position)
	walk = func(o fyne.CanvasObject, at fyne.Position) {
		if !o.Visible() {
			return
		}
		at = at.Add(o.Position())
		if body, is := o.(interface{ Rows() *widget.Table }); is {
			right, bottom = at.X+body.Rows().Size().Width, at.Y+body.Rows().Size().Height
		}
		if text, is := o.(*canvas.Text); is && slices.Contains([]string{"stop", "warn", "note"}, text.Text) {
			rows[at.Y] = true
		} else if is {
			heads[text.Text] = at.X + text.MinSize().Width
		}
		switch o := o.(type) {
		case *fyne.Container:
			for _, child := range o.Objects {
				walk(child, at)
			}
		case fyne.Widget:
			for _, child := range test.WidgetRenderer(o).Objects() {
				walk(child, at)
			}
		}
	}
	walk(s.window.Content(), fyne.Position{})
	require.LessOrEqual(t, heads["Fix"], right, "the last column is on screen")
	require.NotZero(t, heads["Fix"])
	var first float32
	for y := range rows {
		if first == 0 || y < first {
			first = y
		}
	}
	require.GreaterOrEqual(t, (bottom-first)/25, float32(12), "rows of 25 below the headings")
	require.Contains(t, heads, "Margins of 20 links, the least L03 −2.0 dB   F6")
	s.typed("", fyne.KeyF6)
	heads = map[string]float32{}
	walk(s.window.Content(), fyne.Position{})
	require.NotContains(t, heads, "Margins of 20 links, the least L03 −2.0 dB   F6")
	s.choose("Tables", "Over the whole middle   F11")
	rows = map[float32]bool{}
	walk(s.window.Content(), fyne.Position{})
	require.GreaterOrEqual(t, (bottom-first)/25, float32(12))
	s.choose("Tables", "Close the tables")
	require.Empty(t, s.table().Name)
}
