package strip

import (
	"image"
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/raster"
	"stageloom/ui/look"
	"stageloom/ui/pointer"
)

// Strip is the run strip as a widget. The part under the pointer is told in full beside the title.
type Strip struct {
	widget.BaseWidget

	// Do makes a change. Try says in words what one would come to, and is asked for none when that ends. Menu and
	// Couplers offer what else can be done to the cable of an order, and the couplers before it, at a place of the
	// window; Choose asks which cable a change lays, and Open does so after a double click; Leave gives the focus back.
	// All may be nil.
	Do       func(Change)
	Try      func(Change) string
	Menu     func(order int, at fyne.Position)
	Couplers func(order int, at fyne.Position)
	Choose   func(Change)
	Open     func(Change)
	Leave    func()
	// Key takes the keys that are none of the strip, such as the function keys.
	Key func(fyne.KeyName)
	// Now is the clock that tells two presses from a double click.
	Now func() time.Time

	run     Run
	layout  *Layout
	pointed int
	hold    Hold
	told    string
	focused bool
	at      fyne.Position // of the pointer
	menuAt  fyne.Position // of the last press, in the window
	twice   pointer.Twice
	second  int // the order of the cable pressed for the second time, 0 for none
	raster  *canvas.Raster
	frame   *image.RGBA
}

var _ desktop.Hoverable = (*Strip)(nil)

// New returns a strip of a run.
func New(run Run) *Strip {
	s := &Strip{run: run, pointed: -1, Now: time.Now}
	s.raster = canvas.NewRaster(s.paint)
	s.ExtendBaseWidget(s)
	return s
}

// Set shows another run.
func (s *Strip) Set(run Run) {
	if run.Title != s.run.Title {
		s.hold, s.told = Hold{}, ""
	}
	s.run, s.layout, s.pointed = run, nil, -1
	s.Refresh()
}

// Chosen is the order of the cable that is chosen, 0 for none.
func (s *Strip) Chosen() int { return s.hold.Order }

// Run is the run that is shown.
func (s *Strip) Run() Run { return s.run }

// Resize implements fyne.Widget.
func (s *Strip) Resize(size fyne.Size) {
	s.layout = nil
	s.BaseWidget.Resize(size)
}

// laidOut returns the layout for the size of this moment.
func (s *Strip) laidOut() *Layout {
	if s.layout == nil {
		size := s.Size()
		s.layout = LayOut(s.run, float64(size.Width), float64(size.Height))
	}
	return s.layout
}

// paint paints the strip; it runs on the goroutine of the user interface.
func (s *Strip) paint(w, h int) image.Image {
	if s.frame == nil || s.frame.Rect.Dx() != w || s.frame.Rect.Dy() != h {
		s.frame = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	size := s.Size()
	if size.Width < 1 || size.Height < 1 {
		return s.frame
	}
	palette := look.PaletteOf(s.Theme())
	drawing := raster.NewDrawing(float64(w) / float64(size.Width))
	drawing.RoundBox(raster.Box{Right: float64(size.Width) + 1, Bottom: float64(size.Height) + 1}, 0, palette.Panel, raster.Stroke{})
	s.laidOut().drawHeld(drawing, palette, s.pointed, s.hold, s.told)
	if s.focused {
		drawing.RoundBox(raster.Box{Left: 1, Top: 1, Right: float64(size.Width) - 1, Bottom: float64(size.Height) - 1}, 0, color.NRGBA{}, raster.Stroke{Width: 2, Colour: palette.Selection})
	}
	drawing.Paint(s.frame)
	return s.frame
}

// point tells of the part at a place.
func (s *Strip) point(at fyne.Position) {
	s.at = at
	pointed := -1
	if index, some := s.laidOut().PartAt(raster.Point{X: float64(at.X), Y: float64(at.Y)}); some {
		pointed = index
	}
	if pointed != s.pointed {
		s.pointed = pointed
		s.raster.Refresh()
	}
}

// MouseIn implements desktop.Hoverable.
func (s *Strip) MouseIn(e *desktop.MouseEvent) { s.point(e.Position) }

// MouseMoved implements desktop.Hoverable.
func (s *Strip) MouseMoved(e *desktop.MouseEvent) { s.point(e.Position) }

// MouseOut implements desktop.Hoverable.
func (s *Strip) MouseOut() { s.point(fyne.NewPos(-100, -100)) }

// MinSize implements fyne.Widget.
func (s *Strip) MinSize() fyne.Size { return fyne.NewSize(320, 96) }

// CreateRenderer implements fyne.Widget.
func (s *Strip) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.raster) }
