package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Theme is fyne's default theme in a palette of ours, compact. The system's own choice of light or dark is not
// followed: a plan looks the same until the user changes it.
type Theme struct {
	palette Palette
	base    fyne.Theme
}

// NewTheme returns the theme of a palette.
func NewTheme(p Palette) *Theme { return &Theme{palette: p, base: theme.DefaultTheme()} }

// Palette is the theme's palette.
func (t *Theme) Palette() Palette { return t.palette }

// inkOfMenus is a colour that the toolkit also draws strong beside the items of menus. There it takes 95 % of the 16 bits of
// the opacity and keeps the lower 8 of them, which leaves a fifth of full opacity; of this one it leaves all.
type inkOfMenus color.NRGBA

// kept is the opacity, full in its upper 8 bits, of which 95 % end in 0xFF.
const kept = 0xFFCA

// RGBA implements color.Color.
func (c inkOfMenus) RGBA() (r, g, b, a uint32) {
	r, g, b, _ = color.NRGBA(c).RGBA()
	return min(r, kept), min(g, kept), min(b, kept), kept
}

// PaletteOf returns the palette of a theme of ours, the light one for any other.
func PaletteOf(t fyne.Theme) Palette {
	if ours, ok := t.(*Theme); ok {
		return ours.palette
	}
	return light
}

// Color implements fyne.Theme.
func (t *Theme) Color(name fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	p := t.palette
	switch name {
	case theme.ColorNameBackground, theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground, theme.ColorNameHeaderBackground:
		return p.Panel
	case theme.ColorNameForeground:
		return inkOfMenus(p.Ink)
	case theme.ColorNamePrimary, theme.ColorNameHyperlink:
		return p.Selection
	case theme.ColorNameSeparator:
		return p.Strong
	case theme.ColorNameInputBorder:
		return p.Edge
	case theme.ColorNameForegroundOnPrimary, theme.ColorNameForegroundOnError, theme.ColorNameForegroundOnWarning,
		theme.ColorNameForegroundOnSuccess:
		return p.Panel
	case theme.ColorNamePlaceHolder, theme.ColorNameDisabled:
		return p.Muted
	case theme.ColorNameInputBackground, theme.ColorNameDisabledButton:
		return p.Field
	case theme.ColorNameButton:
		return p.Button
	case theme.ColorNameError:
		return p.Danger
	case theme.ColorNameWarning:
		return p.Tight
	case theme.ColorNameSuccess:
		return p.Enough
	}
	return t.veiled(name)
}

// veiled are the colours that let what lies below shine through, and those of the toolkit's own theme.
func (t *Theme) veiled(name fyne.ThemeColorName) color.Color {
	switch name {
	case theme.ColorNameFocus:
		return veil(t.palette.Selection, 0x28)
	case theme.ColorNameSelection:
		return veil(t.palette.Selection, 0x50)
	case theme.ColorNameShadow:
		return t.palette.shadow()
	case theme.ColorNameScrollBar:
		return veil(t.palette.Ink, 0x40)
	}
	return t.base.Color(name, t.variant())
}

func (t *Theme) variant() fyne.ThemeVariant {
	if t.palette.Dark {
		return theme.VariantDark
	}
	return theme.VariantLight
}

// Font implements fyne.Theme. Symbols, such as the arrows of menus, keep fyne's font.
func (t *Theme) Font(style fyne.TextStyle) fyne.Resource {
	if style.Symbol {
		return t.base.Font(style)
	}
	return fontFor(style)
}

// Icon implements fyne.Theme.
func (t *Theme) Icon(name fyne.ThemeIconName) fyne.Resource { return t.base.Icon(name) }

// Size implements fyne.Theme: compact, but readable at arm's length.
func (t *Theme) Size(name fyne.ThemeSizeName) float32 {
	switch name {
	case theme.SizeNameText: // at 13 the toolkit cuts descenders
		return 14
	case theme.SizeNameCaptionText:
		return 12
	case theme.SizeNamePadding:
		return 3
	case theme.SizeNameInnerPadding:
		return 4
	case theme.SizeNameScrollBar:
		return 8
	case theme.SizeNameScrollBarSmall:
		return 4
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 4
	case theme.SizeNameInlineIcon:
		return 17
	case theme.SizeNameSubHeadingText:
		return 16
	case theme.SizeNameHeadingText:
		return 20
	}
	return t.base.Size(name)
}

// shadow is what the toolkit lays over what is behind a dialog, under what floats and at the ends of what scrolls: always darker
// than what it lies on.
func (p Palette) shadow() color.Color {
	if p.Dark {
		return color.NRGBA{A: 0x60}
	}
	return veil(p.Ink, 0x2C)
}
