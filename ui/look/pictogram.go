package look

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"stageloom/model/geom"
	"stageloom/model/picture"
)

// pictogramSide is the side of a pictogram as an icon, pictogramLine how wide its lines are, both in points.
const (
	pictogramSide = 24.0
	pictogramLine = 1.7
)

// PictogramIcon is a pictogram of the plan as an icon, in the theme's ink.
func PictogramIcon(name string) fyne.Resource {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24" viewBox="0 0 24 24">`)
	for _, stroke := range picture.Pictogram(name) {
		points := make([]geom.Point, len(stroke.Points))
		for i, at := range stroke.Points {
			points[i] = at.Scale(pictogramSide)
		}
		if stroke.Filled {
			filled(&b, points...)
			continue
		}
		for i, to := range points[1:] {
			along := to.Sub(points[i])
			along = along.Scale(pictogramLine / 2 / max(along.Length(), 1e-9))
			beside := geom.Point{X: -along.Y, Y: along.X}
			from, to := points[i].Sub(along), to.Add(along)
			filled(&b, from.Add(beside), to.Add(beside), to.Sub(beside), from.Sub(beside))
		}
	}
	b.WriteString("</svg>")
	return theme.NewThemedResource(fyne.NewStaticResource("pictogram-"+name+".svg", []byte(b.String())))
}

// filled writes a filled shape: the toolkit gives the theme's ink to what is filled, and leaves lines as they are.
func filled(b *strings.Builder, points ...geom.Point) {
	b.WriteString(`<path d="`)
	for i, at := range points {
		fmt.Fprintf(b, "%c%.2f %.2f", "ML"[min(i, 1)], at.X, at.Y)
	}
	b.WriteString(`Z" fill="#000000"/>`)
}
