package planview

import (
	"image"
	"math"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// panMargin is how far in points the base image reaches beyond the widget on each side; while zooming it reaches
// no further, since each step paints it anew.
const panMargin = 480.0

// layer is the picture of what stands still and the image painted of it.
type layer struct {
	scene       *picture.Scene
	arrangement *picture.Arrangement
	form        picture.Form
	picture     *picture.Picture
	image       *image.RGBA
	painted     bool
	pixels      float64 // per point, of image
	// margin is that of the picture; hidden is what it leaves out, drawn on top instead.
	margin float64
	hidden plan.Moving
}

// covers reports whether the layer holds all of a view of the same scale.
func (l *layer) covers(v picture.View) bool {
	if l.picture == nil || l.picture.View.Scale != v.Scale {
		return false
	}
	at := l.at(v)
	return at.X >= 0 && at.Y >= 0 && at.X+v.Width <= l.picture.View.Width && at.Y+v.Height <= l.picture.View.Height
}

// at is where the view's top left corner lies in the layer, in points.
func (l *layer) at(v picture.View) geom.Point { return l.picture.View.Point(v.Origin) }

// around returns the view with a margin added on each side.
func around(v picture.View, margin float64) picture.View {
	v.Origin = v.Metres(geom.Point{X: -margin, Y: -margin})
	v.Width, v.Height = v.Width+2*margin, v.Height+2*margin
	return v
}

// size makes the image fit a picture at a number of pixels per point.
func (l *layer) size(pixels float64) {
	w := int(math.Ceil(l.picture.View.Width * pixels))
	h := int(math.Ceil(l.picture.View.Height * pixels))
	if l.image == nil || l.image.Rect.Dx() != w || l.image.Rect.Dy() != h {
		l.image = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	l.pixels = pixels
}

// copyTo copies the part of the image that a view shows.
func (l *layer) copyTo(frame *image.RGBA, v picture.View) {
	at := l.at(v)
	x, y := int(math.Round(at.X*l.pixels)), int(math.Round(at.Y*l.pixels))
	for row := range frame.Rect.Dy() {
		from := l.image.PixOffset(x, y+row)
		to := frame.PixOffset(0, row)
		if y+row < 0 || y+row >= l.image.Rect.Dy() || x < 0 {
			continue
		}
		width := min(frame.Rect.Dx(), l.image.Rect.Dx()-x) * 4
		copy(frame.Pix[to:to+width], l.image.Pix[from:from+width])
	}
}

// widenLater lets the base be painted with its wide border when no other zoom follows.
func (e *Editor) widenLater() {
	e.zooms++
	if zooms := e.zooms; e.Later != nil {
		e.Later(func() {
			if e.zooms == zooms && !e.Wide() && !e.hand.Busy() {
				e.cause = Other
				e.repaint()
			}
		})
	}
}

// Wide reports whether the base reaches beyond the view, so that a pan only copies it.
func (e *Editor) Wide() bool { return e.layer.picture != nil && e.layer.margin > 0 }
