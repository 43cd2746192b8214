package look_test

import (
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/picture"
	"stageloom/ui/look"
)

func TestEveryRoleHasAStyleInEveryPalette(t *testing.T) {
	for _, p := range look.Palettes() {
		for _, role := range picture.Roles() {
			require.NotZero(t, p.Style(role).Colour.A, "%s of the %s look is not seen", role, p.Name)
		}
	}
}

// luminance and ratio are those of WCAG 2.1, definitions of relative luminance and contrast ratio (published).
func luminance(c color.NRGBA) float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

func ratio(a, b color.NRGBA) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func TestTheContrastFormulaGivesItsPublishedEnds(t *testing.T) {
	white, black := color.NRGBA{R: 255, G: 255, B: 255, A: 255}, color.NRGBA{A: 255}
	require.InDelta(t, 21, ratio(white, black), 1e-9)
	require.InDelta(t, 1, ratio(white, white), 1e-9)
}

// TestTextIsReadable holds WCAG 2.1 success criterion 1.4.3 (text, 4.5 : 1) and 1.4.11 (graphics, 3 : 1).
func TestTextIsReadable(t *testing.T) {
	for _, p := range look.Palettes() {
		for name, pair := range map[string][2]color.NRGBA{
			"ink on ground": {p.Ink, p.Ground}, "ink on panel": {p.Ink, p.Panel}, "muted on ground": {p.Muted, p.Ground},
			"muted on panel": {p.Muted, p.Panel}, "muted on stage": {p.Muted, p.Stage}, "danger on panel": {p.Danger, p.Panel},
			"muted on crowd": {p.Muted, p.Crowd}, "selection on panel": {p.Selection, p.Panel},
		} {
			require.GreaterOrEqual(t, ratio(pair[0], pair[1]), 4.5, "%s, %s", p.Name, name)
		}
		for _, grade := range []string{"ample", "enough", "tight", "over", "uncabled", ""} {
			require.GreaterOrEqual(t, ratio(p.Grade(grade), p.Ground), 3.0, "%s, grade %q", p.Name, grade)
		}
	}
}

func TestGradesDifferByLineAlone(t *testing.T) {
	for _, p := range look.Palettes() {
		lines := map[[3]float64]string{}
		for _, grade := range []string{"ample", "enough", "tight", "over", "uncabled", ""} {
			style := p.Style(picture.LinkRole(grade))
			key := [3]float64{style.Width, float64(len(style.Dash))}
			if len(style.Dash) > 0 {
				key[2] = style.Dash[0]
			}
			require.Empty(t, lines[key], "%q and %q look alike in grey", grade, lines[key])
			lines[key] = grade + "."
		}
	}
}
