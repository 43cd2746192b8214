package look

import (
	"image/color"

	"stageloom/model/picture"
	"stageloom/model/raster"
)

// Style is how a role looks: colour, width in points and dash in points; a line is plain without dash. A style
// without colour draws nothing.
type Style struct {
	Colour color.NRGBA
	Width  float64
	Dash   []float64
}

// Stroke returns the line of the style. Dashes shorter than the line is wide are round dots.
func (s Style) Stroke() raster.Stroke {
	stroke := raster.Stroke{Width: s.Width, Colour: s.Colour, Dash: s.Dash}
	if len(s.Dash) > 0 && s.Dash[0] < s.Width {
		stroke.Cap = raster.RoundCap
	}
	return stroke
}

// Dashes of the grades, in points: long dashes, dash and dot, short heavy dashes, dots.
var (
	longDash  = []float64{14, 5}
	dashDot   = []float64{13, 4.5, 2.5, 4.5}
	shortDash = []float64{5, 4}
	dots      = []float64{0.5, 5}
	fine      = []float64{4, 4}
)

// Style returns the style of a role; an unknown role draws nothing.
func (p Palette) Style(role picture.Role) Style { return p.Styles()[role] }

// Styles returns the style of every role, for drawing many marks.
func (p Palette) Styles() map[picture.Role]Style {
	styles := map[picture.Role]Style{}
	for _, part := range []map[picture.Role]Style{p.ground(), p.links(), p.labels(), p.tapes(), p.devices()} {
		for role, style := range part {
			styles[role] = style
		}
	}
	return styles
}

func (p Palette) ground() map[picture.Role]Style {
	return map[picture.Role]Style{
		picture.RoleGround:       {Colour: p.Ground},
		picture.RoleGridFine:     {Colour: p.Hairline, Width: 1},
		picture.RoleGridCoarse:   {Colour: p.Strong, Width: 1},
		picture.RoleAreaStage:    {Colour: p.Stage},
		picture.RoleAreaBuilding: {Colour: p.Building},
		picture.RoleAreaRoad:     {Colour: p.Road},
		picture.RoleAreaWater:    {Colour: p.Water},
		picture.RoleAreaCrowd:    {Colour: p.Crowd},
		picture.RoleAreaWalkway:  {Colour: p.Caution},
		picture.RoleAreaExit:     {Colour: p.Caution},
		picture.RoleAreaFireLane: {Colour: p.Caution},
		picture.RoleAreaEdge:     {Colour: p.Strong, Width: 1},
		picture.RoleAreaText:     {Colour: p.Muted},
		picture.RolePositionEdge: {Colour: p.Strong, Width: 1.5},
		picture.RolePositionText: {Colour: p.Muted},
		picture.RoleScaleBar:     {Colour: p.Ink, Width: 1.5},
		picture.RoleScaleText:    {Colour: p.Muted},
		picture.RoleSelected:     {Colour: p.Selection, Width: 2},
		picture.RoleFocus:        {Colour: p.Selection, Width: 1},
		picture.RoleHandle:       {Colour: p.Selection},
		picture.RoleBandFill:     {Colour: veil(p.Band, 0x22)},
		picture.RoleBandEdge:     {Colour: p.Band, Width: 1},
	}
}

func (p Palette) links() map[picture.Role]Style {
	return map[picture.Role]Style{
		picture.RoleLinkCasing:   {Colour: p.Ground, Width: 6},
		picture.RoleLinkHalo:     {Colour: veil(p.Selection, 0x70), Width: 9},
		picture.RoleLinkAmple:    {Colour: p.Ample, Width: 2.2},
		picture.RoleLinkEnough:   {Colour: p.Enough, Width: 2.2, Dash: longDash},
		picture.RoleLinkTight:    {Colour: p.Tight, Width: 2.6, Dash: dashDot},
		picture.RoleLinkOver:     {Colour: p.Over, Width: 4, Dash: shortDash},
		picture.RoleLinkUncabled: {Colour: p.Uncabled, Width: 2, Dash: dots},
		picture.RoleLinkUngraded: {Colour: p.Plain, Width: 1.2},
		picture.RoleLinkMissing:  {Colour: p.Uncabled, Width: 2, Dash: dots},
		picture.RoleLinkDone:     {Colour: p.Ink, Width: 1.4},
		picture.RoleLoomRoute:    {Colour: veil(p.Selection, 0x70), Width: 12},
		picture.RoleLoomDrop:     {Colour: p.Ink, Width: 1.4},
		picture.RoleLoomText:     {Colour: p.Ink},
		picture.RoleJoinAmple:    {Colour: p.Ample, Width: 2.2},
		picture.RoleJoinEnough:   {Colour: p.Enough, Width: 2.2},
		picture.RoleJoinTight:    {Colour: p.Tight, Width: 2.2},
		picture.RoleJoinOver:     {Colour: p.Over, Width: 2.2},
		picture.RoleJoinUngraded: {Colour: p.Plain, Width: 1.5},
	}
}

func (p Palette) labels() map[picture.Role]Style {
	return map[picture.Role]Style{
		picture.RoleLabelFill:     {Colour: p.Panel},
		picture.RoleLabelText:     {Colour: p.Ink},
		picture.RoleLabelAmple:    {Colour: p.Ample, Width: 1.4},
		picture.RoleLabelEnough:   {Colour: p.Enough, Width: 1.4},
		picture.RoleLabelTight:    {Colour: p.Tight, Width: 1.6},
		picture.RoleLabelOver:     {Colour: p.Over, Width: 2},
		picture.RoleLabelUncabled: {Colour: p.Uncabled, Width: 1.4},
		picture.RoleLabelUngraded: {Colour: p.Strong, Width: 1},
		picture.RoleBadgeAmple:    {Colour: p.Ample},
		picture.RoleBadgeEnough:   {Colour: p.Enough},
		picture.RoleBadgeTight:    {Colour: p.Tight},
		picture.RoleBadgeOver:     {Colour: p.Over},
		picture.RoleBadgeUncabled: {Colour: p.Uncabled},
	}
}

// tapes are of one colour in every look, as the tape itself is; the outline is the look's ink.
func (p Palette) tapes() map[picture.Role]Style {
	styles := map[picture.Role]Style{
		picture.RoleTapeEdge: {Colour: p.Ink, Width: 1},
		picture.RoleTapeText: {Colour: p.Ink},
	}
	for role, colour := range picture.TapeColours() {
		styles[role] = Style{Colour: colour}
	}
	return styles
}

func (p Palette) devices() map[picture.Role]Style {
	return map[picture.Role]Style{
		picture.RoleDeviceFill:     {Colour: p.Panel},
		picture.RoleDeviceEdge:     {Colour: p.Ink, Width: 1.2},
		picture.RoleDeviceText:     {Colour: p.Ink},
		picture.RoleDeviceKindText: {Colour: p.Muted},
		picture.RoleDeviceDot:      {Colour: p.Ink},
		picture.RoleHeadFill:       {Colour: p.Ground},
		picture.RoleHeadText:       {Colour: p.Muted},
		picture.RoleRowRule:        {Colour: p.Hairline, Width: 1},
		picture.RolePictogram:      {Colour: p.Ink, Width: 1.2},
		picture.RoleLeader:         {Colour: p.Muted, Width: 1, Dash: fine},
		picture.RolePortUsed:       {Colour: p.Ink},
		picture.RolePortFree:       {Colour: p.Panel, Width: 1},
	}
}
