package chart

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/raster"
	"stageloom/ui/look"
	"stageloom/ui/pointer"
)

// Chart is the chart as a widget. The pointer over it reads the curves out.
type Chart struct {
	widget.BaseWidget

	// Tips tells what the names in the key mean; nil tells nothing.
	Tips *pointer.Tips

	curves   Curves
	hoverMHz float64 // 0 while the pointer is elsewhere
	raster   *canvas.Raster
	frame    *image.RGBA
}

var _ desktop.Hoverable = (*Chart)(nil)

// New returns a chart of curves.
func New(curves Curves) *Chart {
	c := &Chart{curves: curves}
	c.raster = canvas.NewRaster(c.paint)
	c.ExtendBaseWidget(c)
	return c
}

// Set shows other curves.
func (c *Chart) Set(curves Curves) {
	c.curves = curves
	c.Refresh()
}

// paint paints the chart; it runs on the goroutine of the user interface.
func (c *Chart) paint(w, h int) image.Image {
	if c.frame == nil || c.frame.Rect.Dx() != w || c.frame.Rect.Dy() != h {
		c.frame = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	size := c.Size()
	if size.Width < 1 || size.Height < 1 {
		return c.frame
	}
	palette := look.PaletteOf(c.Theme())
	drawing := raster.NewDrawing(float64(w) / float64(size.Width))
	width, height := float64(size.Width), float64(size.Height)
	drawing.RoundBox(raster.Box{Right: width + 1, Bottom: height + 1}, 0, palette.Panel, raster.Stroke{})
	c.curves.Draw(drawing, width, height, palette, c.hoverMHz)
	drawing.Paint(c.frame)
	return c.frame
}

// hover reads the curves out at a place, or nowhere beside the plot.
func (c *Chart) hover(at fyne.Position) {
	size := c.Size()
	p := plotOf(c.curves, float64(size.Width), float64(size.Height))
	freqMHz := 0.0
	if p.box.Outset(3).Contains(raster.Point{X: float64(at.X), Y: float64(at.Y)}) {
		freqMHz = p.frequencyAt(float64(at.X))
	}
	if freqMHz != c.hoverMHz {
		c.hoverMHz = freqMHz
		c.raster.Refresh()
	}
}

// MouseIn implements desktop.Hoverable.
func (c *Chart) MouseIn(e *desktop.MouseEvent) { c.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (c *Chart) MouseMoved(e *desktop.MouseEvent) {
	c.hover(e.Position)
	at := raster.Point{X: float64(e.Position.X), Y: float64(e.Position.Y)}
	words := c.curves.Explain(at, float64(c.Size().Width), float64(c.Size().Height))
	if words == "" {
		c.Tips.Out()
		return
	}
	c.Tips.Over(words, e.AbsolutePosition, func() string { return words })
}

// MouseOut implements desktop.Hoverable.
func (c *Chart) MouseOut() {
	c.hover(fyne.NewPos(-1, -1))
	c.Tips.Out()
}

// MinSize implements fyne.Widget.
func (c *Chart) MinSize() fyne.Size { return fyne.NewSize(180, 170) }

// CreateRenderer implements fyne.Widget.
func (c *Chart) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(c.raster) }
