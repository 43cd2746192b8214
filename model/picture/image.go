package picture

import (
	"math"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// ImageFigure is a picture that lies on the ground: the venue's drawing or an aerial photograph. The figure holds no
// pixels: Source names them, and each medium's pen finds them by it.
type ImageFigure struct {
	// Ref is the row of the plan that it stands for.
	Ref    Ref
	Source string
	// Corners are those of the picture itself in metres, from its top left one clockwise as one looks at the picture.
	// They are the corners of a rectangle, turned or not; OnGround reckons them.
	Corners [4]geom.Point
	// Opacity is from 0, not to be seen, to 1.
	Opacity float64
	// Level is the one it belongs to; blank belongs to all.
	Level plan.LevelID
}

// OnGround returns the corners of a picture by its middle and its size in metres, and by how many degrees it is turned,
// counter-clockwise as one sees it on the plan.
func OnGround(middle geom.Point, width, height, degrees float64) [4]geom.Point {
	turn := degrees * math.Pi / 180
	along, up := geom.Polar(width/2, turn), geom.Polar(height/2, turn+math.Pi/2)
	return [4]geom.Point{
		middle.Sub(along).Add(up), middle.Add(along).Add(up), middle.Add(along).Sub(up), middle.Sub(along).Sub(up),
	}
}

// Lay puts pictures under a scene, in their order, in the place of those that lay there.
func (s *Scene) Lay(images ...ImageFigure) {
	s.Images = images
	s.bound()
}

// images lay the pictures under everything. No pointer hits them.
func (p *Picture) images() {
	for _, image := range p.arrangement.Scene.Images {
		corners := make([]geom.Point, len(image.Corners))
		for i, at := range image.Corners {
			corners[i] = p.View.Point(at)
		}
		if !(image.Opacity > 0) || !finite(corners) || !p.visible(geom.BoxOf(corners...)) || p.lacksImage(&image) {
			continue
		}
		if image.Level != "" {
			p.fade(image.Level)
		}
		p.add(Mark{Ref: image.Ref, Shape: Image, Points: corners, Text: image.Source, Opacity: min(image.Opacity, 1)})
		p.fade()
	}
}

// lacksImage reports whether a picture is left out.
func (p *Picture) lacksImage(image *ImageFigure) bool {
	return image.Level != "" && p.options.LeftOut.Levels[image.Level] && !p.options.Selected[image.Ref]
}

// finite reports whether all points can be drawn.
func finite(points []geom.Point) bool {
	for _, at := range points {
		if math.IsNaN(at.X+at.Y) || math.IsInf(at.X, 0) || math.IsInf(at.Y, 0) {
			return false
		}
	}
	return true
}
