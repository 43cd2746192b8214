package strip

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/model/raster"
	"stageloom/ui/look"
)

// Margins shows every graded link by its margin, the least first, while no link is selected.
type Margins struct {
	widget.BaseWidget

	// Chosen is called with the link whose bar is pressed, or that Enter is pressed on. Key takes the keys that are none of
	// the bars', and Leave gives the focus back. All may be nil.
	Chosen func(plan.LinkID)
	Key    func(fyne.KeyName)
	Leave  func()

	bars    []Bar
	layout  *MarginsLayout
	pointed int
	focused bool
	raster  *canvas.Raster
	frame   *image.RGBA
}

// What the margins are to fyne, pinned.
var (
	_ desktop.Hoverable = (*Margins)(nil)
	_ fyne.Tappable     = (*Margins)(nil)
	_ fyne.Focusable    = (*Margins)(nil)
)

// NewMargins returns the margins of nothing.
func NewMargins() *Margins {
	m := &Margins{pointed: -1}
	m.raster = canvas.NewRaster(m.paint)
	m.ExtendBaseWidget(m)
	return m
}

// Set shows other margins.
func (m *Margins) Set(bars []Bar) {
	m.bars, m.layout = bars, nil
	if m.pointed >= len(bars) {
		m.pointed = -1
	}
	m.Refresh()
}

// Bars are those that are shown.
func (m *Margins) Bars() []Bar { return m.bars }

// Resize implements fyne.Widget.
func (m *Margins) Resize(size fyne.Size) {
	m.layout = nil
	m.BaseWidget.Resize(size)
}

// LaidOut is the layout for the size of this moment.
func (m *Margins) LaidOut() *MarginsLayout {
	if m.layout == nil {
		m.layout = LayOutMargins(m.bars, float64(m.Size().Width), float64(m.Size().Height))
	}
	return m.layout
}

func (m *Margins) paint(w, h int) image.Image {
	if m.frame == nil || m.frame.Rect.Dx() != w || m.frame.Rect.Dy() != h {
		m.frame = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	size := m.Size()
	if size.Width < 1 || size.Height < 1 {
		return m.frame
	}
	palette := look.PaletteOf(m.Theme())
	drawing := raster.NewDrawing(float64(w) / float64(size.Width))
	drawing.RoundBox(raster.Box{Right: float64(size.Width) + 1, Bottom: float64(size.Height) + 1}, 0, palette.Panel, raster.Stroke{})
	m.LaidOut().Draw(drawing, palette, m.pointed)
	if m.focused {
		drawing.RoundBox(raster.Box{Left: 1, Top: 1, Right: float64(size.Width) - 1, Bottom: float64(size.Height) - 1}, 0, color.NRGBA{}, raster.Stroke{Width: 1, Colour: palette.Selection})
	}
	drawing.Paint(m.frame)
	return m.frame
}

func (m *Margins) point(index int) {
	if index != m.pointed {
		m.pointed = index
		m.raster.Refresh()
	}
}

func (m *Margins) pointAt(at fyne.Position) {
	if index, some := m.LaidOut().BarAt(pointOf(at)); some {
		m.point(index)
		return
	}
	m.point(-1)
}

// MouseIn implements desktop.Hoverable.
func (m *Margins) MouseIn(e *desktop.MouseEvent) { m.pointAt(e.Position) }

// MouseMoved implements desktop.Hoverable.
func (m *Margins) MouseMoved(e *desktop.MouseEvent) { m.pointAt(e.Position) }

// MouseOut implements desktop.Hoverable.
func (m *Margins) MouseOut() {
	if !m.focused {
		m.point(-1)
	}
}

// Tapped chooses the link under the pointer.
func (m *Margins) Tapped(e *fyne.PointEvent) {
	m.pointAt(e.Position)
	m.choose()
}

func (m *Margins) choose() {
	if bars := m.LaidOut().Bars; m.pointed >= 0 && m.pointed < len(bars) && m.Chosen != nil {
		m.Chosen(bars[m.pointed].Link)
	}
}

// FocusGained implements fyne.Focusable.
func (m *Margins) FocusGained() {
	m.focused = true
	m.raster.Refresh()
}

// FocusLost implements fyne.Focusable.
func (m *Margins) FocusLost() {
	m.focused = false
	m.raster.Refresh()
}

// TypedRune implements fyne.Focusable.
func (m *Margins) TypedRune(rune) {}

// TypedKey goes from bar to bar, and chooses one.
func (m *Margins) TypedKey(e *fyne.KeyEvent) {
	last := len(m.LaidOut().Bars) - 1
	switch e.Name {
	case fyne.KeyLeft:
		m.point(max(0, m.pointed-1))
	case fyne.KeyRight:
		m.point(min(last, m.pointed+1))
	case fyne.KeyHome:
		m.point(min(0, last))
	case fyne.KeyEnd:
		m.point(last)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		m.choose()
	case fyne.KeyEscape:
		if m.Leave != nil {
			m.Leave()
		}
	default:
		if m.Key != nil {
			m.Key(e.Name)
		}
	}
}

// MinSize implements fyne.Widget.
func (m *Margins) MinSize() fyne.Size { return fyne.NewSize(320, 96) }

// CreateRenderer implements fyne.Widget.
func (m *Margins) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(m.raster) }
