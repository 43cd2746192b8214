package pointer

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// Sign names what the pointer carries. Its layer lies on top of a window's content and holds plain shapes, which never take
// the pointer.
type Sign struct {
	// Layer is put on top, in a stack.
	Layer *fyne.Container

	box  *canvas.Rectangle
	name *canvas.Text
}

// NewSign returns a sign that is not shown yet.
func NewSign() *Sign {
	s := &Sign{box: canvas.NewRectangle(nil), name: canvas.NewText("", nil)}
	s.box.CornerRadius, s.box.StrokeWidth = 5, 2
	s.name.TextStyle.Bold, s.name.Alignment = true, fyne.TextAlignCenter
	s.Layer = container.NewWithoutLayout(s.box, s.name)
	s.Hide()
	return s
}

// Hide takes the sign away.
func (s *Sign) Hide() {
	s.box.Hide()
	s.name.Hide()
	s.Layer.Refresh()
}

// Show shows words centred on a place of the window.
func (s *Sign) Show(words string, at fyne.Position) {
	s.box.FillColor, s.box.StrokeColor = theme.Color(theme.ColorNameBackground), theme.Color(theme.ColorNamePrimary)
	s.name.Text, s.name.Color, s.name.TextSize = words, theme.Color(theme.ColorNameForeground), theme.TextSize()
	least := s.name.MinSize()
	size := fyne.NewSize(least.Width+20, least.Height+14)
	corner := at.Subtract(fyne.NewPos(size.Width/2, size.Height/2))
	s.box.Resize(size)
	s.box.Move(corner)
	s.name.Resize(size)
	s.name.Move(corner)
	s.box.Show()
	s.name.Show()
	s.Layer.Refresh()
}

// aboveHand is how far above the pointer a sign stands that leaves in sight what it is aimed at.
const aboveHand = 30

// ShowAbove is Show above the pointer, so that what it is aimed at stays in sight.
func (s *Sign) ShowAbove(words string, at fyne.Position) {
	s.Show(words, at.Subtract(fyne.NewPos(0, aboveHand)))
}

// Words are what the sign says; they are blank while it is not shown.
func (s *Sign) Words() string {
	if !s.box.Visible() {
		return ""
	}
	return s.name.Text
}
