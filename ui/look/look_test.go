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

// TestTextIsReadable holds WCAG 2.1 success criterion 1.4.3 (text, 4.5 : 1), and in the high contrast look 1.4.6 (7 : 1).
func TestTextIsReadable(t *testing.T) {
	for _, p := range look.Palettes() {
		least := 4.5
		if p.Name == "high contrast" {
			least = 7
		}
		readable := func(name string, text, ground color.NRGBA) {
			require.GreaterOrEqual(t, ratio(text, ground), least, "%s, %s", p.Name, name)
		}
		style := func(role picture.Role) color.NRGBA { return p.Style(role).Colour }
		for _, role := range []picture.Role{picture.RoleAreaText, picture.RolePositionText, picture.RoleScaleText} {
			for _, ground := range grounds() {
				readable(string(role)+" on "+string(ground), style(role), style(ground))
			}
		}
		readable("label text on label fill", style(picture.RoleLabelText), style(picture.RoleLabelFill))
		readable("device text on device fill", style(picture.RoleDeviceText), style(picture.RoleDeviceFill))
		readable("device kind on device fill", style(picture.RoleDeviceKindText), style(picture.RoleDeviceFill))
		for name, ground := range map[string]color.NRGBA{
			"ground": p.Ground, "panel": p.Panel, "field": p.Field, "button": p.Button, "stage": p.Stage,
		} {
			readable("ink on "+name, p.Ink, ground)
		}
		for name, ground := range map[string]color.NRGBA{"ground": p.Ground, "panel": p.Panel, "field": p.Field} {
			readable("muted on "+name, p.Muted, ground)
		}
		readable("danger on panel", p.Danger, p.Panel)
		readable("selection on panel", p.Selection, p.Panel)
	}
}

// grounds are the roles on which a plan is drawn.
func grounds() []picture.Role {
	return []picture.Role{
		picture.RoleGround, picture.RoleAreaStage, picture.RoleAreaBuilding, picture.RoleAreaRoad, picture.RoleAreaWater,
		picture.RoleAreaCrowd, picture.RoleAreaWalkway, picture.RoleAreaExit, picture.RoleAreaFireLane,
	}
}

// TestLinesAreSeen holds WCAG 2.1 success criterion 1.4.11 (graphics, 3 : 1) on every ground, and as much as for text
// in the high contrast look.
func TestLinesAreSeen(t *testing.T) {
	for _, p := range look.Palettes() {
		least := 3.0
		if p.Name == "high contrast" {
			least = 4.5
		}
		for _, role := range []picture.Role{
			picture.RoleLinkAmple, picture.RoleLinkEnough, picture.RoleLinkTight, picture.RoleLinkOver,
			picture.RoleLinkUncabled, picture.RoleLinkUngraded, picture.RoleLinkMissing, picture.RoleSelected,
			picture.RoleHandle, picture.RoleScaleBar, picture.RoleLeader, picture.RoleDeviceEdge,
		} {
			for _, ground := range grounds() {
				require.GreaterOrEqual(t, ratio(p.Style(role).Colour, p.Style(ground).Colour), least, "%s, %s on %s", p.Name, role, ground)
			}
		}
		require.GreaterOrEqual(t, ratio(p.Edge, p.Panel), least, "%s, outline of what one can press", p.Name)
	}
}

// TestTapeIsSeen holds WCAG 2.1 success criterion 1.4.11 (graphics, 3 : 1) for the outline of a patch of tape, on labels and on
// every ground: white, yellow and black tape are seen by it.
func TestTapeIsSeen(t *testing.T) {
	for _, p := range look.Palettes() {
		least := 3.0
		if p.Name == "high contrast" {
			least = 4.5
		}
		edge := p.Style(picture.RoleTapeEdge)
		require.Positive(t, edge.Width)
		for _, ground := range append(grounds(), picture.RoleLabelFill) {
			require.GreaterOrEqual(t, ratio(edge.Colour, p.Style(ground).Colour), least, "%s, on %s", p.Name, ground)
		}
		require.GreaterOrEqual(t, ratio(p.Style(picture.RoleTapeText).Colour, p.Style(picture.RoleLabelFill).Colour), 4.5, p.Name)
		for role, colour := range picture.TapeColours() {
			require.Equal(t, colour, p.Style(role).Colour, "%s: tape is of one colour in every look", p.Name)
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

// TestGatheredPositionsAreReadable holds WCAG 2.1 success criteria 1.4.3 (text, 4.5 : 1; 1.4.6, 7 : 1, in the high contrast look)
// and 1.4.11 (graphics, 3 : 1) for what the box of a gathered position says and draws. The line between two rows is decoration:
// rows are told apart without it, so 1.4.11 does not ask it.
func TestGatheredPositionsAreReadable(t *testing.T) {
	for _, p := range look.Palettes() {
		text, mark := 4.5, 3.0
		if p.Name == "high contrast" {
			text, mark = 7, 4.5
		}
		on := func(over, under picture.Role) float64 { return ratio(p.Style(over).Colour, p.Style(under).Colour) }
		require.GreaterOrEqual(t, on(picture.RoleHeadText, picture.RoleHeadFill), text, "%s, head", p.Name)
		require.GreaterOrEqual(t, on(picture.RolePictogram, picture.RoleDeviceFill), mark, "%s, pictogram", p.Name)
		require.Greater(t, on(picture.RoleRowRule, picture.RoleDeviceFill), 1.0, "%s, line between rows", p.Name)
		require.Positive(t, p.Style(picture.RolePictogram).Width)
		for _, ground := range grounds() {
			require.GreaterOrEqual(t, on(picture.RoleDeviceDot, ground), mark, "%s, end of a leader on %s", p.Name, ground)
		}
		for grade := range map[string]bool{"ample": true, "enough": true, "tight": true, "over": true, "uncabled": true, "": true} {
			require.GreaterOrEqual(t, on(picture.LinkRole(grade), picture.RoleLabelFill), mark, "%s, line %q in the badge of a bundle", p.Name, grade)
		}
	}
}
