package day

import (
	"image"
	"image/color"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"

	"stageloom/model/budget"
	"stageloom/model/picture"
	"stageloom/model/raster"
	"stageloom/ui/look"
)

// Black on white is what can be read in the sun, whatever the look of the window.
var ink, ground = color.NRGBA{A: 255}, color.NRGBA{R: 255, G: 255, B: 255, A: 255}

// The size for which sizes are given; in another window everything grows or shrinks with it.
const fullWidth, fullHeight = 1240, 744

// Sizes of type in the full window: a link's name, what is large, what is middling, and all else.
const (
	hugeType   = 66
	largeType  = 46
	middleType = 31
	bodyType   = 25
)

// spot is a place that a tap does something at.
type spot struct {
	at   fyne.Position
	size fyne.Size
	do   func()
}

// sketch puts words and boxes on the view. Lengths are in units of the full window.
type sketch struct {
	view    *View
	scale   float32
	w, h    float32 // of the view, in units
	objects []fyne.CanvasObject
	spots   []spot
}

func newSketch(v *View, size fyne.Size) *sketch {
	scale := max(0.2, min(size.Width/fullWidth, size.Height/fullHeight))
	s := &sketch{view: v, scale: scale, w: size.Width / scale, h: size.Height / scale}
	s.box(0, 0, s.w, s.h, ground, 0)
	return s
}

// font is a size and weight of type.
type font struct {
	size float32
	bold bool
}

func (s *sketch) points(f font) float32 { return max(6, float32(math.Round(float64(f.size*s.scale)))) }

func (s *sketch) width(text string, f font) float32 {
	return fyne.MeasureText(text, s.points(f), fyne.TextStyle{Bold: f.bold}).Width / s.scale
}

func (s *sketch) height(f font) float32 {
	return fyne.MeasureText("Mg", s.points(f), fyne.TextStyle{Bold: f.bold}).Height / s.scale
}

// fit is a text that is no wider than there is room; one that is cut ends in "…".
func (s *sketch) fit(text string, f font, room float32) string {
	if s.width(text, f) <= room {
		return text
	}
	letters := []rune(text)
	low, high := 0, len(letters) // so many letters fit, so many do not
	for high-low > 1 {
		middle := (low + high) / 2
		if s.width(strings.TrimRight(string(letters[:middle]), " ")+"…", f) <= room {
			low = middle
		} else {
			high = middle
		}
	}
	return strings.TrimRight(string(letters[:low]), " ") + "…"
}

// words sets a line of text, its top at y, no wider than room, and returns its width.
func (s *sketch) words(x, y, room float32, text string, f font, colour color.Color) float32 {
	if text == "" || room <= 0 {
		return 0
	}
	text = s.fit(text, f, room)
	t := canvas.NewText(text, colour)
	t.TextSize, t.TextStyle.Bold = s.points(f), f.bold
	t.Move(fyne.NewPos(x*s.scale, y*s.scale))
	t.Resize(t.MinSize())
	s.objects = append(s.objects, t)
	return s.width(text, f)
}

// wordsRight sets a line that ends at x.
func (s *sketch) wordsRight(x, y, room float32, text string, f font, colour color.Color) float32 {
	text = s.fit(text, f, room)
	return s.words(x-s.width(text, f), y, room, text, f, colour)
}

// lines breaks a text into at most so many lines; the last is cut where more would follow.
func (s *sketch) lines(text string, f font, room float32, most int) []string {
	var list []string
	line := ""
	for _, word := range strings.Fields(text) {
		longer := strings.TrimSpace(line + " " + word)
		if line == "" || s.width(longer, f) <= room {
			line = longer
			continue
		}
		list, line = append(list, line), word
	}
	list = append(list, line)
	if len(list) > most {
		rest := strings.Join(list[most-1:], " ")
		list = append(list[:most-1], rest)
	}
	for i := range list {
		list[i] = s.fit(list[i], f, room)
	}
	return list
}

func (s *sketch) box(x, y, w, h float32, fill color.Color, edge float32) {
	r := canvas.NewRectangle(fill)
	if edge > 0 {
		r.StrokeColor, r.StrokeWidth = ink, max(1, edge*s.scale)
	}
	r.Move(fyne.NewPos(x*s.scale, y*s.scale))
	r.Resize(fyne.NewSize(w*s.scale, h*s.scale))
	s.objects = append(s.objects, r)
}

func (s *sketch) spot(x, y, w, h float32, do func()) {
	s.spots = append(s.spots, spot{fyne.NewPos(x*s.scale, y*s.scale), fyne.NewSize(w*s.scale, h*s.scale), do})
}

// gradeLine draws the line that a grade has on the plan, as much thicker as everything here is larger.
func (s *sketch) gradeLine(x, y, w, h float32, grade budget.Grade) {
	style := look.PaletteNamed("high contrast").Style(picture.LinkRole(string(grade)))
	line := canvas.NewRaster(func(wide, tall int) image.Image {
		painted := image.NewRGBA(image.Rect(0, 0, wide, tall))
		scale := float64(tall) / float64(h)
		stroke := style.Stroke()
		stroke.Width *= gradeThickness
		stroke.Dash = nil
		for _, length := range style.Dash {
			stroke.Dash = append(stroke.Dash, length*gradeThickness)
		}
		drawing := raster.NewDrawing(scale)
		middle := float64(h) / 2
		drawing.Polyline([]raster.Point{{X: 4, Y: middle}, {X: float64(wide)/scale - 4, Y: middle}}, stroke)
		drawing.Paint(painted)
		return painted
	})
	line.Move(fyne.NewPos(x*s.scale, y*s.scale))
	line.Resize(fyne.NewSize(w*s.scale, h*s.scale))
	s.objects = append(s.objects, line)
}

const gradeThickness = 3.2

// render is the renderer of the view.
type render struct{ view *View }

// CreateRenderer implements fyne.Widget.
func (v *View) CreateRenderer() fyne.WidgetRenderer { return &render{v} }

// MinSize implements fyne.WidgetRenderer: the view takes what room there is.
func (r *render) MinSize() fyne.Size { return fyne.NewSize(240, 160) }

// Layout implements fyne.WidgetRenderer.
func (r *render) Layout(size fyne.Size) {
	r.view.size = size
	r.view.draw()
}

// Refresh implements fyne.WidgetRenderer.
func (r *render) Refresh() {
	r.view.draw()
	canvas.Refresh(r.view)
}

// Objects implements fyne.WidgetRenderer.
func (r *render) Objects() []fyne.CanvasObject { return r.view.objects }

// Destroy implements fyne.WidgetRenderer.
func (r *render) Destroy() {}

func (v *View) draw() {
	if v.size.Width < 1 || v.size.Height < 1 {
		return
	}
	s := newSketch(v, v.size)
	switch {
	case v.sheet == swaps:
		s.drawSwaps()
	case v.sheet == finds:
		s.drawFinds()
	case v.sheet == check:
		s.drawCheck()
	case v.sheet == faults:
		s.drawFaults()
	case v.sheet == noting:
		s.drawNote()
	case v.link == "":
		s.drawEmpty()
	default:
		s.drawPage(PageOf(v.assessment, v.link, v.units))
	}
	v.objects, v.spots = s.objects, s.spots
}

// spotAt is the place under the pointer that a tap does something at.
func (v *View) spotAt(at fyne.Position) (spot, bool) {
	for i := len(v.spots) - 1; i >= 0; i-- {
		p := v.spots[i]
		if at.X >= p.at.X && at.Y >= p.at.Y && at.X < p.at.X+p.size.Width && at.Y < p.at.Y+p.size.Height {
			return p, true
		}
	}
	return spot{}, false
}

// Tapped implements fyne.Tappable; the view keeps the keys.
func (v *View) Tapped(event *fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil {
		c.Focus(v)
	}
	if p, found := v.spotAt(event.Position); found {
		p.do()
	}
}

// MouseIn implements desktop.Hoverable.
func (v *View) MouseIn(event *desktop.MouseEvent) { v.pointer = event.Position }

// MouseMoved implements desktop.Hoverable.
func (v *View) MouseMoved(event *desktop.MouseEvent) { v.pointer = event.Position }

// MouseOut implements desktop.Hoverable.
func (v *View) MouseOut() {}

// Cursor shows what can be tapped.
func (v *View) Cursor() desktop.Cursor {
	if _, found := v.spotAt(v.pointer); found {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}
