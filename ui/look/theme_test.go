package look_test

import (
	"image/color"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/picture"
	"stageloom/model/raster"
	"stageloom/ui/look"
)

func TestTheTheme(t *testing.T) {
	t.Run("does not follow the system's choice of light or dark", func(t *testing.T) {
		for _, p := range look.Palettes() {
			own := look.NewTheme(p)
			for _, name := range []fyne.ThemeColorName{
				theme.ColorNameBackground, theme.ColorNameForeground, theme.ColorNameHover, theme.ColorNameScrollBar,
				theme.ColorNamePressed, theme.ColorNameShadow, theme.ColorNameHyperlink,
			} {
				require.Equal(t, own.Color(name, theme.VariantLight), own.Color(name, theme.VariantDark), "%s, %s", p.Name, name)
			}
		}
	})
	t.Run("what is written on a strong button is readable", func(t *testing.T) {
		for _, p := range look.Palettes() {
			own := look.NewTheme(p)
			colour := func(name fyne.ThemeColorName) color.NRGBA { return own.Color(name, theme.VariantLight).(color.NRGBA) }
			for text, ground := range map[fyne.ThemeColorName]fyne.ThemeColorName{
				theme.ColorNameForegroundOnPrimary: theme.ColorNamePrimary, theme.ColorNameForegroundOnError: theme.ColorNameError,
			} {
				require.GreaterOrEqual(t, ratio(colour(text), colour(ground)), 4.5, "%s, %s", p.Name, text)
			}
		}
	})
	t.Run("its palette is found again", func(t *testing.T) {
		for _, p := range look.Palettes() {
			require.Equal(t, p, look.PaletteOf(look.NewTheme(p)))
			require.Equal(t, p, look.PaletteNamed(p.Name))
		}
		require.Equal(t, "light", look.PaletteOf(theme.DefaultTheme()).Name)
		require.Equal(t, "light", look.PaletteNamed("no such look").Name)
	})
	t.Run("every style of text has the signs that the program writes", func(t *testing.T) {
		own := look.NewTheme(look.Palettes()[0])
		for _, style := range []fyne.TextStyle{{}, {Bold: true}, {Italic: true}, {Bold: true, Italic: true}, {Monospace: true}} {
			face, err := raster.ParseTypeface(own.Font(style).Content())
			require.NoError(t, err)
			require.True(t, face.Has("−+→·…×°Ω≥≤±éüß“”’–"), "%+v", style)
		}
	})
	t.Run("painted words and widgets have one face", func(t *testing.T) {
		label := widget.NewLabel("Stage box 40 in, 20 out")
		app := test.NewTempApp(t)
		app.Settings().SetTheme(look.NewTheme(look.Palettes()[0]))
		test.NewTempWindow(t, label)
		size := float64(theme.TextSize())
		wide := fyne.MeasureText(label.Text, theme.TextSize(), fyne.TextStyle{}).Width
		require.InDelta(t, look.Lettering(size, false, color.NRGBA{}).Width(label.Text), wide, 1.5)
	})
}

func TestIcons(t *testing.T) {
	app := test.NewTempApp(t)
	app.Settings().SetTheme(look.NewTheme(look.PaletteNamed("dark")))
	ink := look.PaletteNamed("dark").Ink
	t.Run("each is drawn in the colour of text, and no two are alike", func(t *testing.T) {
		seen := map[string]look.Icon{}
		for _, icon := range look.Icons() {
			drawn := inked(t, icon.Resource(), ink)
			require.Greater(t, strings.Count(drawn, "#"), 100, icon)
			require.Empty(t, seen[drawn], icon)
			seen[drawn] = icon
		}
	})
	t.Run("pictograms too", func(t *testing.T) {
		seen := map[string]string{}
		for _, name := range picture.Pictograms() {
			drawn := inked(t, look.PictogramIcon(name), ink)
			require.Greater(t, strings.Count(drawn, "#"), 100, name)
			require.Empty(t, seen[drawn], name)
			seen[drawn] = name
		}
	})
	t.Run("each group of equipment has one", func(t *testing.T) {
		for _, group := range catalogue.Groups() {
			_, found := look.IconOf(group)
			require.True(t, found, group)
		}
		_, found := look.IconOf("Furniture")
		require.False(t, found)
	})
	t.Run("one that is not built in is a programmer's mistake", func(t *testing.T) {
		require.Panics(t, func() { look.Icon("furniture").Resource() })
	})
}

// inked are the pixels of an icon that have an ink, in 48 by 48.
func inked(t *testing.T, icon fyne.Resource, ink color.NRGBA) string {
	t.Helper()
	window := test.NewTempWindow(t, widget.NewIcon(icon))
	window.SetPadded(false)
	window.Resize(fyne.NewSize(48, 48))
	shown := window.Canvas().Capture()
	var drawn strings.Builder
	for y := range 48 {
		for x := range 48 {
			drawn.WriteByte(" #"[map[bool]int{true: 1}[near(shown.At(x, y).(color.NRGBA), ink)]])
		}
	}
	return drawn.String()
}

// near reports whether two colours differ by rounding alone.
func near(a, b color.NRGBA) bool {
	close := func(x, y uint8) bool { return max(x, y)-min(x, y) <= 2 }
	return close(a.R, b.R) && close(a.G, b.G) && close(a.B, b.B)
}

func TestShortcutsInMenusAreAsStrongAsWords(t *testing.T) {
	for _, p := range look.Palettes() {
		r, g, b, a := look.NewTheme(p).Color(theme.ColorNameForeground, theme.VariantLight).RGBA()
		require.Equal(t, uint32(0xFF), a>>8, "it is opaque")
		require.LessOrEqual(t, max(r, g, b), a)
		// what the toolkit makes of it for the shortcuts of menu items (widget/menu_item.go of v2.7.1)
		require.Equal(t, uint8(0xFF), uint8(uint32(float32(a)*0.95)), p.Name)
		require.Equal(t, [3]uint32{uint32(p.Ink.R), uint32(p.Ink.G), uint32(p.Ink.B)}, [3]uint32{r >> 8, g >> 8, b >> 8})
	}
}
