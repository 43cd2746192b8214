package look

import (
	"fyne.io/fyne/v2"
	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"
	"github.com/go-fonts/dejavu/dejavusansmono"
)

// Screen and paper share the letters: figures of one width, 0 and O, 1 and l told apart, a true minus sign.
var (
	regular = fyne.NewStaticResource("DejaVuSansCondensed.ttf", dejavusanscondensed.TTF)
	bold    = fyne.NewStaticResource("DejaVuSansCondensed-Bold.ttf", dejavusanscondensedbold.TTF)
	mono    = fyne.NewStaticResource("DejaVuSansMono.ttf", dejavusansmono.TTF)
)

// Regular is the font of text.
func Regular() fyne.Resource { return regular }

// Bold is the font of names and figures.
func Bold() fyne.Resource { return bold }
