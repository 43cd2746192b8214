package drawer

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/pointer"
)

const (
	// tabBeside is the room at both sides of the words, tabHeight that of the line of tabs.
	tabBeside = 6
	tabHeight = 28
	underline = 2
)

// tab names a table: muted, bold and underlined while that is open. A double click is the second press on it.
type tab struct {
	widget.BaseWidget
	words string
	open  bool
	// press is told a press, and whether it is the second of a double click.
	press func(second bool)

	twice   pointer.Twice
	hovered bool
	focused bool
}

var (
	_ fyne.Tappable     = (*tab)(nil)
	_ fyne.Focusable    = (*tab)(nil)
	_ desktop.Hoverable = (*tab)(nil)
)

func newTab(words string, press func(second bool)) *tab {
	t := &tab{words: words, press: press}
	t.ExtendBaseWidget(t)
	return t
}

// Words are what it says, for tests.
func (t *tab) Words() string { return t.words }

// Tapped implements fyne.Tappable.
func (t *tab) Tapped(event *fyne.PointEvent) { t.press(t.twice.Press(event.Position, time.Now())) }

// TypedKey implements fyne.Focusable.
func (t *tab) TypedKey(event *fyne.KeyEvent) {
	switch event.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		t.press(false)
	}
}

// TypedRune implements fyne.Focusable.
func (t *tab) TypedRune(rune) {}

// FocusGained implements fyne.Focusable.
func (t *tab) FocusGained() { t.focused = true; t.Refresh() }

// FocusLost implements fyne.Focusable.
func (t *tab) FocusLost() { t.focused = false; t.Refresh() }

// MouseIn implements desktop.Hoverable.
func (t *tab) MouseIn(*desktop.MouseEvent) { t.hovered = true; t.Refresh() }

// MouseMoved implements desktop.Hoverable.
func (t *tab) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (t *tab) MouseOut() { t.hovered = false; t.Refresh() }

// CreateRenderer implements fyne.Widget.
func (t *tab) CreateRenderer() fyne.WidgetRenderer {
	r := &tabRenderer{tab: t, text: canvas.NewText(t.words, color.Transparent), line: canvas.NewRectangle(color.Transparent), edge: canvas.NewRectangle(color.Transparent)}
	r.dress()
	return r
}

type tabRenderer struct {
	tab        *tab
	text       *canvas.Text
	line, edge *canvas.Rectangle
}

// Destroy implements fyne.WidgetRenderer.
func (r *tabRenderer) Destroy() {}

// Objects implements fyne.WidgetRenderer.
func (r *tabRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.edge, r.text, r.line}
}

// MinSize implements fyne.WidgetRenderer: as wide as its bold words, so that none moves when another is opened.
func (r *tabRenderer) MinSize() fyne.Size {
	bold := fyne.MeasureText(r.tab.words, theme.TextSize(), fyne.TextStyle{Bold: true})
	return fyne.NewSize(bold.Width+2*tabBeside, max(tabHeight, bold.Height))
}

// Layout implements fyne.WidgetRenderer.
func (r *tabRenderer) Layout(size fyne.Size) {
	least := r.text.MinSize()
	r.text.Move(fyne.NewPos((size.Width-least.Width)/2, (size.Height-underline-least.Height)/2))
	r.text.Resize(least)
	r.line.Move(fyne.NewPos(tabBeside, size.Height-underline))
	r.line.Resize(fyne.NewSize(size.Width-2*tabBeside, underline))
	r.edge.Resize(size)
}

// dress gives it the colours of the look and of what it is now.
func (r *tabRenderer) dress() {
	t := r.tab
	colour := func(name fyne.ThemeColorName) color.Color {
		return t.Theme().Color(name, fyne.CurrentApp().Settings().ThemeVariant())
	}
	r.text.TextSize, r.text.TextStyle.Bold = theme.TextSize(), t.open
	r.text.Color, r.line.FillColor = colour(theme.ColorNamePlaceHolder), color.Transparent
	if t.hovered || t.open {
		r.text.Color = colour(theme.ColorNameForeground)
	}
	if t.open {
		r.line.FillColor = colour(theme.ColorNamePrimary)
	}
	r.edge.StrokeColor, r.edge.StrokeWidth, r.edge.CornerRadius = color.Transparent, 0, theme.InputRadiusSize()
	if t.focused {
		r.edge.StrokeColor, r.edge.StrokeWidth = colour(theme.ColorNamePrimary), 1
	}
}

// Refresh implements fyne.WidgetRenderer.
func (r *tabRenderer) Refresh() {
	r.dress()
	r.Layout(r.tab.Size())
	canvas.Refresh(r.tab)
}
