package look

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"stageloom/model/picture"
)

// PictogramIcon is a pictogram of the plan as an icon, in the theme's ink.
func PictogramIcon(name string) fyne.Resource {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24" viewBox="0 0 24 24">`)
	for _, stroke := range picture.Pictogram(name) {
		var points strings.Builder
		for i, at := range stroke.Points {
			fmt.Fprintf(&points, "%c%.2f %.2f", "ML"[min(i, 1)], at.X*24, at.Y*24)
		}
		if stroke.Filled {
			fmt.Fprintf(&b, `<path d="%sZ" fill="#000000"/>`, points.String())
		} else {
			fmt.Fprintf(&b, `<path d="%s" fill="none" stroke="#000000" stroke-width="1.7"/>`, points.String())
		}
	}
	b.WriteString("</svg>")
	return theme.NewThemedResource(fyne.NewStaticResource("pictogram-"+name+".svg", []byte(b.String())))
}
