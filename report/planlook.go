package report

import (
	"stageloom/model/picture"
	"stageloom/report/paper"
)

// look is how marks of one role look on paper: an ink, and for lines a width and a dash in millimetres.
type look struct {
	ink   paper.Colour
	width float64
	dash  []float64
	round bool
}

// line returns the look as a line.
func (l look) line() paper.Stroke {
	return paper.Stroke{Colour: l.ink, Width: l.width, Dash: l.dash, Round: l.round}
}

// graded returns the line of a grade, whose looks are those of the whole book.
func graded(grade paper.Role) look {
	style, _ := paper.StyleOf(grade)
	return look{style.Line.Colour, style.Line.Width, style.Line.Dash, style.Line.Round}
}

// edge returns the grade's ink as a plain line.
func edge(grade paper.Role, width float64) look { return look{ink: graded(grade).ink, width: width} }

func plain(level uint8, width float64) look { return look{ink: paper.Grey(level), width: width} }

func tone(r, g, b uint8) look { return look{ink: paper.RGB(r, g, b)} }

// taped adds the colours of tape, which are the same on every medium.
func taped(looks map[picture.Role]look) map[picture.Role]look {
	for role, c := range picture.TapeColours() {
		looks[role] = tone(c.R, c.G, c.B)
	}
	return looks
}

// looks is the plan's style table on paper. Areas are so light that lines and lettering stand out on them, and each
// has a lightness of its own; what an area is for is also written in it.
var looks = taped(map[picture.Role]look{
	picture.RoleGround:     {ink: paper.White},
	picture.RoleGridFine:   plain(228, 0.1),
	picture.RoleGridCoarse: plain(205, 0.14),

	picture.RoleAreaStage:    tone(214, 214, 222),
	picture.RoleAreaBuilding: tone(232, 229, 225),
	picture.RoleAreaRoad:     tone(229, 229, 229),
	picture.RoleAreaWater:    tone(219, 233, 243),
	picture.RoleAreaCrowd:    tone(250, 249, 244),
	picture.RoleAreaWalkway:  tone(241, 235, 213),
	picture.RoleAreaExit:     tone(226, 241, 229),
	picture.RoleAreaFireLane: tone(248, 229, 225),
	picture.RoleAreaEdge:     plain(150, 0.15),
	picture.RoleAreaText:     plain(70, 0),

	picture.RolePositionEdge: {ink: paper.Grey(120), width: 0.18, dash: []float64{1.6, 0.9}},
	picture.RolePositionText: plain(60, 0),

	picture.RoleLinkCasing:   {ink: paper.White, width: 1.5},
	picture.RoleLinkHalo:     {ink: paper.Grey(200), width: 2.4},
	picture.RoleLinkAmple:    graded(paper.Ample),
	picture.RoleLinkEnough:   graded(paper.Enough),
	picture.RoleLinkTight:    graded(paper.Tight),
	picture.RoleLinkOver:     graded(paper.Over),
	picture.RoleLinkUncabled: graded(paper.Uncabled),
	picture.RoleLinkUngraded: graded(paper.Ungraded),
	picture.RoleLinkMissing:  {ink: paper.Grey(60), width: 0.45, dash: []float64{0.5, 1}},
	picture.RoleLinkDone:     plain(0, 0.3),
	picture.RoleLoomRoute:    {ink: paper.Grey(200), width: 2.4},
	picture.RoleLoomDrop:     plain(0, 0.3),
	picture.RoleLoomText:     plain(0, 0),

	picture.RoleJoinAmple:    edge(paper.Ample, 0.6),
	picture.RoleJoinEnough:   edge(paper.Enough, 0.6),
	picture.RoleJoinTight:    edge(paper.Tight, 0.6),
	picture.RoleJoinOver:     edge(paper.Over, 0.6),
	picture.RoleJoinUngraded: edge(paper.Ungraded, 0.5),

	picture.RoleLabelFill:     {ink: paper.White},
	picture.RoleLabelText:     plain(0, 0),
	picture.RoleLabelAmple:    edge(paper.Ample, 0.25),
	picture.RoleLabelEnough:   edge(paper.Enough, 0.25),
	picture.RoleLabelTight:    edge(paper.Tight, 0.35),
	picture.RoleLabelOver:     edge(paper.Over, 0.6),
	picture.RoleLabelUncabled: edge(paper.Uncabled, 0.25),
	picture.RoleLabelUngraded: edge(paper.Ungraded, 0.15),

	picture.RoleBadgeAmple:    graded(paper.Ample),
	picture.RoleBadgeEnough:   graded(paper.Enough),
	picture.RoleBadgeTight:    graded(paper.Tight),
	picture.RoleBadgeOver:     graded(paper.Over),
	picture.RoleBadgeUncabled: graded(paper.Uncabled),

	picture.RoleTapeEdge: plain(0, 0.2),
	picture.RoleTapeText: plain(0, 0),

	picture.RoleDeviceFill:     {ink: paper.White},
	picture.RoleDeviceEdge:     plain(0, 0.35),
	picture.RoleDeviceText:     plain(0, 0),
	picture.RoleDeviceKindText: plain(40, 0),
	picture.RoleDeviceDot:      plain(0, 0),
	picture.RoleHeadFill:       plain(238, 0),
	picture.RoleHeadText:       plain(60, 0),
	picture.RoleRowRule:        plain(200, 0.15),
	picture.RolePictogram:      plain(0, 0.2),
	picture.RoleLeader:         plain(90, 0.15),
	picture.RolePortUsed:       plain(0, 0.2),
	picture.RolePortFree:       {ink: paper.White, width: 0.2},

	picture.RoleSelected:  plain(0, 0.7),
	picture.RoleFocus:     plain(0, 0.35),
	picture.RoleHandle:    plain(0, 0),
	picture.RoleBandFill:  plain(235, 0),
	picture.RoleBandEdge:  plain(90, 0.15),
	picture.RoleScaleBar:  plain(0, 0.25),
	picture.RoleScaleText: plain(0, 0),
})

// black are the roles of grades: the inks that a print in grey draws black, so that line and badge alone tell them.
var black = map[picture.Role]bool{
	picture.RoleLinkAmple: true, picture.RoleLinkEnough: true, picture.RoleLinkTight: true, picture.RoleLinkOver: true,
	picture.RoleJoinAmple: true, picture.RoleJoinEnough: true, picture.RoleJoinTight: true, picture.RoleJoinOver: true,
	picture.RoleLabelAmple: true, picture.RoleLabelEnough: true, picture.RoleLabelTight: true, picture.RoleLabelOver: true,
	picture.RoleBadgeAmple: true, picture.RoleBadgeEnough: true, picture.RoleBadgeTight: true, picture.RoleBadgeOver: true,
}

// lookOf returns how a role looks, in colour or in grey.
func lookOf(role picture.Role, grey bool) look {
	l := looks[role]
	switch {
	case grey && black[role]:
		l.ink = paper.Black
	case grey:
		l.ink = greyed(l.ink)
	}
	return l
}

// greyed returns the grey that a colour prints as, by the weights of Rec. ITU-R BT.601.
func greyed(c paper.Colour) paper.Colour {
	if c == paper.None {
		return c
	}
	return paper.Grey(uint8(0.299*float64(c.R) + 0.587*float64(c.G) + 0.114*float64(c.B) + 0.5))
}
