package look

import (
	"fmt"
	"image/color"
	"sync"

	"fyne.io/fyne/v2"
	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"
	"github.com/go-fonts/dejavu/dejavusanscondensedboldoblique"
	"github.com/go-fonts/dejavu/dejavusanscondensedoblique"
	"github.com/go-fonts/dejavu/dejavusansmono"

	"stageloom/model/raster"
)

// The faces of the screen are those of the paper. Fyne's own has neither the minus sign nor arrows, which a painter
// that sets its text itself would show as boxes; these also tell 0 from O and 1 from l, and their digits are of one
// width.
var (
	regularFont     = fyne.NewStaticResource("regular.ttf", dejavusanscondensed.TTF)
	boldFont        = fyne.NewStaticResource("bold.ttf", dejavusanscondensedbold.TTF)
	obliqueFont     = fyne.NewStaticResource("oblique.ttf", dejavusanscondensedoblique.TTF)
	boldObliqueFont = fyne.NewStaticResource("bold oblique.ttf", dejavusanscondensedboldoblique.TTF)
	monoFont        = fyne.NewStaticResource("mono.ttf", dejavusansmono.TTF)
)

// Regular is the font of text.
func Regular() fyne.Resource { return regularFont }

// Bold is the font of names and figures.
func Bold() fyne.Resource { return boldFont }

var regularFace, boldFace = sync.OnceValue(parsed(regularFont)), sync.OnceValue(parsed(boldFont))

// parsed returns what reads a built-in font, which cannot fail unless the program was built wrongly.
func parsed(font fyne.Resource) func() *raster.Typeface {
	return func() *raster.Typeface {
		face, err := raster.ParseTypeface(font.Content())
		if err != nil {
			panic(fmt.Sprintf("look: built-in font %s: %v", font.Name(), err))
		}
		return face
	}
}

// Face is the typeface of painted words, the one that widgets have too. Its glyphs are kept for the whole program.
func Face(bold bool) *raster.Typeface {
	if bold {
		return boldFace()
	}
	return regularFace()
}

// Lettering sets painted words in a size in points.
func Lettering(size float64, bold bool, colour color.NRGBA) raster.Lettering {
	return raster.Lettering{Face: Face(bold), Size: size, Colour: colour}
}

// fontFor returns the font of a text style.
func fontFor(style fyne.TextStyle) fyne.Resource {
	switch {
	case style.Monospace:
		return monoFont
	case style.Bold && style.Italic:
		return boldObliqueFont
	case style.Bold:
		return boldFont
	case style.Italic:
		return obliqueFont
	}
	return regularFont
}
