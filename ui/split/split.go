package split

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Widths in units of the screen: the line, the line while a pointer is on it, and the zone that takes hold of it.
const (
	hairline = 1
	held     = 2
	grab     = 8
)

// Split shows two things beside each other, or one above the other.
type Split struct {
	widget.BaseWidget

	// Leading is left or above, Trailing right or below.
	Leading, Trailing fyne.CanvasObject
	// Offset is the share of the room that Leading has, 0 to 1; neither gets less than it needs.
	Offset float64

	across  bool
	divider *divider
}

// Across parts left from right.
func Across(leading, trailing fyne.CanvasObject) *Split { return newSplit(true, leading, trailing) }

// Down parts above from below.
func Down(leading, trailing fyne.CanvasObject) *Split { return newSplit(false, leading, trailing) }

func newSplit(across bool, leading, trailing fyne.CanvasObject) *Split {
	s := &Split{Leading: leading, Trailing: trailing, Offset: 0.5, across: across}
	s.divider = newDivider(s)
	s.ExtendBaseWidget(s)
	return s
}

// Inside is what it holds, for whoever looks for something in it.
func (s *Split) Inside() []fyne.CanvasObject { return []fyne.CanvasObject{s.Leading, s.Trailing} }

// SetOffset gives Leading another share.
func (s *Split) SetOffset(offset float64) {
	s.Offset = min(1, max(0, offset))
	s.Refresh()
}

// along is the size that is shared out, and across the other.
func (s *Split) along(size fyne.Size) float32 {
	if s.across {
		return size.Width
	}
	return size.Height
}

// sized is a size of so much along and so much across.
func (s *Split) sized(along, across float32) fyne.Size {
	if s.across {
		return fyne.NewSize(along, across)
	}
	return fyne.NewSize(across, along)
}

func (s *Split) placed(along float32) fyne.Position {
	if s.across {
		return fyne.NewPos(along, 0)
	}
	return fyne.NewPos(0, along)
}

// share is how much Leading gets of a length, with the least of both kept.
func (s *Split) share(length float32) float32 {
	first, last := s.needs(s.Leading), s.needs(s.Trailing)
	if first+last > length {
		return length * first / max(1, first+last)
	}
	return min(length-last, max(first, length*float32(s.Offset)))
}

func (s *Split) needs(object fyne.CanvasObject) float32 {
	if !object.Visible() {
		return 0
	}
	return s.along(object.MinSize())
}

// CreateRenderer implements fyne.Widget.
func (s *Split) CreateRenderer() fyne.WidgetRenderer { return &renderer{s} }

type renderer struct{ split *Split }

func (r *renderer) Destroy() {}

func (r *renderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.split.Leading, r.split.Trailing, r.split.divider}
}

func (r *renderer) MinSize() fyne.Size {
	s := r.split
	first, last := s.Leading.MinSize(), s.Trailing.MinSize()
	if s.across {
		return fyne.NewSize(s.needs(s.Leading)+s.needs(s.Trailing)+hairline, max(first.Height, last.Height))
	}
	return fyne.NewSize(max(first.Width, last.Width), s.needs(s.Leading)+s.needs(s.Trailing)+hairline)
}

func (r *renderer) Layout(size fyne.Size) {
	s := r.split
	across := size.Height
	if !s.across {
		across = size.Width
	}
	if !s.Leading.Visible() || !s.Trailing.Visible() {
		s.divider.Hide()
		for _, object := range []fyne.CanvasObject{s.Leading, s.Trailing} {
			object.Move(fyne.NewPos(0, 0))
			object.Resize(size)
		}
		return
	}
	s.divider.Show()
	length := s.along(size) - hairline
	first := s.share(length)
	s.Leading.Move(fyne.NewPos(0, 0))
	s.Leading.Resize(s.sized(first, across))
	s.Trailing.Move(s.placed(first + hairline))
	s.Trailing.Resize(s.sized(length-first, across))
	s.divider.Move(s.placed(first + hairline/2 - grab/2))
	s.divider.Resize(s.sized(grab, across))
}

func (r *renderer) Refresh() {
	r.Layout(r.split.Size())
	r.split.Leading.Refresh()
	r.split.Trailing.Refresh()
	r.split.divider.Refresh()
	canvas.Refresh(r.split)
}

// divider is the line between, in a zone that a pointer takes hold of.
type divider struct {
	widget.BaseWidget
	split   *Split
	line    *canvas.Rectangle
	hovered bool
	pulled  bool
}

var (
	_ desktop.Hoverable  = (*divider)(nil)
	_ desktop.Cursorable = (*divider)(nil)
	_ fyne.Draggable     = (*divider)(nil)
)

func newDivider(s *Split) *divider {
	d := &divider{split: s, line: canvas.NewRectangle(nil)}
	d.ExtendBaseWidget(d)
	return d
}

// Dragged moves the line with the pointer.
func (d *divider) Dragged(e *fyne.DragEvent) {
	d.pulled = true
	length := d.split.along(d.split.Size()) - hairline
	if length <= 0 {
		return
	}
	moved := e.Dragged.DX
	if !d.split.across {
		moved = e.Dragged.DY
	}
	d.split.SetOffset(float64((d.split.share(length) + moved) / length))
}

// DragEnd implements fyne.Draggable.
func (d *divider) DragEnd() {
	d.pulled = false
	d.Refresh()
}

// MouseIn implements desktop.Hoverable.
func (d *divider) MouseIn(*desktop.MouseEvent) {
	d.hovered = true
	d.Refresh()
}

// MouseMoved implements desktop.Hoverable.
func (d *divider) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (d *divider) MouseOut() {
	d.hovered = false
	d.Refresh()
}

// Cursor implements desktop.Cursorable.
func (d *divider) Cursor() desktop.Cursor {
	if d.split.across {
		return desktop.HResizeCursor
	}
	return desktop.VResizeCursor
}

// CreateRenderer implements fyne.Widget.
func (d *divider) CreateRenderer() fyne.WidgetRenderer {
	d.ink()
	return &dividerRenderer{d}
}

// ink gives the line its colour: the toolkit may paint it before it refreshes it.
func (d *divider) ink() {
	name := theme.ColorNameSeparator
	if d.hovered || d.pulled {
		name = theme.ColorNamePrimary
	}
	d.line.FillColor = d.Theme().Color(name, fyne.CurrentApp().Settings().ThemeVariant())
}

type dividerRenderer struct{ divider *divider }

func (r *dividerRenderer) Destroy()                     {}
func (r *dividerRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.divider.line} }
func (r *dividerRenderer) MinSize() fyne.Size           { return r.divider.split.sized(grab, grab) }

func (r *dividerRenderer) Layout(size fyne.Size) {
	d := r.divider
	width := float32(hairline)
	if d.hovered || d.pulled {
		width = held
	}
	if d.split.across {
		d.line.Move(fyne.NewPos((size.Width-width)/2, 0))
		d.line.Resize(fyne.NewSize(width, size.Height))
		return
	}
	d.line.Move(fyne.NewPos(0, (size.Height-width)/2))
	d.line.Resize(fyne.NewSize(size.Width, width))
}

func (r *dividerRenderer) Refresh() {
	d := r.divider
	d.ink()
	r.Layout(d.Size())
	canvas.Refresh(d)
}
