package ui_test

import (
	"image"
	"image/color"
	"image/draw"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/goldentest"
	"stageloom/ui/look"
)

// pictured is a picture of the window and where its texts and buttons are.
type pictured struct {
	*image.RGBA
	texts, buttons []image.Rectangle
}

func pictureOf(s *screen) (p pictured) {
	taken := s.window.Canvas().Capture()
	p.RGBA = image.NewRGBA(taken.Bounds())
	draw.Draw(p.RGBA, p.Rect, taken, taken.Bounds().Min, draw.Src)
	for _, object := range test.LaidOutObjects(s.window.Content()) {
		at, size := fyne.CurrentApp().Driver().AbsolutePositionForObject(object), object.Size()
		box := image.Rect(int(at.X), int(at.Y), int(at.X+size.Width), int(at.Y+size.Height))
		switch object := object.(type) {
		case *canvas.Text:
			if len(object.Text) > 2 && box.In(p.Rect) && p.ink(box) >= 20 {
				p.texts = append(p.texts, box)
			}
		case *widget.Button:
			if object.Text != "" && box.In(p.Rect) && p.ink(box) >= 20 {
				p.buttons = append(p.buttons, box)
			}
		}
	}
	return p
}

// ink counts the pixels of a box that stand out from its corner.
func (p pictured) ink(box image.Rectangle) (count int) {
	ground := p.RGBAAt(box.Min.X, box.Min.Y)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			if c := p.RGBAAt(x, y); max(c.R, ground.R)-min(c.R, ground.R) > 80 {
				count++
			}
		}
	}
	return count
}

// copied is the picture, to be changed.
func (p pictured) copied() *image.RGBA {
	to := image.NewRGBA(p.Rect)
	copy(to.Pix, p.Pix)
	return to
}

// without fills a box with the colour of its corner.
func (p pictured) without(box image.Rectangle) *image.RGBA {
	to := p.copied()
	draw.Draw(to, box, image.NewUniform(p.At(box.Min.X, box.Min.Y)), image.Point{}, draw.Src)
	return to
}

// moved moves what is in a box to the right.
func (p pictured) moved(box image.Rectangle, by int) *image.RGBA {
	to := p.without(box)
	draw.Draw(to, box.Add(image.Pt(by, 0)), p, box.Min, draw.Src)
	return to
}

// smallText is how high in pixels the small words of a card are.
const smallText = 14

func TestAPictureOfTheWindowTellsWhatIsMissingOrMoved(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.window.Resize(fyne.NewSize(1280, 800))
	s.choose("Edit", "Next link")
	p := pictureOf(s)
	require.Greater(t, len(p.texts), 20)
	require.NotEmpty(t, p.buttons)
	require.Empty(t, goldentest.Difference(p, p.copied()))
	for _, box := range p.texts {
		require.NotEmpty(t, goldentest.Difference(p, p.without(box)), "the text at %v is missing", box)
		require.NotEmpty(t, goldentest.Difference(p.without(box), p), "the text at %v is new", box)
		if box.Dy() <= smallText {
			continue // its thin grey letters are much like each other, so that a little to the right counts as their edges
		}
		require.NotEmpty(t, goldentest.Difference(p, p.moved(box, 3)), "the text at %v has moved", box)
	}
	for _, box := range p.buttons {
		require.NotEmpty(t, goldentest.Difference(p, p.moved(box, 6)), "the button at %v has moved", box)
	}
	require.NotEmpty(t, goldentest.Difference(p, p.SubImage(image.Rect(0, 0, 1280, 799))), "a picture of another size")
	badge, other := p.recoloured("ample", "tight")
	require.NotZero(t, badge)
	require.NotEmpty(t, goldentest.Difference(p, other), "the badge at %v has another colour", badge)
}

// recoloured gives the first patch of a grade, a badge or its edge, the colour of another grade.
func (p pictured) recoloured(from, to string) (badge image.Rectangle, other *image.RGBA) {
	palette := look.PaletteNamed("light")
	was, is := color.RGBAModel.Convert(palette.Grade(from)), palette.Grade(to)
	other = p.copied()
	for y := range p.Rect.Dy() {
		for x := range p.Rect.Dx() {
			if badge.Empty() && p.At(x, y) == was && p.At(x+3, y+3) == was {
				badge = image.Rect(x-8, y-2, x+16, y+12)
			}
			if image.Pt(x, y).In(badge) && p.At(x, y) == was {
				other.Set(x, y, is)
			}
		}
	}
	return badge, other
}

func TestAPictureOfTheWindowTakesEdgesOfLettersAsTheyCome(t *testing.T) {
	s := open(t, "dark", demoFile(t))
	s.window.Resize(fyne.NewSize(1280, 800))
	p := pictureOf(s)
	for _, share := range []int{1, 2} { // a pixel to the right; half a pixel, which sets every edge otherwise
		other := p.copied()
		for _, box := range p.texts {
			for y := box.Min.Y; y < box.Max.Y; y++ {
				for x := box.Min.X + 1; x < box.Max.X; x++ {
					a, b := p.RGBAAt(x-1, y), p.RGBAAt(x, y)
					mixed := func(a, b uint8) uint8 { return uint8((int(a) + (share-1)*int(b)) / share) }
					other.SetRGBA(x, y, color.RGBA{mixed(a.R, b.R), mixed(a.G, b.G), mixed(a.B, b.B), 255})
				}
			}
		}
		require.NotEqual(t, p.Pix, other.Pix)
		require.Empty(t, goldentest.Difference(p, other), "shifted by 1/%d pixel", share)
	}
}
